from __future__ import annotations

import pytest

from fitwright.checks.spacing import spacing_findings
from fitwright.findings import Verdict
from fitwright.job import parse_job
from fitwright.piece import build
from tests.unit.checks.samples import demo

SEAT = """
job: {{name: Bench, unit: inch}}
stock: {{seat: lumber 2x6 douglas fir}}
parts:
  seat: {{slats: seat, from: [0, 0, 16], to: [60, {deep}, 16], along: x, gap: 1/4}}
"""


def test_two_boards_where_three_nearly_fit_are_told_with_the_widths_that_would_do() -> None:
    """By hand: two boards of 5 1/2 in leave 5 in of 16; 11 1/4 or 17 takes whole boards with gaps of 1/4."""
    job = parse_job(SEAT.format(deep=16))
    (found,) = spacing_findings(job, build(job))
    assert found.verdict is Verdict.TIGHT
    assert found.value == pytest.approx(5 * 25.4)
    assert 'make it 11 1/4" or 17" across instead of 16"' in found.advice


@pytest.mark.parametrize("deep", ["11 1/4", "17"])
def test_the_widths_told_cure_it(deep: str) -> None:
    job = parse_job(SEAT.format(deep=deep))
    assert spacing_findings(job, build(job)) == []


def test_gaps_near_the_one_wanted_are_not_spoken_of() -> None:
    assert spacing_findings(*demo("drying-rack")) == []
