"""Kalpakjian and Schmid, Manufacturing Engineering and Technology: Ri / Rf = 4 X^3 - 3 X + 1, X = Ri Y / (E t).

The relation is the elastic-perfectly plastic result for a rectangle; its worked example (20-gauge sheet) is as recalled
and recomputed. For the annulus the same integral by an independent quadrature (scipy). Z and S of the annulus by
Z = (D^3 - d^3) / 6, S = pi (D^4 - d^4) / (32 D).
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.integrate import quad

from fitwright.making.bending.springback import kept_angle, rolled_radius, section_inertia, section_moment
from fitwright.stock import Flat, RectTube, RoundBar, RoundTube

EASY_WAY = np.array([0.0, 1.0])


@pytest.mark.parametrize(
    ("thickness", "radius", "fy", "e", "kept"),
    [(2.0, 50.0, 300, 210_000, 0.893039), (0.036, 0.5, 40, 29_000, 0.942556)],
)
def test_sheet(thickness: float, radius: float, fy: float, e: float, kept: float) -> None:
    assert kept_angle(Flat(20 * thickness, thickness), radius, fy, e, EASY_WAY) == pytest.approx(kept, abs=1e-6)


def test_a_sheet_that_stays_elastic_keeps_nothing() -> None:
    assert kept_angle(Flat(40, 2), 2000.0, 300, 210_000, EASY_WAY) == pytest.approx(0.0, abs=1e-12)


def test_overbend_of_twenty_gauge_sheet() -> None:
    """About 95.4 degrees for 90, by (2 Rf / t + 1) / (2 Ri / t + 1)."""
    kept = kept_angle(Flat(1.0, 0.036), 0.5, 40, 29_000, EASY_WAY)
    assert 90 / kept == pytest.approx(95.4, rel=0.002)


@pytest.mark.parametrize(
    ("od", "wall", "radius", "fy", "e", "kept", "command_deg"),
    [
        (1.25, 0.120, 4.5, 45, 29_000, 0.984382, 91.43),
        (1.5, 0.120, 6.0, 55, 29_000, 0.979108, 91.92),
        (32.0, 1.6, 114.0, 350, 200_000, 0.983320, 91.53),
    ],
)
def test_true_annulus(
    od: float, wall: float, radius: float, fy: float, e: float, kept: float, command_deg: float
) -> None:
    found = kept_angle(RoundTube(od, wall), radius, fy, e)
    assert found == pytest.approx(kept, abs=2e-6)
    assert 90 / found == pytest.approx(command_deg, abs=0.005)


def test_moment_of_the_annulus_against_another_quadrature() -> None:
    section, curvature, fy, e = RoundTube(28.575, 2.108), 1 / 900.0, 240.0, 205_000.0
    outer, inner = section.od / 2, section.od / 2 - section.wall
    kink = fy / (e * curvature)

    def strip(y: float) -> float:
        width = 2 * (math.sqrt(outer**2 - y**2) - math.sqrt(max(0.0, inner**2 - y**2)))
        return min(e * curvature * y, fy) * y * width

    expected = 2 * quad(strip, 0, outer, points=[kink, inner], limit=400, epsabs=0, epsrel=1e-11)[0]
    assert kink < outer
    assert section_moment(section, curvature, fy, e) == pytest.approx(expected, rel=1e-8)


@pytest.mark.parametrize(("wall", "shape_factor"), [(0.065, 1.3404), (0.120, 1.3980)])
def test_the_fully_plastic_moment_is_the_shape_factor(wall: float, shape_factor: float) -> None:
    """Bent very far, M = Z Y; at first yield M = S Y: their ratio is Z / S."""
    tube = RoundTube(1.25, wall)
    elastic = section_inertia(tube) / (tube.od / 2)
    assert section_moment(tube, 1e3, 1.0, 1.0) / elastic == pytest.approx(shape_factor, abs=1e-3)
    assert shape_factor > 4 / math.pi


def test_a_solid_bar_approaches_sixteen_over_three_pi() -> None:
    """Shape factor of a circle, 16 / (3 pi) (Gere, Mechanics of Materials, plastic bending)."""
    bar = RoundBar(10.0)
    assert section_moment(bar, 1e3, 1.0, 1.0) * 5 / section_inertia(bar) == pytest.approx(16 / (3 * math.pi), rel=1e-6)


def test_square_tube_bent_far_reaches_its_plastic_modulus() -> None:
    tube = RectTube(40, 40, 3, 4.5)
    assert section_moment(tube, 1e3, 1.0, 1.0, EASY_WAY) == pytest.approx(tube.z_plastic_u, rel=0.01)


def test_a_rolled_ring_springs_open_to_its_radius() -> None:
    section, radius = RoundTube(32, 2), 300.0
    rolled = rolled_radius(section, radius, 235, 200_000)
    assert rolled < radius
    assert rolled / kept_angle(section, rolled, 235, 200_000) == pytest.approx(radius, rel=1e-9)
