"""Doors past a box of boards: angles and distances by hand."""

from __future__ import annotations

from math import atan2, degrees, hypot, pi

import numpy as np
import pytest

from fitwright.job.model import Door, Where
from fitwright.place.outline import BOX_FACES, CORNERS, Skin, skin_of
from fitwright.place.swinging import leaf, swing_of, way_of


def box(low: tuple[float, float, float], high: tuple[float, float, float]) -> Skin:
    corners = np.array(low) + CORNERS * (np.array(high) - np.array(low))
    return skin_of(corners[BOX_FACES], np.zeros(12, dtype=np.int64), ("side",))


def door(**changed: object) -> Door:
    """Hinged at the origin, shut along the front line, opening into the room."""
    known: dict[str, object] = {
        "name": "door", "where": Where("", 0), "hinge": (0.0, 0.0), "width": 800.0, "height": 2000.0,
        "thickness": 40.0, "shut": "right", "opens": "back", "turns": pi / 2,
    }  # fmt: skip
    return Door(**{**known, **changed})  # type: ignore[arg-type]


def test_a_box_outside_is_not_touched() -> None:
    found = swing_of(door(), box((300, 900, 0), (500, 1000, 500)))
    # from the hinge to the corner at (300, 900)
    assert found.touches == ""
    assert found.side == "front"
    assert found.gap == pytest.approx(hypot(300, 900) - 800)
    assert found.opens == pytest.approx(pi / 2)


def test_a_box_inside_stops_it_at_its_nearest_corner() -> None:
    found = swing_of(door(), box((200, 300, 0), (400, 500, 500)))
    assert found.touches == "side"
    assert degrees(found.opens) == pytest.approx(degrees(atan2(300, 400)))
    assert found.gap == 0.0


def test_what_the_edge_of_the_leaf_meets_is_met_on_its_circle() -> None:
    """A side at x = 700 from y = 0 on: the circle of 800 passes it at y = sqrt(800² - 700²)."""
    found = swing_of(door(), box((700, 100, 0), (900, 1200, 500)))
    assert degrees(found.opens) == pytest.approx(degrees(atan2(100, (800**2 - 100**2) ** 0.5)), abs=1e-3)


def test_a_leaf_that_ends_below_passes_under() -> None:
    assert swing_of(door(height=400.0), box((200, 300, 500), (400, 500, 900))).touches == ""


def test_a_box_behind_the_shut_leaf_is_not_in_its_way() -> None:
    found = swing_of(door(), box((200, -100, 0), (400, -30, 500)))
    assert found.touches == ""
    assert found.gap == pytest.approx(30.0)


def test_beyond_the_angle_wanted_it_is_near_the_open_leaf() -> None:
    """Open by 90°, the leaf stands along x = 0; the box is 25 to its left."""
    found = swing_of(door(), box((-200, 100, 0), (-25, 300, 500)))
    assert found.touches == ""
    assert found.gap == pytest.approx(25.0)


def test_far_away_nothing_is_measured() -> None:
    assert swing_of(door(), box((3000, 3000, 0), (3100, 3100, 10))).gap == np.inf


def test_the_leaf_and_its_way() -> None:
    corners = leaf(door(), pi / 2)
    assert corners[1] == pytest.approx([0.0, 800.0], abs=1e-9)
    assert corners[2] == pytest.approx([40.0, 800.0], abs=1e-9)  # its thickness lies behind the face that comes first
    assert way_of(door())[[0, -1]] == pytest.approx(np.array([[800.0, 0.0], [0.0, 800.0]]), abs=1e-9)
