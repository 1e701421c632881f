"""Points of sections, kept; the distance from an angle without its radii."""

from __future__ import annotations

from math import hypot

import numpy as np
import pytest

from fitwright.piece.sections import closely_of, distance_of, fibres_of, inner_of, outline_of
from fitwright.stock import Angle, Flat, RectTube, RoundTube


def test_distance_from_an_angle_as_two_plates() -> None:
    angle = Angle(40, 30, 4, 4, 2)
    uv = np.array([[20, 2], [20, 7], [2, 20], [-3, -4], [44, 2], [2, 33], [10, 12], [43, 8]], dtype=float)
    assert distance_of(angle, uv) == pytest.approx([-2, 3, -2, 5, 4, 3, 6, 5])
    # Its root is as good as sharp.
    assert distance_of(angle, np.array([[5.0, 5.0]])) == pytest.approx([1])
    assert angle.distance(np.array([[5.0, 5.0]]))[0] < 0


def test_other_sections_say_it_themselves() -> None:
    assert distance_of(RoundTube(20, 2), np.array([[6.0, 8.0], [9.0, 12.0]])) == pytest.approx([0, 5])
    assert distance_of(Flat(30, 5), np.array([[18.0, 6.5]])) == pytest.approx([hypot(3, 4)])


def test_kept_points_cannot_be_written_to() -> None:
    section = RectTube(40, 30, 2, 4)
    assert outline_of(section, 72) is outline_of(RectTube(40, 30, 2, 4), 72)
    with pytest.raises(ValueError, match="read-only"):
        outline_of(section, 72)[0, 0] = 1.0
    assert fibres_of(section)[:, 2].sum() == pytest.approx(section.area)


def test_inner_points_lie_within_the_material() -> None:
    section = RoundTube(25, 1.5)
    inner = inner_of(section)[:-1]
    assert (section.distance(inner) < -0.2).all()
    assert inner_of(section)[-1].tolist() == [0, 0]


def test_a_close_outline() -> None:
    around = closely_of(Flat(30, 5), 2.5)
    assert Flat(30, 5).distance(around) == pytest.approx(np.zeros(len(around)), abs=1e-9)
    along = np.column_stack([np.linspace(-15, 15, 200), np.full(200, 2.5)])
    nearest = np.linalg.norm(along[:, None] - around[None], axis=2).min(axis=1)
    assert nearest.max() <= 1.25
