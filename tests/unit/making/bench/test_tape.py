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
