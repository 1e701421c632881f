"""Equation numbers of J. S. Przemieniecki, Theory of Matrix Structural Analysis (1968), are from memory."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from fitwright.mechanics import beams, frame_model
from fitwright.mechanics.assembly import element_stiffness
from fitwright.mechanics.beam import midpoint_stiffness

SECTION: dict[str, Any] = {"e": 2e5, "g": 8e4, "area": 200.0, "i_y": 2e4, "i_z": 3e4, "j": 6e4}
LENGTH = 400.0
ENDS = np.array([[0.0, 0, 0], [LENGTH, 0, 0]])


def test_twelve_by_twelve_of_the_textbook() -> None:
    """Przemieniecki, equation 5.116: a few entries, local axes along the global ones."""
    model = frame_model(ENDS, [[0, 1]], **SECTION, y_axis=(0, 1, 0))
    k = element_stiffness(beams(model))[0]
    e, g, a, iy, iz, j, length = 2e5, 8e4, 200.0, 2e4, 3e4, 6e4, LENGTH
    assert k[0, 0] == pytest.approx(e * a / length)
    assert k[0, 6] == pytest.approx(-e * a / length)
    assert k[1, 1] == pytest.approx(12 * e * iz / length**3)
    assert k[1, 5] == pytest.approx(6 * e * iz / length**2)
    assert k[1, 11] == pytest.approx(6 * e * iz / length**2)
    assert k[2, 4] == pytest.approx(-6 * e * iy / length**2)
    assert k[3, 9] == pytest.approx(-g * j / length)
    assert k[4, 4] == pytest.approx(4 * e * iy / length)
    assert k[4, 10] == pytest.approx(2 * e * iy / length)
    assert k[5, 7] == pytest.approx(-6 * e * iz / length**2)
    assert k == pytest.approx(k.T)


def test_shear_parameter_of_the_textbook() -> None:
    """(4 + Phi) EI / L (1 + Phi), Phi = 12 EI / G As L2: Przemieniecki, equation 5.119."""
    model = frame_model(ENDS, [[0, 1]], **SECTION, y_axis=(0, 1, 0), shear_y=90.0)
    phi = 12 * 2e5 * 3e4 / 8e4 / 90 / LENGTH**2
    k = element_stiffness(beams(model))[0]
    assert k[1, 1] == pytest.approx(12 * 2e5 * 3e4 / LENGTH**3 / (1 + phi))
    assert k[5, 5] == pytest.approx((4 + phi) / (1 + phi) * 2e5 * 3e4 / LENGTH)
    assert k[5, 11] == pytest.approx((2 - phi) / (1 + phi) * 2e5 * 3e4 / LENGTH)
    assert k[2, 2] == pytest.approx(12 * 2e5 * 2e4 / LENGTH**3)


def test_product_of_inertia_is_a_turned_section() -> None:
    """The section turned by an angle has the stiffness of the principal one about turned axes."""
    angle = 0.4
    c, s = np.cos(angle), np.sin(angle)
    i_y, i_z = 2e4 * c**2 + 3e4 * s**2, 2e4 * s**2 + 3e4 * c**2
    i_yz = (2e4 - 3e4) * s * c
    plain: dict[str, Any] = {"e": 2e5, "g": 8e4, "area": 200.0, "j": 6e4, "shear_y": 70.0, "shear_z": 70.0}
    pair = [[0, 1]]
    principal = frame_model(ENDS, pair, **plain, i_y=2e4, i_z=3e4, y_axis=(0, c, s))
    same = frame_model(ENDS, pair, **plain, i_y=i_y, i_z=i_z, i_yz=-i_yz, y_axis=(0, 1, 0))
    one, two = element_stiffness(beams(principal)), element_stiffness(beams(same))
    assert two == pytest.approx(one, rel=1e-9, abs=1e-6)


def test_softening_leaves_stretch_and_twist_alone() -> None:
    pair = [[0, 1]]
    straight = midpoint_stiffness(frame_model(ENDS, pair, **SECTION), np.array([LENGTH]))[0]
    bend = midpoint_stiffness(frame_model(ENDS, pair, **SECTION, softening=2.0), np.array([LENGTH]))[0]
    assert (np.diag(straight) / np.diag(bend)).tolist() == [1.0, 2.0, 2.0, 1.0, 2.0, 2.0]


def test_force_through_the_shear_centre_does_not_twist() -> None:
    """An equal angle, shear centre at the heel: a force along y at the centroid twists it, one at the heel does not."""
    centre = (-9.0, -9.0)
    model = frame_model(ENDS, [[0, 1]], **SECTION, y_axis=(0, 1, 0), shear_centre=centre, i_yz=1e4)
    flexible = np.linalg.inv(element_stiffness(beams(model))[0][6:, 6:])
    at_centroid = flexible @ np.array([0, 100.0, 0, 0, 0, 0])
    at_heel = flexible @ np.array([0, 100.0, 0, 100.0 * 9.0, 0, 0])
    assert at_centroid[3] == pytest.approx(-100 * 9.0 * LENGTH / 8e4 / 6e4)
    assert at_heel[3] == pytest.approx(0, abs=1e-12)
