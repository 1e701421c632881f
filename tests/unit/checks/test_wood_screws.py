from __future__ import annotations

import pytest

from fitwright.checks.wood_screws import screw_findings
from fitwright.findings import Verdict
from tests.unit.checks.samples import changed, demo, one, table

LENGTH = '{size: "#8 x 1 1/4", length: 1 1/4}'


def screws(size: str) -> str:
    return f'{{size: "#8 x {size}", length: {size}}}'


@pytest.mark.parametrize(
    ("size", "through", "bite"),
    [
        ("1 1/4", Verdict.HOLDS, Verdict.HOLDS),
        ("1 1/2", Verdict.FAILS, Verdict.HOLDS),
        ("1", Verdict.HOLDS, Verdict.FAILS),
    ],
)
def test_screws_from_below_stay_in_the_slat(size: str, through: Verdict, bite: Verdict) -> None:
    found = screw_findings(*changed("drying-rack", (LENGTH, screws(size))))
    assert one(found, "come through").verdict is through
    assert one(found, "come through").limit == pytest.approx((0.75 + 0.75 - 0.125) * 25.4)
    assert one(found, "bite").verdict is bite


def test_two_screws_share_a_crossing() -> None:
    found = one(screw_findings(*demo("drying-rack")), "edge")
    assert found.value == pytest.approx(2.5 * 25.4 / 4)
    assert found.limit == pytest.approx(2.5 * 0.164 * 25.4)


def test_a_bolt_into_the_top_passes_the_tube_s_wall() -> None:
    found = one(screw_findings(*demo("workbench")), "come through")
    wall = demo("workbench")[1].members[0].stock.section.dimensions["wall"]
    assert found.limit == pytest.approx(wall + 1.75 * 25.4 - 3.175, abs=0.02)


TOP = """
  top:
    solid: board
    from: [0, 0, 700]
    to: [800, 400, 700]
    along: x
    fastened: screwed
"""
SCREW = """
  screw:
    screw: {{size: "#8 x 20 mm"{length}}}
    at: [20, {y}, 700]
"""


def test_a_screw_near_an_edge_fails() -> None:
    near = one(screw_findings(*table(TOP + SCREW.format(length=", length: 16", y=6))), "edge")
    assert near.verdict is Verdict.FAILS
    assert near.value == pytest.approx(6)
    far = one(screw_findings(*table(TOP + SCREW.format(length=", length: 16", y=40))), "edge")
    assert far.verdict is Verdict.HOLDS


def test_what_is_missing_is_asked_for() -> None:
    assert (
        "parts: screw: screw: length" in one(screw_findings(*table(TOP + SCREW.format(length="", y=40))), "come").advice
    )
    assert "that hold top" in one(screw_findings(*table(TOP)), "come").advice
