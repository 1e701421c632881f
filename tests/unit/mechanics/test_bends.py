from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.mechanics import FrameError, bend_softening, chords
from fitwright.mechanics.bends import bend_characteristic


def test_worked_spreadsheet_of_the_code() -> None:
    """ASME B31.3-2006 table D300 worked for NPS 28: T 9.4 mm, R1 1066.8, Do 711.2, r2 350.9: h 0.081, k 20.26 (seen in
    a public spreadsheet)."""
    assert bend_characteristic(9.4, 1066.8, 711.2) == pytest.approx(0.081, abs=5e-4)
    assert bend_softening(9.4, 1066.8, 711.2) == pytest.approx(20.26, abs=0.005)


def test_never_stiffer_than_straight_tube() -> None:
    assert bend_softening(5.0, 500.0, 25.0) == 1.0


@pytest.mark.parametrize(("wall", "radius", "od"), [(0, 100, 30), (2, -5, 30), (16, 100, 15)])
def test_impossible_bends(wall: float, radius: float, od: float) -> None:
    with pytest.raises(FrameError, match="not possible"):
        bend_softening(wall, radius, od)


def test_chords_keep_to_the_arc() -> None:
    points = chords(np.array([0, 0, 5.0]), np.array([0, 0, 2.0]), np.array([100.0, 0, 8.0]), math.pi / 2, 6)
    assert points[0] == pytest.approx([100, 0, 8])
    assert points[-1] == pytest.approx([0, 100, 8])
    assert np.hypot(points[:, 0], points[:, 1]) == pytest.approx(np.full(7, 100.0))
