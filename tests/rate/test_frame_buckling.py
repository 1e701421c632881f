"""Euler's columns: the value, and the rate at which finer meshes approach it.

Values: J. M. Gere, Mechanics of Materials, 7th ed., problem 11.4-2, seen in the solutions manual: steel pipe 40 mm
outside, 36 mm inside, 1.2 m long, E 210 GPa: 62.2 kN pinned-pinned, 15.6 fixed-free, 127 fixed-pinned, 249 fixed-fixed,
printed to three digits.
Rate: cubic elements with consistent geometric stiffness give eigenvalues with an error of h4 (G. Strang, G. Fix, An
Analysis of the Finite Element Method, 1973, chapter 6).
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.mechanics import at_nodes, buckling, factorise, frame_model, refine, solve, supports

E, LENGTH = 210e3, 1200.0
INERTIA = math.pi / 64 * (40**4 - 36**4)
EULER = math.pi**2 * E * INERTIA / LENGTH**2
ENDS = {
    "pinned-pinned": ("ux uy uz rx", "uy uz", 1.0, 62.2e3),
    "fixed-free": ("fixed", "", 0.25, 15.6e3),
    "fixed-pinned": ("fixed", "uy uz", 2.0457, 127e3),
    "fixed-fixed": ("fixed", "uy uz rx ry rz", 4.0, 249e3),
}


def critical(parts: int, foot: str, head: str) -> float:
    """Load at which the column buckles [N]; round, so two planes at once."""
    model = refine(
        frame_model(
            [[0.0, 0.0, 0.0], [LENGTH, 0.0, 0.0]],
            [[0, 1]],
            e=E,
            g=E / 2.6,
            area=math.pi / 4 * (40**2 - 36**2),
            i_y=INERTIA,
            i_z=INERTIA,
            j=2 * INERTIA,
        ),
        parts,
    )
    factor = factorise(model, supports(model, {0: foot, 1: head}))
    return float(buckling(solve(factor, at_nodes(model, [{1: (-1, 0, 0, 0, 0, 0)}]))).factors[0])


@pytest.mark.parametrize("ends", ENDS)
def test_eight_elements_give_the_published_load(ends: str) -> None:
    foot, head, times, published = ENDS[ends]
    load = critical(8, foot, head)
    assert load == pytest.approx(published, rel=5e-3 if published > 1e5 else 3.5e-3)
    assert load == pytest.approx(times * EULER, rel=1e-3)


@pytest.mark.parametrize("ends", ["pinned-pinned", "fixed-free", "fixed-fixed"])
def test_error_falls_with_the_fourth_power_of_the_element_length(ends: str) -> None:
    foot, head, times, _ = ENDS[ends]
    errors = np.array([critical(parts, foot, head) / (times * EULER) - 1 for parts in (4, 8, 16)])
    assert (errors > 0).all()
    rates = np.log2(errors[:-1] / errors[1:])
    assert rates == pytest.approx([4.0, 4.0], abs=0.25)


def test_many_elements_by_lanczos_agree_with_few_by_all_modes() -> None:
    """40 elements take the sparse way, 8 the dense one."""
    foot, head, times, _ = ENDS["pinned-pinned"]
    assert critical(40, foot, head) == pytest.approx(times * EULER, rel=1e-6)


def test_portal_that_sways_on_fixed_feet() -> None:
    """S. Timoshenko, J. Gere, Theory of Elastic Stability, 2nd ed. (1961), section 2.4 (equation from memory): a
    symmetric portal with fixed feet buckles sideways where u / tan u = -6 (Ib H) / (Ic L), with u = H sqrt(P / E Ic).
    """
    height, width, ratio = 1000.0, 800.0, 1.5
    inertia = np.array([1.0, ratio, 1.0]) * 3e4
    model = refine(
        frame_model(
            [[0.0, 0.0, 0.0], [0.0, 0.0, height], [width, 0.0, height], [width, 0.0, 0.0]],
            [[0, 1], [1, 2], [2, 3]],
            e=E,
            g=E / 2.6,
            area=1e5,
            i_y=inertia,
            i_z=1e3 * inertia,
            j=1e3 * inertia,
        ),
        8,
    )
    factor = factorise(model, supports(model, {0: "fixed", 3: "fixed"}))
    load = at_nodes(model, [{1: (0, 0, -1, 0, 0, 0), 2: (0, 0, -1, 0, 0, 0)}])
    stiffness = 6 * ratio * height / width
    low, high = math.pi / 2 + 1e-9, math.pi
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (low, middle) if middle / math.tan(middle) < -stiffness else (middle, high)
    expected = (low / height) ** 2 * E * 3e4
    assert buckling(solve(factor, load)).factors[0] == pytest.approx(expected, rel=2e-3)


def test_tension_buckles_nothing() -> None:
    model = frame_model(
        [[0.0, 0.0, 0.0], [LENGTH, 0.0, 0.0]],
        [[0, 1]],
        e=E,
        g=E / 2.6,
        area=200,
        i_y=INERTIA,
        i_z=INERTIA,
        j=2 * INERTIA,
    )
    factor = factorise(model, supports(model, {0: "fixed"}))
    assert buckling(solve(factor, at_nodes(model, [{1: (1, 0, 0, 0, 0, 0)}]))).factors.size == 0
