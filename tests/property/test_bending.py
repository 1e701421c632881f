"""Invariants of bending: round trips, mirror, reversal, rigid motion, no tube shorter than the gap it spans."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from fitwright.making.bending.collision import bent_part, swing_with_die
from fitwright.making.bending.model import EndNeed
from fitwright.making.bending.sheet import bend_sheet
from fitwright.making.bending.springback import kept_angle
from fitwright.making.bending.table import Bend, BendTable, Pose, path_of, pose_of, table_of, turned
from fitwright.piece.path import Arc, Path, Straight
from fitwright.shop import default_shop
from fitwright.stock import RoundTube, parse_stock

Floats = NDArray[np.float64]
ROUND_TRIP = 1e-9  # relative to lengths of about a metre, in mm; absolute for angles in rad
quick = settings(max_examples=60, deadline=None)


def numbers(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_nan=False, allow_infinity=False)


bends = st.builds(
    Bend,
    straight_before=numbers(5, 600),
    rotation=numbers(-math.pi + 0.01, math.pi - 0.01),
    angle=numbers(0.05, math.radians(200)),
    radius=numbers(15, 200),
)


@st.composite
def tables(draw: st.DrawFn) -> BendTable:
    first, *rest = draw(st.lists(bends, min_size=1, max_size=5))
    first = Bend(first.straight_before, 0.0, first.angle, first.radius)
    return BendTable((first, *rest), draw(numbers(5, 600)))


@st.composite
def poses(draw: st.DrawFn) -> Pose:
    axis = np.array([draw(numbers(-1, 1)) for _ in range(3)]) + np.array([0, 0, 2.0])
    axis /= np.linalg.norm(axis)
    angle = draw(numbers(-3, 3))
    start = np.array([draw(numbers(-500, 500)) for _ in range(3)])
    return Pose(start, turned(np.array([1.0, 0, 0]), axis, angle), turned(np.array([0, 0, 1.0]), axis, angle))


def rows(table: BendTable) -> Floats:
    return np.array([[bend.straight_before, bend.rotation, bend.angle, bend.radius] for bend in table.bends])


def same(one: BendTable, other: BendTable) -> bool:
    scale = 1000 * ROUND_TRIP
    return len(one.bends) == len(other.bends) and bool(
        np.allclose(rows(one), rows(other), rtol=0, atol=scale)
        and math.isclose(one.last_straight, other.last_straight, abs_tol=scale)
    )


@quick
@given(tables(), poses())
def test_table_to_path_to_table(table: BendTable, pose: Pose) -> None:
    """Wherever the tube lies: the table does not depend on it (rigid motion)."""
    back = table_of(path_of(table, pose))
    assert same(back, table)
    assert np.abs(rows(back)[:, 1:3] - rows(table)[:, 1:3]).max() < 1e-8


@quick
@given(tables(), poses())
def test_path_to_table_to_path(table: BendTable, pose: Pose) -> None:
    path = path_of(table, pose)
    again = path_of(table_of(path), pose_of(path))
    assert np.abs(again.vertices - path.vertices).max() < 5000 * ROUND_TRIP


@quick
@given(tables(), poses())
def test_mirror_image_turns_the_rotations_over(table: BendTable, pose: Pose) -> None:
    path = path_of(table, pose)
    image = Path(path.vertices * np.array([-1.0, 1.0, 1.0]), path.radii)
    assert same(table_of(image), table.mirrored())


@quick
@given(tables())
def test_reversed_path_reverses_the_table(table: BendTable) -> None:
    path = path_of(table)
    backwards = Path(path.vertices[::-1], path.radii[::-1])
    assert same(table_of(backwards), table.reversed())
    assert same(table.reversed().reversed(), table)


@quick
@given(tables())
def test_length_is_kept_and_spans_the_gap(table: BendTable) -> None:
    path = path_of(table)
    sheet = bend_sheet("any", path)
    assert sheet.developed == pytest.approx(path.length, rel=1e-9)
    assert sheet.developed >= np.linalg.norm(path.end - path.start) - 1e-9


@quick
@given(tables(), numbers(-4, 4), numbers(-40, 10), st.booleans())
def test_marks_and_straights_add_up_to_the_blank(table: BendTable, radius_step: float, tip: float, after: bool) -> None:
    """Walking the steps from the blank's start ends at its other end, whatever is left on at either."""
    fitted = BendTable(
        tuple(Bend(b.straight_before, b.rotation, b.angle, 100.0) for b in table.bends), table.last_straight
    )
    ends = (EndNeed(tip, tip - 5, after), EndNeed(radius_step, radius_step, False))
    stock, shop = parse_stock("round tube 32 x 2"), default_shop("mm")
    sheet = bend_sheet("any", path_of(fitted), stock, shop, ends=ends)
    at = sheet.trims[0].allowance
    for step in sheet.steps:
        assert step.tangent == pytest.approx(at + step.straight_before)
        at = step.tangent + step.taken_up
    assert at + sheet.last_straight + sheet.trims[1].allowance == pytest.approx(sheet.blank)
    assert sheet.finished == pytest.approx(sheet.developed + tip + radius_step)


@quick
@given(tables())
def test_the_machine_bends_what_the_path_draws(table: BendTable) -> None:
    """The bent part, swung by the bend's angle, lies to the tube behind as the path's start does: not mirrored."""
    for k in range(1, len(table.bends)):
        bend = table.bends[k]
        swung = swing_with_die(bent_part(table, k), bend.radius, bend.angle)
        # Seen at the machine: the tube travels along -x and bends about -z.
        machine = swung[-1] @ np.array([[-1.0, 0, 0], [0, 0, -1.0]]).T
        path = path_of(BendTable(table.bends[: k + 1], 100.0))
        arc, straight = path.segments[-2], path.segments[-1]
        assert isinstance(arc, Arc)
        assert isinstance(straight, Straight)
        seen = np.array([straight.direction, arc.axis]) @ (path.start - straight.start)
        assert machine == pytest.approx(seen, abs=1e-6)


@quick
@given(numbers(15, 60), numbers(0.04, 0.45), numbers(2, 8), numbers(150, 600))
def test_springback_is_between_none_and_all(od: float, wall: float, diameters: float, fy: float) -> None:
    tube = RoundTube(od, od * wall)
    tight, wide = (kept_angle(tube, od * factor, fy, 200_000) for factor in (diameters, 2 * diameters))
    assert 0 <= wide < tight < 1
    assert kept_angle(tube, od * diameters, fy * 1.2, 200_000) < tight
