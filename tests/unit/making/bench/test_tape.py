from __future__ import annotations

from math import hypot

import pytest

from fitwright.making.bench import bench_plans
from fitwright.making.bench.tape import BUILDS, iso_13920
from tests.unit.making.bench.samples import built, frame, hoop, planned, shop_with


def test_a_frame_is_read_by_its_outside() -> None:
    (plan,) = planned(frame(900, 500))
    by_kind: dict[str, list[float]] = {}
    for check in plan.checks:
        by_kind.setdefault(check.kind, []).append(check.length)
    assert by_kind["diagonal"] == pytest.approx([hypot(900, 500)] * 2)
    assert sorted(by_kind["width"]) == pytest.approx([500, 500, 900, 900])


def test_a_tape_over_a_bend_reads_its_greatest() -> None:
    """From the outer corner of a foot to the centre of the opposite bend, and its outer radius: 90 + 15."""
    (plan,) = planned(hoop(630, 900))
    diagonals = [check.length for check in plan.checks if check.kind == "diagonal"]
    centre_x, centre_y = 630 - 105, 900 - 105
    assert diagonals == pytest.approx([hypot(centre_x, centre_y) + 105] * 2)


def test_tolerances_are_those_given_else_iso_13920() -> None:
    """ISO 13920 table 1, class B: 864 mm 3, 406 mm 3, 1200 mm 4."""
    assert [iso_13920(length) for length in (864, 406, 1200)] == [3.0, 3.0, 4.0]
    assert [iso_13920(length, "A") for length in (864, 406, 1200)] == [2.0, 2.0, 3.0]
    assert iso_13920(30000.0) == 16.0
    job, piece = built(frame())
    (plan,) = bench_plans(piece, job, shop_with(), tolerance=lambda kind, length: 1.25 if kind == "diagonal" else 0.5)
    assert {check.tolerance for check in plan.checks} == {1.25, 0.5}
    assert {check.basis for check in plan.checks} == {BUILDS}


CROSS = """
job: {name: Cross, unit: mm}
stock: {tube: square tube 30 x 30 x 2}
parts:
  long: {stock: tube, path: [[0, 0, 15], [900, 0, 15]], ends: free}
  arm: {stock: tube, path: [[300, 0, 15], [300, 200, 15]], ends: {start: auto, finish: free}, mirror: {y: 0}}
"""

RING = """
job: {name: Ring, unit: mm}
stock: {tube: round tube 25 x 2}
parts:
  ring: {stock: tube, ring: {centre: [0, 0, 400], diameter: 300}}
"""


def test_a_cross_is_squared_from_an_end_to_its_arms() -> None:
    """A tape from corner to corner of its long bar would read the bar alone. From the far edge of its end to the far
    corner of an arm: 300 and half a tube along, 200 and half a tube across; equal when the arms are square to it."""
    (plan,) = planned(CROSS)
    diagonals = [check for check in plan.checks if check.kind == "diagonal"]
    assert [check.name.partition(":")[0] for check in diagonals] == [
        "diagonal, left to front",
        "diagonal, left to back",
    ]
    assert [check.length for check in diagonals] == pytest.approx([hypot(315, 215)] * 2)


def test_a_ring_is_read_over_its_outside_both_ways() -> None:
    (plan,) = planned(RING)
    assert [(check.kind, check.length) for check in plan.checks] == [("width", 325.0), ("width", 325.0)]
