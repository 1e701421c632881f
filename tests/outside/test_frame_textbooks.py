"""Nine 3-D frames and trusses with published answers.

The published numbers were read in the tests and examples of public structural libraries (named at each case), not in
the books themselves: an error copied there would be copied here. Before they came here, each case was also computed
with two independent frame programs, which agreed with each other to all digits printed. How far each case can be
trusted is said at the case. Section data order in the sources: A, Iy, Iz, J; "z-axis" is the local axis about which
Iz bends the member. Units as published: any consistent set will do.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np
import pytest
from numpy.typing import ArrayLike

from fitwright.mechanics import (
    FrameModel,
    Response,
    add,
    along,
    at_nodes,
    chords,
    factorise,
    frame_model,
    solve,
    supports,
)

PRINTED = 6e-5
"""Five digits printed."""


def answer(model: FrameModel, held: dict[int, str], loads: Mapping[int, ArrayLike]) -> Response:
    return solve(factorise(model, supports(model, held)), at_nodes(model, [loads]))


def near(value: ArrayLike, published: ArrayLike, units: float) -> None:
    """Equal within half a unit of the last digit printed, given as `units`."""
    assert np.asarray(value) == pytest.approx(np.asarray(published), abs=0.51 * units)


def test_logan_example_5_8_three_member_corner() -> None:
    """Logan, A First Course in the Finite Element Method, 4th ed., Example 5.8 (as in JWock82/Pynite examples).

    Trust: good, all six components agree to the digits printed. kip, in.
    """
    model = frame_model(
        [[0, 0, 0], [-100, 0, 0], [0, 0, -100], [0, -100, 0]],
        [[1, 0], [2, 0], [3, 0]],
        e=30000,
        g=10000,
        area=10,
        i_y=100,
        i_z=100,
        j=50,
    )
    moved = answer(model, {1: "fixed", 2: "fixed", 3: "fixed"}, {0: (0, -50, 0, -1000, 0, 0)}).by_node[0, :, 0]
    near(moved[0], 7.098e-5, 1e-8)
    near(moved[1], -0.014, 1e-3)
    near(moved[2], -2.352e-3, 1e-6)
    near(moved[3], -3.996e-3, 1e-6)
    near(moved[4], 1.78e-5, 1e-7)
    near(moved[5], -1.033e-4, 1e-7)


def test_logan_problem_5_58_three_member_bent() -> None:
    """Logan, 4th ed., Problem 5.58 (as in JWock82/Pynite examples).

    Trust: fair. All eight combinations of section orientation were tried by others; this one is the nearest and none
    matches exactly (0.2 % and 1.2 % off), so 1.5 % is allowed against the book and the two programs' own value is
    held closely. kip, in.
    """
    model = frame_model(
        [[0, 0, 0], [120, 0, 0], [120, 0, -120], [120, -240, -120]],
        [[0, 1], [1, 2], [2, 3]],
        e=30000,
        g=10000,
        area=100,
        i_y=200,
        i_z=1000,
        j=100,
        z_axis=[[0, 0, 1], [1, 0, 0], [0, 0, 1]],
    )
    loads = {1: (0, -5, 0, -1200, 0, 0), 2: (0, 0, 40, 0, 0, 0)}
    moved = answer(model, {0: "fixed", 3: "fixed"}, loads).by_node[:, :, 0]
    assert moved[1, 1] == pytest.approx(-0.063, rel=0.015)
    assert moved[2, 2] == pytest.approx(1.825, rel=0.015)
    near(moved[1, 1], -0.06223, 1e-5)
    near(moved[2, 2], 1.82176, 1e-5)


def test_kassimali_example_8_4_rolled_sections() -> None:
    """Kassimali, Matrix Analysis of Structures, 2nd ed., Example 8.4 (as in keithjlee/Asap tests).

    Trust: good, the most useful of the nine: rolled sections, angles of roll 0, 90 and 30 degrees, and a member load;
    all 18 reactions agree to the digits printed. kip, in.
    """
    model = frame_model(
        [[0, 0, 0], [-240, 0, 0], [0, -240, 0], [0, 0, -240]],
        [[1, 0], [2, 0], [3, 0]],
        e=29000,
        g=11500,
        area=32.9,
        i_y=236,
        i_z=716,
        j=15.1,
        z_axis=[[0.0, 0.0, 1.0], [1.0, 0.0, 0.0], [-math.cos(math.pi / 6), -0.5, 0.0]],
    )
    factor = factorise(model, supports(model, {1: "fixed", 2: "fixed", 3: "fixed"}))
    line = along(model, [[0.0, -0.25, 0.0], [0.0, 0.0, 0.0], [0.0, 0.0, 0.0]])
    response = solve(factor, add(line, at_nodes(model, [{0: (0, 0, 0, -1800, 0, 1800)}])))
    published = [
        [5.3757, 44.106, -0.74272, 2.1722, 58.987, 2330.5],
        [-4.6249, 11.117, -6.4607, -515.55, -0.76472, 369.67],
        [-0.75082, 4.7763, 7.2034, -383.5, -60.166, -4.702],
    ]
    assert response.reactions.reshape(4, 6)[1:] == pytest.approx(np.array(published), rel=PRINTED)
    near(response.by_node[0, :3, 0], [-1.352e-3, -2.797e-3, -1.812e-3], 1e-6)
    near(response.by_node[0, 3:, 0], [-3.002e-3, 1.057e-3, 6.499e-3], 1e-6)


def truss(nodes: list[list[float]], bars: list[list[int]], e: float, area: float) -> FrameModel:
    """Bars whose ends pass no moments; the twisting of each bar stays free of both nodes."""
    released = [False, False, False, True, True, True] * 2
    return frame_model(nodes, bars, e=e, g=e / 2.6, area=area, i_y=1, i_z=1, j=1, releases=released)


def no_turning(count: int, held: dict[int, str]) -> dict[int, str]:
    """The nodes of a truss do not turn: nothing there resists it."""
    return {node: f"{held.get(node, '')} rx ry rz".strip() for node in range(count)}


def test_kassimali_example_8_1_space_truss() -> None:
    """Kassimali, 2nd ed., Example 8.1 (as in keithjlee/Asap tests).

    Trust: good, twelve reactions agree to the digits printed. The displacement is given there in another axis order
    as 0.10913, 0.57202, -0.12104. kip, in.
    """
    model = truss(
        [[-72, 0, 96], [144, 0, 96], [72, 0, -96], [-144, 0, -96], [0, 288, 0]],
        [[0, 4], [1, 4], [2, 4], [3, 4]],
        e=10000,
        area=8.4,
    )
    held = no_turning(5, dict.fromkeys(range(4), "ux uy uz"))
    response = answer(model, held, {4: (0, -100, -50, 0, 0, 0)})
    published = [
        [-5.5581, -22.232, 7.4108],
        [1.3838, -2.7677, 0.92255],
        [-19.442, 77.768, 25.923],
        [23.616, 47.232, 15.744],
    ]
    assert response.reactions.reshape(5, 6)[:4, :3] == pytest.approx(np.array(published), rel=PRINTED)
    near(response.by_node[4, :3, 0], [0.10913, -0.12104, -0.57202], 1e-5)


def test_weaver_problem_8_three_member_space_frame() -> None:
    """Weaver, Computer Programs for Structural Analysis, p. 146, problem 8 (as in PetrKryslUCSD/pystran tests).

    Trust: weak. G is not stated where this was read; G = 12000 was fitted by others to the printed answer, so this is
    a regression case, not independent evidence. The axes of the unsymmetric bending do not matter (Iy = Iz). kip, in.
    """
    model = frame_model(
        [[0, 120, 0], [240, 120, 0], [0, 0, 0], [360, 0, 120]],
        [[0, 1], [2, 0], [1, 3]],
        e=30000,
        g=12000,
        area=11,
        i_y=56,
        i_z=56,
        j=83,
    )
    loads = {0: (2, 0, 0, 0, 0, 0), 1: (0, -1, 0, 0, 0, -120)}
    moved = answer(model, {2: "fixed", 3: "fixed"}, loads).by_node[:, :, 0]
    near(moved[0], [0.22267, 0.00016, -0.17182, -0.00255, 0.00217, -0.00213], 1e-5)
    near(moved[1], [0.22202, -0.48119, -0.70161, -0.00802, 0.00101, -0.00435], 1e-5)


def test_ferreira_example_8_3_three_member_frame() -> None:
    """Ferreira, MATLAB Codes for Finite Element Analysis, Example 8.3 (as in older keithjlee/Asap tests).

    Trust: fair, the orientation of member 1-4 is not stated and was chosen to fit (z-axis +Z; +X does not). kN, m.
    """
    model = frame_model(
        [[0, 0, 0], [3, 0, 0], [0, 0, -3], [0, -4, 0]],
        [[0, 1], [0, 2], [0, 3]],
        e=210e6,
        g=84e6,
        area=0.02,
        i_y=10e-5,
        i_z=20e-5,
        j=5e-5,
        z_axis=[[0, 0, 1], [1, 0, 0], [0, 0, 1]],
    )
    held = {1: "fixed", 2: "fixed", 3: "fixed"}
    moved = answer(model, held, {0: (-10, 0, 20, 0, 0, 0)}).by_node[0, :, 0]
    near(moved[[0, 2]], [-7.05e-6, 1.418e-5], 1e-8)
    near(moved[1], -7e-8, 1e-8)
    near(moved[3:], [1.45e-6, 1.75e-6, 1.14e-6], 1e-8)
    near(moved[:3], [-7.051e-6, -6.65e-8, 1.4177e-5], 1e-9)


def quarter_circle(count: int) -> float:
    """Movement of the free end out of the plane [mm]."""
    points = chords(np.zeros(3), np.array([0.0, 0.0, 1.0]), np.array([1000.0, 0.0, 0.0]), math.pi / 2, count)
    i = math.pi / 64 * (20**4 - 16**4)
    model = frame_model(
        points,
        [[k, k + 1] for k in range(count)],
        e=2e5,
        g=2e5 / 2.6,
        area=math.pi / 4 * (20**2 - 16**2),
        i_y=i,
        i_z=i,
        j=2 * i,
    )
    return float(answer(model, {0: "fixed"}, {count: (0, 0, 100, 0, 0, 0)}).by_node[count, 2, 0])


def test_quarter_circle_tube_out_of_its_plane() -> None:
    """AFNOR guide 1990 (as in pystran, labelled SSLL06/89 there; the label may be wrong). Very near a bent tube.

    Trust: good, closed form F R3 [pi / (4 E I) + (3 pi / 4 - 2) / (G J)] = 134.619 mm. N, mm.
    """
    near(quarter_circle(14), 134.328, 1e-3)
    near(quarter_circle(90), 134.612, 1e-3)
    assert quarter_circle(90) == pytest.approx(134.619, rel=1e-4)


def test_afnor_ssll04_ball_joint_and_spring_supports() -> None:
    """AFNOR SSLL04/89 (as in pystran): a ball joint at H, springs at A and B.

    Trust: good, agrees to the digits printed. N, m.
    """
    ball = [False] * 9 + [True] * 3
    model = frame_model(
        [[0, 2, 1], [0, 0, 1], [0, 0, 0], [0, 0, -1], [2, 0, -1]],
        [[0, 1], [1, 2], [2, 3], [3, 4]],
        e=2.1e11,
        g=2.1e11 / (2 * (1 + 1 / 3)),
        area=1e-3,
        i_y=1e-6,
        i_z=1e-6,
        j=2e-6,
        releases=[[False] * 12, ball, [False] * 12, [False] * 12],
    )
    k = 52500.0
    held = supports(model, {0: "ux uz ry", 4: "uy uz rx"}, {0: (0, k, 0, k, 0, k), 4: (k, 0, 0, 0, k, k)})
    response = solve(factorise(model, held), at_nodes(model, [{1: (0, 0, -10000, 0, 0, 0)}]))
    near(response.by_node[0, [1, 3, 5], 0], [-0.02976196, 0.16072649, -0.05951626], 1e-8)
    near(response.by_node[3, :3, 0], [0.02977301, 0.13888914, -0.37002052], 1e-8)
    near(np.sort(np.abs(response.end_forces[0, 3:6, 0])), [1562.3, 3124.6, 8438.1], 0.1)


def test_bedford_and_fowler_6_64_by_statics() -> None:
    """Bedford and Fowler, Engineering Mechanics: Statics, 4th ed., Problem 6.64 (as in JWock82/Pynite examples).

    Trust: good for the forces, which statics alone decides. kN, m; E and A do not matter.
    """
    a, b, c, d, e = range(5)
    model = truss(
        [[1.1, -0.4, 0], [1, 0, 0], [0, 0, 0.6], [0, 0, -0.4], [0, 0.8, 0]],
        [[a, b], [a, c], [a, d], [b, c], [b, d], [b, e]],
        e=1e5,
        area=1,
    )
    held = no_turning(5, dict.fromkeys((c, d, e), "ux uy uz"))
    pulls = answer(model, held, {a: (10, 60, 20, 0, 0, 0)}).middle[:, 0, 0]
    near(pulls[3:], [32.7, 45.2, -112.1], 0.1)
    near(pulls[3:], [32.653, 45.235, -112.055], 1e-3)
