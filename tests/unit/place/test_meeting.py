from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from fitwright.place.meeting import farthest_in_sight, in_the_way, meets, nearest_beside
from fitwright.place.outline import Skin, skin_of

Floats = NDArray[np.float64]
BOX = np.zeros(3), np.array([10.0, 10.0, 10.0])


def triangle(*corners: tuple[float, float, float]) -> Floats:
    return np.array([corners], dtype=float)


def skin(*triangles: Floats) -> Skin:
    found = np.vstack(triangles)
    return skin_of(found, np.arange(len(found)), tuple(f"part {k}" for k in range(len(found))))


THROUGH = triangle((-50, -50, 5), (100, -50, 5), (-50, 100, 5))
BESIDE = triangle((12, 0, 0), (12, 10, 0), (12, 5, 9))
CORNER = triangle((16, 5, 5), (5, 16, 5), (16, 16, 5))  # its box meets the cube, it does not: x + y is 21
WITHIN = triangle((2, 2, 2), (4, 2, 2), (2, 4, 3))


@pytest.mark.parametrize(("one", "expected"), [(THROUGH, True), (BESIDE, False), (CORNER, False), (WITHIN, True)])
def test_a_triangle_and_a_box(one: Floats, expected: bool) -> None:
    assert bool(meets(one, *BOX)[0]) is expected


def test_touching_is_not_meeting() -> None:
    assert not meets(triangle((0, 0, 10), (10, 0, 10), (0, 10, 10)), *BOX)[0]
    assert meets(triangle((0, 0, 9.9), (10, 0, 9.9), (0, 10, 9.9)), *BOX)[0]


def test_a_box_without_size_meets_nothing() -> None:
    assert not meets(THROUGH, np.array([1.0, 1.0, 5.0]), np.array([2.0, 2.0, 5.0]))[0]


def test_names_of_what_is_in_the_way() -> None:
    assert in_the_way(skin(BESIDE, WITHIN, THROUGH), *BOX) == ("part 1", "part 2")


def test_the_farthest_of_what_a_box_covers() -> None:
    """Seen along y: a slanting wall that passes behind the box, largest where the box's edge cuts it."""
    slanting = triangle((-20, 0, -20), (40, 60, -20), (-20, 0, 60))
    found = farthest_in_sight(skin(slanting), *BOX, axis=1, sign=1.0)
    assert found is not None
    assert found.gap == pytest.approx(30.0, abs=0.1)  # y = x + 20, and the box ends at x = 10


def test_a_face_larger_than_the_box_is_seen_at_the_box_s_corners() -> None:
    wall = triangle((-500, 7, -500), (500, 7, -500), (0, 7, 900))
    found = farthest_in_sight(skin(wall), *BOX, axis=1, sign=1.0)
    assert found is not None
    assert found.gap == pytest.approx(7.0)
    assert farthest_in_sight(skin(BESIDE + 20), *BOX, axis=1, sign=1.0) is None


def test_how_near_it_comes_beside() -> None:
    found = nearest_beside(skin(BESIDE), *BOX, axis=1)
    assert found is not None
    assert found.gap == pytest.approx(2.0)
    assert found.way == pytest.approx([-2.0, 0.0])
    covered = nearest_beside(skin(THROUGH), *BOX, axis=1)
    assert covered is not None
    assert covered.gap == 0.0


def test_an_edge_past_a_corner() -> None:
    """From (20, 0) to (0, 20) as seen: the corner (10, 10) of the box lies on it; two farther out, root 2 away."""
    edge = triangle((22, 0, 0), (0, 0, 22), (22, 0, 22))
    found = nearest_beside(skin(edge), *BOX, axis=1)
    assert found is not None
    assert found.gap == pytest.approx(np.sqrt(2.0))
