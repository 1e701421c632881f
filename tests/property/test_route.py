"""What holds of any box at any corner: wider leaves more room, its first heading does not matter, halves weigh all."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitwright.place.route.bulk import halves
from fitwright.place.route.convex import hull, turned
from fitwright.place.route.lifting import people_for, recommended_limit
from fitwright.place.route.turning import Turn
from tests.unit.place.route.boxes import box

sizes = st.floats(100, 2500)
passages = st.floats(500, 2000)
angles = st.sampled_from([30.0, 60.0, 90.0, 120.0])
outlines = st.lists(st.tuples(st.floats(-900, 900), st.floats(-900, 900)), min_size=3, max_size=8)


@given(outlines, passages, passages, angles, st.floats(0, 300))
@settings(max_examples=40, deadline=None)
def test_wider_passages_never_leave_less_room(
    points: list[tuple[float, float]], first: float, second: float, angle: float, more: float
) -> None:
    outline = hull(np.array(points))
    room = Turn(outline, first, second, np.radians(angle)).best().room
    wider = Turn(outline, first + more, second + more, np.radians(angle)).best().room
    assert room - 1e-3 <= wider <= room + more + 1e-3


@given(outlines, passages, passages, st.integers(0, 719))
@settings(max_examples=40, deadline=None)
def test_the_heading_that_it_was_drawn_at_does_not_matter(
    points: list[tuple[float, float]], first: float, second: float, steps: int
) -> None:
    outline = hull(np.array(points))
    other = turned(outline, np.radians(steps / 2))
    one = Turn(outline, first, second, np.pi / 2).best().room
    assert Turn(other, first, second, np.pi / 2).best().room == pytest.approx(one, abs=1e-3)


@given(sizes, sizes, sizes, st.integers(0, 2), st.floats(0.05, 0.95))
@settings(max_examples=40, deadline=None)
def test_halves_weigh_what_the_whole_does(width: float, depth: float, high: float, axis: int, share: float) -> None:
    whole = box(width, depth, high)
    at = share * float(whole.size[axis])
    one, other = halves(whole, axis, at)
    assert one.mass + other.mass == pytest.approx(whole.mass)
    assert one.mass == pytest.approx(share * whole.mass)
    centre = (one.mass * one.centre + other.mass * other.centre) / whole.mass
    assert centre == pytest.approx(whole.centre)


@given(st.floats(250, 630), st.floats(0, 1750), st.floats(0, 1500), st.floats(1, 120))
@settings(max_examples=60, deadline=None)
def test_nobody_lifts_more_than_the_ideal_and_more_people_never_do_less(
    before: float, high: float, raised: float, mass: float
) -> None:
    limit = recommended_limit(before, high, raised)
    assert 0 <= limit <= 23.0
    one, two = people_for(mass, limit) or 5, people_for(mass * 1.2, limit) or 5
    assert one <= two
