"""What holds of any piece in any place: nothing that is told depends on where the zero is, more room is more gap."""

from __future__ import annotations

from math import hypot

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from fitwright.job import parse_job
from fitwright.job.model import Opening, PlanSurvey, Space
from fitwright.piece import build
from fitwright.place import Fit, fit
from fitwright.place.meeting import meets, nearest_beside
from fitwright.place.outline import skin_of
from fitwright.place.resting import _resting, _rock, floor_heights
from fitwright.place.survey import closures
from fitwright.place.survey.tape import USUAL, spread_of

Floats = NDArray[np.float64]
corner = st.tuples(*[st.floats(-30, 30)] * 3)
some = st.floats(-6, 6)


@given(st.tuples(corner, corner, corner), st.tuples(*[st.floats(2, 12)] * 3))
@settings(max_examples=60, deadline=None)
def test_a_triangle_meets_a_box_where_one_of_its_points_is_inside(
    corners: tuple[tuple[float, float, float], ...], half: tuple[float, float, float]
) -> None:
    """Points spread over the triangle: one well inside proves that they meet; where they do not, none is."""
    triangle, high = np.array([corners]), np.array(half)
    weights = np.array([(i, j, 24 - i - j) for i in range(25) for j in range(25 - i)]) / 24
    points = weights @ triangle[0]
    inside = float(np.max(np.min(high - np.abs(points), axis=1)))
    met = bool(meets(triangle, -high, high)[0])
    assert met or inside < 0.1
    apart = float(np.min(np.linalg.norm(np.maximum(np.abs(points) - high, 0), axis=1)))
    spacing = max(float(np.linalg.norm(triangle[0, k] - triangle[0, k - 1])) for k in range(3)) / 24
    assert not met or apart <= spacing


@given(st.tuples(corner, corner, corner), st.tuples(*[st.floats(2, 12)] * 3))
@settings(max_examples=60, deadline=None)
def test_the_gap_beside_is_that_of_the_nearest_point_of_an_edge(
    corners: tuple[tuple[float, float, float], ...], half: tuple[float, float, float]
) -> None:
    triangle, high = np.array([corners]), np.array(half)
    found = nearest_beside(skin_of(triangle, np.zeros(1, dtype=np.int64), ("a",)), -high, high, axis=1)
    assert found is not None
    along = np.linspace(0, 1, 401)[:, None]
    points = np.vstack([triangle[0, k - 1] + along * (triangle[0, k] - triangle[0, k - 1]) for k in range(3)])
    away = np.maximum(np.abs(points[:, [0, 2]]) - high[[0, 2]], 0)
    sampled = float(np.hypot(*away.T).min())
    assert found.gap <= sampled + 1e-9
    assert found.gap >= sampled - 0.2


@given(st.lists(some, min_size=4, max_size=7), st.integers(0, 10_000))
@settings(max_examples=60, deadline=None)
def test_a_piece_rests_on_three_feet_with_none_in_the_floor(heights: list[float], seed: int) -> None:
    rng = np.random.default_rng(seed)
    at = rng.uniform(0, 900, (len(heights), 2))
    high = np.array(heights)
    planes = _resting(at, high)
    assert len(planes)
    over = planes @ np.column_stack([at, np.ones(len(at))]).T - high
    assert (over > -1e-5).all()
    assert ((over < 1e-5).sum(axis=1) >= 3).all()
    assert all(_rock(at, high, planes, plane) >= 0 for plane in planes)


@given(st.lists(some, min_size=3, max_size=8), st.floats(-50, 50), st.integers(0, 10_000))
@settings(max_examples=40, deadline=None)
def test_raising_the_whole_floor_raises_it_everywhere(heights: list[float], by: float, seed: int) -> None:
    rng = np.random.default_rng(seed)
    places = [tuple(place) for place in rng.uniform(0, 2000, (len(heights), 2)).tolist()]
    asked = rng.uniform(0, 2000, (5, 2))
    before = floor_heights(list(zip(places, heights, strict=True)), asked)
    after = floor_heights([(place, h + by) for place, h in zip(places, heights, strict=True)], asked)
    assert np.allclose(after - before, by, atol=1e-5)


@given(st.lists(some, min_size=6, max_size=6))
@settings(max_examples=40, deadline=None)
def test_a_survey_within_its_spread_is_not_called_wrong(errors: list[float]) -> None:
    """Six lengths of a place out of square, each off by less than a sixth of its spread: they close."""
    corners = np.array([[0.0, 0], [1400, 0], [15, 700], [1390, 712]])
    pairs = [(0, 1), (2, 3), (0, 2), (1, 3), (0, 3), (1, 2)]
    names = ("front", "back", "left", "right", "front left to back right", "front right to back left")
    lengths = {
        name: hypot(*(corners[a] - corners[b])) + error / 36 * spread_of(1000.0)
        for name, (a, b), error in zip(names, pairs, errors, strict=True)
    }
    (found,) = closures(Space(opening=Opening(plan=PlanSurvey(lengths))))
    assert found.chance > 0.3
    assert found.miss < found.usual / USUAL


FRAME = """
stock: {post: square bar 40}
parts:
  post: {stock: post, path: [[20, 20, 0], [20, 20, 1000]], ends: free, repeat: {x: [0, 560], y: [0, 360]}}
"""


def placed(space: str) -> Fit:
    job = parse_job(f"job: {{name: trial, unit: mm}}\nspace:\n{space}{FRAME}")
    found = fit(job, build(job))
    assert found is not None
    return found


lean = st.floats(-12, 12).map(lambda x: round(x, 3))


@given(lean, lean, st.floats(640, 720).map(lambda x: round(x, 3)), st.floats(1, 40).map(lambda x: round(x, 3)))
@settings(max_examples=20, deadline=None)
def test_a_wider_place_leaves_more_and_shares_it(left: float, right: float, wide: float, more: float) -> None:
    def gaps(width: float) -> tuple[float, float]:
        found = placed(f"  opening: {{width: {width:.3f}, height: 1100, lean: {{left: {left}, right: {right}}}}}\n")
        by_side = {gap.side: gap.value for gap in found.gaps}
        return by_side["left"], by_side["right"]

    one, other = gaps(wide), gaps(wide + more)
    assert np.allclose(one[0], one[1])
    assert np.allclose(np.array(other) - one, more / 2, atol=1e-3)


@given(st.integers(0, 10_000))
@settings(max_examples=3, deadline=None)
def test_what_the_survey_leaves_open_is_what_surveying_again_scatters(seed: int) -> None:
    """Every length drawn anew from its own spread, many times: 19 in 20 of the gaps lie within what is told."""
    rng = np.random.default_rng(seed)
    sizes = np.array([690.0, 684.0, 688.0, 460.0])
    text = (
        "  opening: {{width: [{:.4f}, {:.4f}, {:.4f}], depth: {:.4f}, height: 1200}}\n  within: 6\n"
        "  stand: {{left: 20}}\n"
    )
    told = {gap.side: (gap.value, gap.spread) for gap in placed(text.format(*sizes)).gaps}
    drawn = [placed(text.format(*(sizes + rng.normal(0, 6 / USUAL, 4)))) for _ in range(150)]
    for side in ("right", "front"):
        values = np.array([next(gap.value for gap in one.gaps if gap.side == side) for one in drawn])
        value, spread = told[side]
        within = float((np.abs(values - value) <= spread).mean())
        assert 0.88 <= within <= 1.0
        assert 0.8 < USUAL * float(values.std()) / spread < 1.2
