"""The wall of a tube under a branch: two published rules for the same thing, beside one another.

AISC 360-22, Tables K3.1 and K4.1 (as seen in a transcription): strength at Omega 1.67 (phi 0.90). EN 1993-1-8:2005,
Tables 7.2 and 7.4: N = gamma^0.2 fy t^2 (2.8 + 14.2 beta^2), Mip = 4.85 fy t^2 sqrt(gamma) beta d, Mop = fy t^2 d
2.7 / (1 - 0.81 beta), with the safety inside. So 0.90 of AISC's nominal strength has to be the European design value.
"""

from __future__ import annotations

from math import pi, sqrt

import pytest

from fitwright.checks.tees import Footprint, wall_bears
from fitwright.stock import RectTube, RoundTube

SAME_RULE = 0.02
OMEGA, PHI = 1.67, 0.90


@pytest.mark.parametrize(("od", "wall", "branch"), [(219.1, 8.18, 114.3), (32.0, 2.0, 32.0), (60.3, 2.9, 26.9)])
def test_round_on_round(od: float, wall: float, branch: float) -> None:
    fy, beta, gamma = 235.0, branch / od, od / (2 * wall)
    bears = wall_bears(RoundTube(od, wall), Footprint(branch, branch, od, True), fy)
    assert bears is not None
    unit = fy * wall**2
    factor = OMEGA * PHI
    assert factor * bears.axial == pytest.approx(unit * gamma**0.2 * (2.8 + 14.2 * beta**2), rel=SAME_RULE)
    assert factor * bears.in_plane == pytest.approx(4.85 * unit * sqrt(gamma) * beta * branch, rel=SAME_RULE)
    assert factor * bears.out_of_plane == pytest.approx(unit * branch * 2.7 / (1 - 0.81 * beta), rel=SAME_RULE)


def test_square_on_square_by_yield_lines() -> None:
    """EN 1993-1-8, Table 7.11: N = fy t^2 / (1 - beta) (2 eta + 4 sqrt(1 - beta)); for a round branch pi / 4 of it."""
    fy, wall, beta = 235.0, 3.0, 0.5
    tube = RectTube(80.0, 80.0, wall, 6.0)
    square = wall_bears(tube, Footprint(40.0, 40.0, 80.0, False), fy)
    round_branch = wall_bears(tube, Footprint(40.0, 40.0, 80.0, True), fy)
    assert square is not None
    assert round_branch is not None
    expected = fy * wall**2 / (1 - beta) * (2 * 0.5 + 4 * sqrt(1 - beta)) / 1.5
    assert square.axial == pytest.approx(expected)
    assert round_branch.axial == pytest.approx(pi / 4 * expected)


def test_full_width_branch_stands_on_the_side_walls() -> None:
    """Side wall yielding, Table 7.11 at beta = 1: 2 fy t (h + 5 t), and the straight line down to it from 0.85."""
    fy, wall = 235.0, 3.0
    tube = RectTube(80.0, 80.0, wall, 6.0)
    full, less, middle = (wall_bears(tube, Footprint(80.0, w, 80.0, False), fy) for w in (80.0, 68.0, 74.0))
    assert full is not None
    assert less is not None
    assert middle is not None
    assert full.axial == pytest.approx(2 * fy * wall * (80 + 15) / 1.5)
    assert middle.axial == pytest.approx((full.axial + less.axial) / 2)
