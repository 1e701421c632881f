"""Beams, portals, rings and bends with an answer in closed form.

Sources: W. C. Young, R. G. Budynas, Roark's Formulas for Stress and Strain, 7th ed. (2002), for beams (table 8.1) and
rings (table 9.2); formulas and table numbers from memory. Where only a name is given, the formula is the elementary one
of any textbook. Handbook values in inches and pounds were computed by others from the same formulas and, for the
portals, confirmed by a separate stiffness solve.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.mechanics import (
    Factor,
    FrameModel,
    along,
    at_nodes,
    at_points,
    chords,
    factorise,
    frame_model,
    peak_forces,
    refine,
    section_forces,
    solve,
    strains,
    supports,
)

E, G, AREA, INERTIA, TORSION = 205000.0, 79000.0, 215.0, 3.1e4, 6.2e4
LENGTH = 900.0
STIFF = 1e7
"""An area so large that stretching does not show: the formulas leave it out."""


def beam(parts: int, held: dict[int, str], length: float = LENGTH) -> Factor:
    """A straight beam along X; node 0 and node 1 are its ends, the rest lie between."""
    model = frame_model(
        [[0.0, 0.0, 0.0], [length, 0.0, 0.0]], [[0, 1]], e=E, g=G, area=AREA, i_y=INERTIA, i_z=INERTIA / 3, j=TORSION
    )
    fine = refine(model, parts)
    return factorise(fine, supports(fine, held))


def test_fixed_ends_uniform_load() -> None:
    """Roark table 8.1, 2d: w L4 / 384 EI at midspan, w L2 / 12 at the ends, w L2 / 24 between; local z is up."""
    factor = beam(4, {0: "fixed", 1: "fixed"})
    response = solve(factor, along(factor.model, np.tile([0, 0, -2.0], (4, 1))))
    assert response.by_node[3, 2, 0] == pytest.approx(-2.0 * LENGTH**4 / 384 / E / INERTIA)
    assert section_forces(response, (0.0,))[0, 0, 4, 0] == pytest.approx(2.0 * LENGTH**2 / 12)
    assert section_forces(response, (1.0,))[1, 0, 4, 0] == pytest.approx(-2.0 * LENGTH**2 / 24)


def test_board_of_the_handbook_simple_and_fixed() -> None:
    """1x6 flat, w 1 lb/in, L 36 in, E 1.24 Mpsi: 0.09121 in and M 162 lb in; fixed ends 0.01824 (5 w L4 / 384 EI)."""
    model = frame_model([[0, 0, 0], [36, 0, 0]], [[0, 1]], e=1.24e6, g=8e4, area=4.125, i_y=0.19336, i_z=10.4, j=0.7)
    fine = refine(model, 2)
    load = along(fine, [[0, 0, -1.0], [0, 0, -1.0]])
    simple = solve(factorise(fine, supports(fine, {0: "ux uy uz rx", 1: "uy uz"})), load)
    fixed = solve(factorise(fine, supports(fine, {0: "fixed", 1: "fixed"})), load)
    assert simple.by_node[2, 2, 0] == pytest.approx(-0.09121, abs=5e-6)
    assert fixed.by_node[2, 2, 0] == pytest.approx(-0.01824, abs=5e-6)
    assert peak_forces(simple)[:, 4, 0] == pytest.approx([162.0, 162.0])


def test_cantilever_tip_moment() -> None:
    """M L2 / 2 EI and M L / EI: Roark table 8.1, 3a. A moment about +z bends towards +y."""
    factor = beam(3, {0: "fixed"})
    tip = solve(factor, at_nodes(factor.model, [{1: (0, 0, 0, 0, 0, 5e4)}])).by_node[1, :, 0]
    assert tip[1] == pytest.approx(5e4 * LENGTH**2 / 2 / E / (INERTIA / 3))
    assert tip[5] == pytest.approx(5e4 * LENGTH / E / (INERTIA / 3))


def test_cantilever_stretch_and_twist() -> None:
    factor = beam(2, {0: "fixed"})
    tip = solve(factor, at_nodes(factor.model, [{1: (1000.0, 0, 0, 2e4, 0, 0)}])).by_node[1, :, 0]
    assert tip[0] == pytest.approx(1000 * LENGTH / E / AREA)
    assert tip[3] == pytest.approx(2e4 * LENGTH / G / TORSION)


def test_force_between_fixed_ends() -> None:
    """P a b2 / L2 and P a2 b / L2: Roark table 8.1, 1d."""
    factor = beam(1, {0: "fixed", 1: "fixed"})
    a, b = 0.3 * LENGTH, 0.7 * LENGTH
    response = solve(factor, at_points(factor.model, [0], [a], [[0, 0, -400.0, 0, 0, 0]]))
    ends = response.end_forces[0, :, 0]
    assert ends[4] == pytest.approx(-400 * a * b**2 / LENGTH**2)
    assert ends[10] == pytest.approx(400 * a**2 * b / LENGTH**2)
    assert ends[2] == pytest.approx(400 * b**2 * (3 * a + b) / LENGTH**3)
    assert peak_forces(response)[0, 4, 0] == pytest.approx(400 * a * b**2 / LENGTH**2)


def test_shear_flexible_cantilever() -> None:
    """P L3 / 3 EI + P L / G As: Timoshenko."""
    model = frame_model(
        [[0, 0, 0], [200, 0, 0]], [[0, 1]], e=E, g=G, area=AREA, i_y=INERTIA, i_z=INERTIA, j=TORSION, shear_z=100.0
    )
    tip = solve(factorise(model, supports(model, {0: "fixed"})), at_nodes(model, [{1: (0, 300, 300, 0, 0, 0)}]))
    bending = 300 * 200**3 / 3 / E / INERTIA
    assert tip.by_node[1, 1, 0] == pytest.approx(bending)
    assert tip.by_node[1, 2, 0] == pytest.approx(bending + 300 * 200 / G / 100)


def test_unsymmetric_section_bends_askew() -> None:
    """Bending of a section with a product of inertia: v'' = (M_v i_y - M_w i_yz) / E (i_y i_z - i_yz2), as in Gere
    (7th ed.) section 6.5, for a cantilever with a force along y."""
    i_y, i_z, i_yz = 3e4, 5e4, 2e4
    model = frame_model([[0, 0, 0], [500, 0, 0]], [[0, 1]], e=E, g=G, area=AREA, i_y=i_y, i_z=i_z, i_yz=i_yz, j=900)
    tip = solve(factorise(model, supports(model, {0: "fixed"})), at_nodes(model, [{1: (0, 100, 0, 0, 0, 0)}]))
    whole = 100 * 500**3 / 3 / E / (i_y * i_z - i_yz**2)
    assert tip.by_node[1, 1:3, 0] == pytest.approx([whole * i_y, -whole * i_yz])


def portal(height: float, width: float, i_column: float, i_beam: float) -> FrameModel:
    """A portal in the XZ plane: feet 0 and 3, corners 1 and 2; inches and pounds."""
    nodes = [[0.0, 0.0, 0.0], [0.0, 0.0, height], [width, 0.0, height], [width, 0.0, 0.0]]
    inertia = np.array([i_column, i_beam, i_column])
    return frame_model(
        nodes, [[0, 1], [1, 2], [2, 3]], e=29e6, g=11e6, area=1e4, i_y=inertia, i_z=inertia, j=2 * inertia
    )


@pytest.mark.parametrize(("frame", "drift"), [((34, 16, 0.0426, 0.0426), 0.13100), ((34, 48, 0.0426, 0.085), 0.14357)])
def test_portal_sway_on_pinned_feet(frame: tuple[float, float, float, float], drift: float) -> None:
    """d = P H2 / 6E (H / Ic + L / 2 Ib) with P 20 lb: slope-deflection; a form in circulation lacks the 2."""
    model = portal(*frame)
    held = supports(model, {0: "ux uy uz rx rz", 3: "ux uy uz rx rz"})
    response = solve(factorise(model, held), at_nodes(model, [{1: (20, 0, 0, 0, 0, 0)}]))
    assert response.by_node[1, 0, 0] == pytest.approx(drift, rel=1e-3)
    height, width, i_column, i_beam = frame
    formula = 20 * height**2 / 6 / 29e6 * (height / i_column + width / 2 / i_beam)
    assert response.by_node[1, 0, 0] == pytest.approx(formula, rel=1e-4)


@pytest.mark.parametrize(
    ("frame", "drift", "base", "top"),
    [((34, 16, 0.0426, 0.0426), 0.03230, 182.4, 157.6), ((34, 48, 0.0426, 0.085), 0.03490, 187.9, 152.1)],
)
def test_portal_sway_on_fixed_feet(
    frame: tuple[float, float, float, float], drift: float, base: float, top: float
) -> None:
    """d = P H3 / 12 E Ic (3k+2) / (6k+1), base P H / 2 (3k+1) / (6k+1), k = Ib H / Ic L: Kleinlogel (moments)."""
    model = portal(*frame)
    held = supports(model, {0: "fixed", 3: "fixed"})
    response = solve(factorise(model, held), at_nodes(model, [{1: (20, 0, 0, 0, 0, 0)}]))
    assert response.by_node[1, 0, 0] == pytest.approx(drift, rel=1e-3)
    moments = np.abs(response.end_forces[0, [4, 10], 0])
    assert moments == pytest.approx([base, top], rel=1e-3)


def ring(count: int) -> FrameModel:
    """A ring of radius 300 mm in the XZ plane, closed."""
    points = chords(np.zeros(3), np.array([0.0, -1.0, 0.0]), np.array([300.0, 0.0, 0.0]), 2 * math.pi, count)[:-1]
    elements = [[k, (k + 1) % count] for k in range(count)]
    return frame_model(
        points, elements, e=E, g=G, area=STIFF, i_y=INERTIA, i_z=INERTIA, j=TORSION, y_axis=(0.0, 1.0, 0.0)
    )


def test_ring_squeezed_across_its_diameter() -> None:
    """Roark table 9.2, case 1: diameter shortens (pi/4 - 2/pi) W R3 / EI, grows across by (2/pi - 1/2) of it;
    moment W R / pi under the load, (1/2 - 1/pi) W R at the sides."""
    count = 120
    model = ring(count)
    top, left, bottom = count // 4, count // 2, 3 * count // 4
    held = supports(model, {bottom: "ux uy uz rx rz ry"})
    response = solve(factorise(model, held), at_nodes(model, [{top: (0, 0, -100, 0, 0, 0)}]))
    unit = 100 * 300**3 / E / INERTIA
    assert -response.by_node[top, 2, 0] == pytest.approx((math.pi / 4 - 2 / math.pi) * unit, rel=2e-3)
    across = response.by_node[0, 0, 0] - response.by_node[left, 0, 0]
    assert across == pytest.approx((2 / math.pi - 0.5) * unit, rel=2e-3)
    moments = np.abs(section_forces(response, (0.0,))[:, 0, 4, 0])
    assert moments[top] == pytest.approx(100 * 300 / math.pi, rel=2e-3)
    assert moments[left] == pytest.approx((0.5 - 1 / math.pi) * 100 * 300, rel=2e-3)


@pytest.mark.parametrize("softening", [1.0, 1.8562])
def test_curved_cantilever_in_its_plane(softening: float) -> None:
    """pi P R3 / 4 EI along the force and P R3 / 2 EI across it (Castigliano); a bend is softer by its factor."""
    count = 60
    points = chords(np.zeros(3), np.array([0.0, 0.0, 1.0]), np.array([200.0, 0.0, 0.0]), math.pi / 2, count)
    model = frame_model(
        points,
        [[k, k + 1] for k in range(count)],
        e=E,
        g=G,
        area=STIFF,
        i_y=INERTIA,
        i_z=INERTIA,
        j=TORSION,
        softening=softening,
    )
    tip = solve(factorise(model, supports(model, {0: "fixed"})), at_nodes(model, [{count: (0, 50, 0, 0, 0, 0)}]))
    unit = softening * 50 * 200**3 / E / INERTIA
    assert tip.by_node[count, 1, 0] == pytest.approx(math.pi / 4 * unit, rel=2e-4)
    assert abs(tip.by_node[count, 0, 0]) == pytest.approx(unit / 2, rel=2e-4)


def test_imposed_curvature_bows_a_simple_beam_without_stress() -> None:
    """kappa L2 / 8, as a bar heated on one side bows; nothing holds it, so no forces."""
    factor = beam(4, {0: "ux uy uz rx", 1: "uy uz"})
    kappa = 2e-6
    response = solve(factor, strains(factor.model, np.tile([0, 0, kappa, 0], (4, 1))))
    assert response.by_node[3, 2, 0] == pytest.approx(kappa * LENGTH**2 / 8)
    assert np.abs(response.end_forces).max() < 1e-6 * E * INERTIA * kappa


def test_imposed_strain_between_fixed_ends_is_all_stress() -> None:
    """E A eps and E I kappa where nothing can move."""
    factor = beam(3, {0: "fixed", 1: "fixed"})
    response = solve(factor, strains(factor.model, np.tile([1e-4, 0, 0, 3e-6], (3, 1))))
    assert section_forces(response)[:, :, 0, 0] == pytest.approx(-E * AREA * 1e-4)
    assert section_forces(response)[:, :, 5, 0] == pytest.approx(-E * INERTIA / 3 * 3e-6)


def test_propped_cantilever_peak_between_the_ends() -> None:
    """9 w L2 / 128 at 3 L / 8 from the prop, w L2 / 8 at the wall: Roark table 8.1, 2c."""
    factor = beam(1, {0: "fixed", 1: "uy uz"})
    response = solve(factor, along(factor.model, [[0, 0, -1.5]]))
    assert peak_forces(response)[0, 4, 0] == pytest.approx(1.5 * LENGTH**2 / 8)
    assert section_forces(response, (5 / 8,))[0, 0, 4, 0] == pytest.approx(-9 * 1.5 * LENGTH**2 / 128)
    released = frame_model(
        factor.model.nodes,
        factor.model.elements,
        e=E,
        g=G,
        area=AREA,
        i_y=INERTIA,
        i_z=INERTIA / 3,
        j=TORSION,
        releases=[False] * 10 + [True, False],
    )
    held = factorise(released, supports(released, {0: "fixed", 1: "fixed"}))
    same = solve(held, along(released, [[0, 0, -1.5]]))
    assert same.end_forces[0, :, 0] == pytest.approx(response.end_forces[0, :, 0], abs=1e-6)
