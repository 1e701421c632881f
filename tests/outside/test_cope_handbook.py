"""Copes and bends against the closed formulas of handbooks.

Cope: intersection of two round cylinders; phi round the branch, its radius r, the run's radius R, theta between the
axes: z = sqrt(R^2 - r^2 sin^2 phi) / sin(theta) + r cos(phi) / tan(theta). Source: descriptive
geometry of intersecting cylinders, as in pipe template handbooks; values computed from the formula.
Bends: tangent length R tan(theta / 2), arc R theta (common practice; trigonometry).
"""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
from numpy.typing import NDArray

from fitwright.piece.body import Body
from fitwright.piece.path import Path, straight_path
from fitwright.piece.trim import cope_stop, cut_extremes, march_stop
from fitwright.stock import RoundTube

INCH = 25.4
ANGLES_DEG = np.array([0, 30, 60, 90, 120, 150, 180])


def branch_and_run(theta_deg: float, branch: float, run: float) -> tuple[Body, Body]:
    """A branch whose finish lies on the run's axis; u points away from where it leans over the run."""
    theta = np.radians(theta_deg)
    outward = np.array([np.cos(theta), 0.0, -np.sin(theta)])
    u = -np.array([np.sin(theta), 0.0, np.cos(theta)])
    frame = np.array([u, np.cross(outward, u)])
    over = Body(straight_path(-20 * INCH * outward, np.zeros(3)), frame, RoundTube(branch * INCH, 0.065 * INCH))
    along = straight_path(np.array([-20 * INCH, 0, 0]), np.array([20 * INCH, 0, 0]))
    under = Body(along, np.array([[0.0, 1.0, 0.0], [0.0, 0.0, 1.0]]), RoundTube(run * INCH, 0.065 * INCH))
    return over, under


def round_uv(radius: float, angles_deg: NDArray[np.float64]) -> NDArray[np.float64]:
    angles = np.radians(angles_deg)
    return radius * np.column_stack([np.cos(angles), np.sin(angles)])


def test_square_cope_of_equal_tubes() -> None:
    """1.25 on 1.25 in, 90 degrees: beyond the shortest line 0, 0.08373, 0.3125, 0.625 in at 0, 30, 60, 90 degrees."""
    branch, run = branch_and_run(90, 1.25, 1.25)
    stop = cope_stop(branch, 1, round_uv(0.625 * INCH, np.array([0, 30, 60, 90])), run)
    assert (stop - stop[0]) / INCH == pytest.approx([0, 0.08373, 0.3125, 0.625], abs=1e-5)
    assert 1.25 * pi == pytest.approx(3.9270, abs=1e-4)


def test_cope_of_equal_tubes_at_45_degrees() -> None:
    """1.25 on 1.25 in at 45 degrees: max less z 0, 0.20215, 0.75444, 1.50888, 1.37944, 1.28468, 1.2500 in."""
    branch, run = branch_and_run(45, 1.25, 1.25)
    radius = 0.625 * INCH
    # The formula measures z back from the run's axis, longest on the acute side at phi = 0.
    z = -cope_stop(branch, 1, round_uv(radius, ANGLES_DEG), run)
    published = np.array([0, 0.20215, 0.75444, 1.50888, 1.37944, 1.28468, 1.2500])
    assert (z.max() - z) / INCH == pytest.approx(published, abs=1e-5)


@pytest.mark.parametrize("theta", [30, 45, 60, 75, 90])
@pytest.mark.parametrize(("small", "large"), [(1.0, 1.25), (1.25, 1.25), (0.75, 2.0)])
def test_any_cope_follows_the_formula(theta: float, small: float, large: float) -> None:
    branch, run = branch_and_run(theta, small, large)
    phi = np.radians(np.arange(0, 360, 5))
    r, big, lean = small / 2, large / 2, np.radians(theta)
    z = np.sqrt(big**2 - (r * np.sin(phi)) ** 2) / np.sin(lean) + r * np.cos(phi) / np.tan(lean)
    stop = cope_stop(branch, 1, round_uv(r * INCH, np.degrees(phi)), run)
    assert -stop / INCH == pytest.approx(z, abs=1e-9)
    # Sphere tracing, which serves bent runs, finds the same; slowest where the line only grazes the run.
    assert march_stop(branch, 1, round_uv(r * INCH, np.degrees(phi)), run) == pytest.approx(stop, abs=0.01)
    longest, shortest = cut_extremes(branch, 1, (), (run,))
    assert -shortest / INCH == pytest.approx(z.max(), abs=1e-4)
    fine = np.linspace(0, 2 * pi, 20001)
    least = (np.sqrt(big**2 - (r * np.sin(fine)) ** 2) / np.sin(lean) + r * np.cos(fine) / np.tan(lean)).min()
    assert -longest / INCH == pytest.approx(least, abs=2e-4)


@pytest.mark.parametrize(
    ("points", "radius", "setbacks", "length"),
    [
        ([(0, 0, 0), (300, 0, 0), (300, 400, 0), (300, 400, 250)], 75, [75, 75], 885.619),
        ([(0, 0, 0), (0, 0, 863.6), (406.4, 0, 863.6), (406.4, 0, 0)], 114.3, [114.3, 114.3], 80.1372 * INCH),
    ],
)
def test_developed_length(points: list[tuple[float, ...]], radius: float, setbacks: list[float], length: float) -> None:
    """XYZ with centreline radius 75 mm: developed length 885.619 mm; a U of 34 x 16 x 34 in, radius 4.5: 80.1372 in."""
    path = Path(np.array(points, dtype=float), np.array([0, radius, radius, 0], dtype=float))
    assert path.setbacks[1:-1] == pytest.approx(setbacks)
    assert path.length == pytest.approx(length, abs=2e-3)


def test_compound_bends() -> None:
    """(0,0,0) (200,0,0) (350,200,0) (350,450,300) (100,450,500) mm, radius 60: turns, straights and length."""
    points = np.array([(0, 0, 0), (200, 0, 0), (350, 200, 0), (350, 450, 300), (100, 450, 500)], dtype=float)
    path = Path(points, np.array([0, 60, 60, 60, 0], dtype=float))
    assert np.degrees(path.turns[1:-1]) == pytest.approx([53.1301, 59.1930, 61.3209], abs=1e-4)
    assert [s.length for s in path.segments[::2]] == pytest.approx([170.0, 185.9201, 320.8632, 284.5868], abs=1e-4)
    assert path.length == pytest.approx(1143.2097, abs=1e-4)


@pytest.mark.parametrize(
    ("radius", "degrees", "arc"), [(4.5, 90, 7.0686), (3.75, 90, 5.8905), (100 / INCH, 135, 235.619 / INCH)]
)
def test_arc_length(radius: float, degrees: float, arc: float) -> None:
    turn = np.radians(degrees)
    far = np.array([20 + 20 * np.cos(turn), 20 * np.sin(turn), 0.0])
    path = Path(np.array([[0, 0, 0], [20, 0, 0], far]) * INCH, np.array([0, radius, 0]) * INCH)
    assert path.segments[1].length / INCH == pytest.approx(arc, abs=1e-4)
