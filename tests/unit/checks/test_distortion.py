from __future__ import annotations

from dataclasses import replace

import pytest

from fitwright.checks.distortion import Remedy, distortion_findings, limit_of
from fitwright.checks.welded_tolerances import ToleranceError, linear_tolerance, straightness_tolerance
from fitwright.findings import Verdict
from fitwright.job import parse_job
from fitwright.job.model import Job
from fitwright.mechanics.framing import Framed, framed
from fitwright.mechanics.shrinkage import Bead, Pull, Spread, arc_for, pull_of, seams
from fitwright.piece import build

TABLE = """job: {name: trial, unit: mm}
stock: {tube: round tube 30 x 2 mm}
parts:
  rail: {stock: tube, path: [[0, 0, 500], [800, 0, 500]], ends: free}
  leg: {stock: tube, path: [[100, 0, 0], [100, 0, 500]], repeat: {x: [0, 600]}}
  stretcher: {stock: tube, path: [[100, 0, 150], [700, 0, 150]]}
"""

Made = tuple[Job, Framed, tuple[Bead, ...], Pull]


@pytest.fixture(scope="module")
def made() -> Made:
    job = parse_job(TABLE)
    piece = build(job)
    frame = framed(piece, job)
    beads = tuple(Bead(seam, 2.5, 3.5, arc_for("MIG", 2.0), 3, 6.0) for seam in seams(piece))
    return job, frame, beads, pull_of(frame, beads)


def test_the_worst_of_each_kind_is_told_once(made: Made) -> None:
    job, _, _, pull = made
    found = distortion_findings(pull, job)
    kinds = {movement.measure.kind for movement in pull.groups[0].proposed.movements}
    assert len(found) == len(kinds)
    for finding in found:
        assert finding.value is not None
        assert finding.limit is not None
        mine = [m for m in pull.groups[0].proposed.movements if finding.check.endswith(m.measure.kind)]
        assert max(m.change.most / limit_of(m) for m in mine) >= finding.value / finding.limit


def test_verdicts_by_likely_and_by_the_end_of_the_range(made: Made) -> None:
    job, frame, beads, pull = made
    feet = {Verdict.HOLDS: 0.02, Verdict.TIGHT: 0.9, Verdict.FAILS: 3.0}
    for verdict, factor in feet.items():
        scaled = pull_of(frame, beads, factor=Spread(factor, 0.45 * factor, "a trial"), before=pull)
        finding = next(f for f in distortion_findings(scaled, job) if f.check.endswith("apart"))
        assert finding.verdict is verdict


def test_advice_gives_the_figure_that_comes_out_when_it_is_followed(made: Made) -> None:
    job, frame, beads, pull = made
    half = pull_of(frame, [replace(bead, share=0.5) for bead in beads], before=pull)
    finding = next(
        f for f in distortion_findings(pull, job, [Remedy("weld half of each seam", half)]) if f.check.endswith("apart")
    )
    followed = next(f for f in distortion_findings(half, job) if f.check.endswith("apart"))
    assert finding.subject == followed.subject
    assert f"weld half of each seam: likely {followed.value:.1f} mm" in finding.advice
    assert finding.verdict is Verdict.TIGHT


def test_a_tight_pull_is_cured_by_welding_less(made: Made) -> None:
    job, frame, beads, pull = made
    cured = pull_of(frame, [replace(bead, share=0.25) for bead in beads], before=pull)
    verdicts = [
        next(f.verdict for f in distortion_findings(p, job) if f.check.endswith("apart")) for p in (pull, cured)
    ]
    assert verdicts == [Verdict.TIGHT, Verdict.HOLDS]


def test_presetting_is_offered_with_its_amount(made: Made) -> None:
    job, _, _, pull = made
    finding = next(f for f in distortion_findings(pull, job) if f.check.endswith("apart"))
    assert f"or tack it {finding.value:.1f} mm longer, and the pull brings it back to within" in finding.advice


@pytest.mark.parametrize(("size", "grade"), [(1.0, "B"), (500.0, "Z")])
def test_what_the_table_does_not_have(size: float, grade: str) -> None:
    with pytest.raises(ToleranceError):
        linear_tolerance(size, grade)


def test_edges_of_the_steps_belong_to_the_lower_one() -> None:
    assert linear_tolerance(400.0) == 2.0
    assert linear_tolerance(400.1) == 3.0
    assert linear_tolerance(2.0) == 1.0
    assert straightness_tolerance(1e6, "E") == 8.0
