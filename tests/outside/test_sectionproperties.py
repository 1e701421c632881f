"""Section properties against the sectionproperties library (finite elements), as a second opinion."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from sectionproperties.analysis import Section as Analysis
from sectionproperties.pre import Geometry
from sectionproperties.pre.library import (
    angle_section,
    circular_hollow_section,
    circular_section,
    rectangular_hollow_section,
    rectangular_section,
)

from fitwright.stock import Angle, Flat, Lumber, RectTube, RoundBar, RoundTube, Section

SAME = 2e-3  # of the polygons that the library draws for arcs
TORSION_SOLID = 3e-3
TORSION_THIN_WALL = 0.03  # Bredt's formula leaves the walls' own torsion out
TORSION_ANGLE = 0.06  # the published formula for an angle is fitted, to a few percent

MESH = 3.0
ARC = 64

CASES: dict[str, tuple[Section, Callable[[], Geometry], float]] = {
    "round tube": (
        RoundTube(32.0, 2.0),
        lambda: circular_hollow_section(d=32.0, t=2.0, n=128),
        TORSION_SOLID,
    ),
    "round bar": (RoundBar(12.0), lambda: circular_section(d=12.0, n=128), TORSION_SOLID),
    "flat": (Flat(30.0, 8.0), lambda: rectangular_section(d=8.0, b=30.0), TORSION_SOLID),
    "square bar": (Flat(12.0, 12.0), lambda: rectangular_section(d=12.0, b=12.0), TORSION_SOLID),
    "lumber": (Lumber(88.9, 19.05, "1x4"), lambda: rectangular_section(d=19.05, b=88.9), TORSION_SOLID),
    "square tube": (
        RectTube(40.0, 40.0, 2.0, 4.0),
        lambda: rectangular_hollow_section(d=40.0, b=40.0, t=2.0, r_out=4.0, n_r=ARC),
        TORSION_THIN_WALL,
    ),
    "rectangular tube": (
        RectTube(60.0, 30.0, 3.0, 4.5),
        lambda: rectangular_hollow_section(d=30.0, b=60.0, t=3.0, r_out=4.5, n_r=ARC),
        TORSION_THIN_WALL,
    ),
    "angle": (
        Angle(30.0, 30.0, 3.0, 5.0, 2.5),
        lambda: angle_section(d=30.0, b=30.0, t=3.0, r_r=5.0, r_t=2.5, n_r=ARC),
        TORSION_ANGLE,
    ),
    "unequal angle": (
        Angle(50.0, 30.0, 5.0, 4.0, 2.0),
        lambda: angle_section(d=30.0, b=50.0, t=5.0, r_r=4.0, r_t=2.0, n_r=ARC),
        TORSION_ANGLE,
    ),
}


@pytest.fixture(scope="module", params=CASES)
def case(request: pytest.FixtureRequest) -> tuple[Section, Any, float]:
    section, draw, torsion = CASES[request.param]
    analysis = Analysis(draw().create_mesh(mesh_sizes=[MESH]))
    analysis.calculate_geometric_properties()
    analysis.calculate_plastic_properties()
    analysis.calculate_warping_properties()
    return section, analysis, torsion


def test_area_and_second_moments(case: tuple[Section, Any, float]) -> None:
    section, other, _ = case
    ixx, iyy, ixy = other.get_ic()
    assert section.area == pytest.approx(other.get_area(), rel=SAME)
    assert section.i_u == pytest.approx(ixx, rel=SAME)
    assert section.i_v == pytest.approx(iyy, rel=SAME)
    assert section.i_uv == pytest.approx(ixy, rel=SAME, abs=SAME * section.i_u)


def test_principal_moments(case: tuple[Section, Any, float]) -> None:
    section, other, _ = case
    np.testing.assert_allclose(section.principal[:2], other.get_ip(), rtol=SAME)


def test_centroid_from_the_heel(case: tuple[Section, Any, float]) -> None:
    section, other, _ = case
    if isinstance(section, Angle):
        np.testing.assert_allclose(section.centroid, other.get_c(), rtol=SAME)


def test_plastic_moduli(case: tuple[Section, Any, float]) -> None:
    section, other, _ = case
    sxx, syy = other.get_s()
    assert section.z_plastic_u == pytest.approx(sxx, rel=SAME)
    assert section.z_plastic_v == pytest.approx(syy, rel=SAME)


def test_torsion(case: tuple[Section, Any, float]) -> None:
    section, other, tolerance = case
    assert section.j == pytest.approx(other.get_j(), rel=tolerance)
