from __future__ import annotations

import pytest

from fitwright.checks.buckling import LEAST_FACTOR, buckling_findings, free_length
from fitwright.findings import Verdict
from tests.unit.checks.frames import demo, one, rack, results

MADE = rack()


def test_the_longest_stretch_between_joints() -> None:
    found = results(MADE)
    legs = [k for k, line in found.framed.lines.items() if line.member.part == "leg"]
    assert free_length(found, legs[0]) == pytest.approx(1200 - 700)


def test_bends_part_a_stretch() -> None:
    job, piece = demo("coat-rail")
    found = results((job, piece))
    rail = next(k for k, line in found.framed.lines.items() if line.member.part == "rail")
    assert free_length(found, rail) < 1300


def test_what_is_checked() -> None:
    found = buckling_findings(MADE[0], results(MADE))
    frame = one(found, "buckling of the whole frame")
    assert frame.limit == LEAST_FACTOR
    assert frame.value == pytest.approx(results(MADE).load_factor)
    assert one(found, "pushed as a column").subject.startswith("leg")
    assert one(found, "width of wall over its thickness").value == pytest.approx(16)


def test_too_much_load_buckles_the_uprights() -> None:
    made = rack("shelf: 6000 kg, push: {force: 10 N, height: 1000}", frame="square tube 25 x 25 x 1.5")
    found = buckling_findings(made[0], results(made))
    assert one(found, "buckling of the whole frame").verdict is Verdict.FAILS
    assert one(found, "pushed as a column").verdict is Verdict.FAILS


def test_a_paper_wall_is_told() -> None:
    made = rack(frame="square tube 40 x 40 x 0.5")
    found = buckling_findings(made[0], results(made))
    assert one(found, "width of wall over its thickness", "x 0.5").verdict is Verdict.FAILS
