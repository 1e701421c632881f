from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from fitwright.making.coping.lines import CHORD_MM, traced, wall_lines
from fitwright.making.coping.strip import RoundStrip

Floats = NDArray[np.float64]


def test_square_through_the_wall_stops_at_the_worst_of_it() -> None:
    def dip(uv: Floats) -> Floats:
        across = np.linalg.norm(uv, axis=1)
        return np.asarray((across - 18.7) ** 2)

    square, outside, inside = wall_lines(RoundStrip(20, 4), dip, np.array([0.0, 10.0])).T
    # the stations nearest to the worst place are at most a 64th of the wall from it
    assert square == pytest.approx([0, 0], abs=(4 / 64) ** 2)
    assert outside == pytest.approx([1.69, 1.69])
    assert inside == pytest.approx([7.29, 7.29])


def test_mitre_of_a_tube_is_a_sine_curve() -> None:
    """A plane at a slope of 1 in u: heights r cos(phi), the lower of outside and inside when cut square through."""
    strip = RoundStrip(20, 2)
    s = np.linspace(0, strip.girth, 37)
    square, outside, inside = wall_lines(strip, lambda uv: uv[:, 0], s).T
    assert outside == pytest.approx(20 * np.cos(s / 20))
    assert inside == pytest.approx(18 * np.cos(s / 20))
    assert square == pytest.approx(np.minimum(outside, inside))


def test_traced_points_leave_no_chord_off_the_curve() -> None:
    def curve(x: Floats) -> Floats:
        return np.column_stack([np.abs(x - 31.4), np.sin(x), np.zeros_like(x)])

    x, y = traced(curve, 100.0, np.array([20.0]))
    assert x[0] == 0
    assert x[-1] == 100
    assert 20.0 in x
    assert (np.diff(x) > 0).all()
    fine = np.linspace(0, 100, 50001)
    off = [np.abs(np.interp(fine, x, y[:, k]) - curve(fine)[:, k]).max() for k in range(3)]
    assert max(off) < 2 * CHORD_MM
