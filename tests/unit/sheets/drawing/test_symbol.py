"""The projection symbol."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.sheets.drawing.directions import Projection
from fitwright.sheets.drawing.pens import LineKind
from fitwright.sheets.drawing.symbol import projection_symbol


@pytest.mark.parametrize("projection", list(Projection))
def test_the_small_end_faces_the_circles_in_third_angle_only(projection: Projection) -> None:
    # ISO 5456-2: the view shown as circles is that of the small end; in third angle it stands on the side it is seen
    # from, which is beside the small end, in first angle on the far side
    ink = projection_symbol(projection, (0.0, 0.0), 7.0)
    cone, *rings = [line.points for line in ink.lines if line.kind is LineKind.VISIBLE]
    ends = sorted({float(x) for x in cone[:, 0]}, key=lambda x: float(np.ptp(cone[cone[:, 0] == x, 1])))
    to_small, to_large = (abs(float(rings[0][:, 0].mean()) - x) for x in ends)
    small, large = (float(np.ptp(cone[cone[:, 0] == x, 1])) for x in ends)
    assert bool(to_small < to_large) is (projection is Projection.THIRD_ANGLE)
    assert len(rings) == 2
    assert np.ptp(rings[0][:, 1]) == pytest.approx(large, rel=0.01)
    assert np.ptp(rings[1][:, 1]) == pytest.approx(small, rel=0.01)
