from __future__ import annotations

import pytest

from fitwright.making.bench.groups import groups_of
from fitwright.making.bench.pose import posed, up_words
from tests.unit.making.bench.samples import built, planned

BRACKET = """
job: {name: Bracket, unit: mm}
stock: {bar: flat 40 x 6, strut: round bar 16}
parts:
  upright: {stock: bar, path: [[0, 300, 0], [0, 300, 294]], wide: x, follows: back, ends: free}
  arm: {stock: bar, path: [[0, 300, 300], [0, 50, 300]], wide: x, follows: up, ends: {start: auto, finish: free}}
  strut: {stock: strut, path: [[0, 294, 30], [0, 80, 294]]}
"""

STOOL = """
job: {name: Stool, unit: mm}
stock: {tube: round tube 25 x 2}
parts:
  ring:
    stock: tube
    ring: {centre: [0, 0, 580], diameter: 280}
  leg:
    stock: tube
    path: [[0, -205, 0], [0, -140, 580]]
    ends: {start: level, finish: auto}
    repeat: {around: {centre: [0, 0], count: 4}}
"""


def test_most_of_what_lies_runs_along_the_holes() -> None:
    """The strut is the longest straight, but upright and arm together are longer and square to one another."""
    plan = planned(BRACKET)[0]
    assert {stop.part for stop in plan.stops} == {"A1", "B1"}
    assert plan.conditioning > 0.25
    (skew,) = [f.advice for f in plan.findings if f.check == "parts that run askew"]
    assert skew.startswith("C1 ")


def test_a_ring_goes_down_on_the_bench() -> None:
    """Legs that lean in one plane are level when the stool lies on its side, which is no way to make it."""
    _, piece = built(STOOL)
    order = groups_of(piece, None)
    whole = posed(piece, order, len(order) - 1)
    assert up_words(whole.rotation[2]) == "bottom"
    assert whole.base.name == "ring"
    assert whole.base.bottom == pytest.approx(0.0, abs=1e-6)
