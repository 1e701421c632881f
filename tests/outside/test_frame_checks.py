"""Strength and sway of frames that were made from job files, against textbooks and the AISC specification.

- J. M. Gere, Mechanics of Materials, 7th ed., problem 11.4-2 (steel pipe column, Euler loads for four end conditions,
  as in the solutions manual) and problem 11.9-7 (pipe column of four lengths; the book's own loads are those of the
  1989 allowable stress rule, which AISC 360 meets within 3.5 %).
- AISC Design Examples v14, example E.11 (Pipe 10 Std), and AISC 360-16, E3 and F8, worked on 1.25 x 0.065 in tube.
- Portal sway by slope deflection, pinned feet P H^2 / (6 E) (H / Ic + L / 2 Ib), fixed feet P H^3 / (12 E Ic)
  (3k + 2) / (6k + 1), k = Ib H / (Ic L), and Kleinlogel's moments: closed forms.
"""

from __future__ import annotations

from math import pi

import numpy as np
import pytest

from fitwright.checks.columns import (
    bending_capacity,
    column_capacity,
    column_stress,
    compact_limit,
    compression_limit,
    euler_load,
)
from fitwright.checks.strength import bending_stress
from fitwright.job import parse_job
from fitwright.mechanics import (
    Response,
    at_nodes,
    at_points,
    buckling,
    factorise,
    feet,
    on_feet,
    section_forces,
    solve,
    supports,
)
from fitwright.mechanics.framing import Framed, framed
from fitwright.piece import build
from fitwright.stock import RoundTube, parse_stock
from fitwright.units import INCH, POUND_FORCE

KSI = 6.894757
KIP = 1000 * POUND_FORCE
GERE_COLUMN = {"pinned-pinned": 62.2, "fixed-free": 15.6, "fixed-pinned": 127.0, "fixed-fixed": 249.0}
GERE_E = 210e3
PRINTED = 0.005  # three figures


def piece_frame(text: str) -> Framed:
    job = parse_job(text)
    return framed(build(job), job)


def column() -> Framed:
    """Gere 11.4-2: pipe 40 outside, 36 inside, 1.2 m; upright on the floor."""
    return piece_frame("""
job: {name: Column, unit: mm}
stock: {pipe: round tube 40 x 2}
parts:
  column: {stock: pipe, path: [[0, 0, 0], [0, 0, 1200]], ends: free}
""")


ENDS = {
    "pinned-pinned": ("ux uy uz rz", "ux uy"),
    "fixed-free": ("fixed", ""),
    "fixed-pinned": ("fixed", "ux uy"),
    "fixed-fixed": ("fixed", "ux uy rx ry"),
}


@pytest.mark.parametrize("name", ENDS)
def test_euler_loads_of_a_column_made_from_a_job(name: str) -> None:
    frame = column()
    top = int(np.argmax(frame.model.nodes[:, 2]))
    bottom = frame.feet[0].node
    held = supports(frame.model, {bottom: ENDS[name][0], top: ENDS[name][1]})
    response = solve(factorise(frame.model, held), at_nodes(frame.model, [{top: (0, 0, -1000.0, 0, 0, 0)}]))
    kilonewtons = float(buckling(response).factors[0]) * GERE_E / frame.stocks[0].material.e
    assert kilonewtons == pytest.approx(GERE_COLUMN[name], rel=PRINTED)


def test_euler_load_by_formula() -> None:
    assert euler_load(210e3, 43216, 1200) / 1000 == pytest.approx(62.2, rel=0.003)
    assert euler_load(210e3, 43216, 2400) / 1000 == pytest.approx(15.6, rel=PRINTED)
    assert euler_load(210e3, 43216, 600) / 1000 == pytest.approx(249, rel=PRINTED)


@pytest.mark.parametrize(
    ("feet_long", "rule_1989", "aisc_360"), [(6, 58.9, 60.7), (12, 43.0, 42.4), (18, 23.1, 23.3), (24, 13.0, 13.1)]
)
def test_pipe_column_of_gere(feet_long: int, rule_1989: float, aisc_360: float) -> None:
    """Gere 11.9-7: 4.5 x 0.237 in, Fy 36 ksi, E 29,000 ksi, pinned."""
    pipe = RoundTube(4.5 * INCH, 0.237 * INCH)
    kips = column_capacity(pipe, 29000 * KSI, 36 * KSI, feet_long * 12 * INCH) / KIP
    assert kips == pytest.approx(aisc_360, rel=0.005)
    assert kips == pytest.approx(rule_1989, rel=0.035)


def test_pipe_10_of_the_design_examples() -> None:
    """AISC Design Examples v14, E.11: A 11.5 in2, r 3.68 in, KL 30 ft, Fy 35 ksi: 222 kip LRFD, 148 kip ASD."""
    slender = 30 * 12 / 3.68
    assert slender == pytest.approx(97.8, abs=0.05)
    elastic = pi**2 * 29000 / slender**2
    critical = column_stress(35.0, elastic)
    assert critical == pytest.approx(21.4, rel=0.005)
    assert 0.9 * critical * 11.5 == pytest.approx(222, rel=0.005)
    assert critical * 11.5 / 1.67 == pytest.approx(148, rel=0.005)


def test_furniture_tube_by_aisc() -> None:
    """1.25 x 0.065 in, Fy 50 ksi: D/t 19.23; limits 40.6, 63.8; 2.736 kip-in; columns of 34 in with K 1.0 and 2.1."""
    tube = RoundTube(1.25 * INCH, 0.065 * INCH)
    e, fy = 29000 * KSI, 50 * KSI
    assert tube.od / tube.wall == pytest.approx(19.23, abs=0.005)
    assert compact_limit(e, fy) == pytest.approx(40.6)
    assert compression_limit(tube, e, fy) == pytest.approx(63.8)
    assert bending_capacity(tube, e, fy) / (KIP * INCH) == pytest.approx(2.736, rel=0.001)
    assert column_capacity(tube, e, fy, 34 * INCH) / KIP == pytest.approx(4.48, rel=0.002)
    assert column_capacity(tube, e, fy, 2.1 * 34 * INCH) / KIP == pytest.approx(1.256, rel=0.002)


PORTAL = """
job: {{name: Portal, unit: inch}}
stock: {{tube: round tube 1.25 x 0.065}}
parts:
  portal:
    stock: tube
    path: [[0, 0, 0], [0, 0, {height}], [{span}, 0, {height}], [{span}, 0, 0]]
    corners: mitred
    ends: free
"""


def portal(height: float, span: float) -> Framed:
    return piece_frame(PORTAL.format(height=height, span=span))


def pushed(frame: Framed, foot: str) -> tuple[Response, int]:
    """20 lb at a mitred corner, sideways; the plane of the portal is held."""
    nodes = frame.model.nodes
    corner = int(np.flatnonzero((nodes[:, 2] > nodes[:, 2].max() - 1) & (nodes[:, 0] < 1))[0])
    held = {node: "uy" for node in range(len(nodes)) if node not in {f.node for f in frame.feet}}
    held |= {f.node: foot for f in frame.feet}
    factor = factorise(frame.model, supports(frame.model, held))
    return solve(factor, at_nodes(frame.model, [{corner: (20 * POUND_FORCE, 0, 0, 0, 0, 0)}])), corner


def test_mitred_corners_of_a_portal_are_one_node_each() -> None:
    frame = portal(34, 16)
    assert len(frame.feet) == 2
    assert len(frame.joints) == 2
    assert np.abs(frame.model.offsets).max() == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize(("height", "span"), [(34.0, 16.0), (34.0, 48.0), (60.0, 30.0)])
def test_portal_on_pinned_feet(height: float, span: float) -> None:
    """The bending formula, and what the stretch of the tube adds to it by the unit load method."""
    frame = portal(height, span)
    response, corner = pushed(frame, "ux uy uz rz")
    tube = parse_stock("round tube 1.25 x 0.065", unit="inch")
    e, i = tube.material.e, tube.section.i_u
    h, width = height * INCH, span * INCH
    push = 20 * POUND_FORCE
    sway = push * h**2 / (6 * e) * (h / i + width / (2 * i))
    stretch = push / (e * tube.section.area) * (2 * (h / width) ** 2 * h + width / 4)
    assert response.by_node[corner, 0, 0] == pytest.approx(sway + stretch, rel=0.001)
    if (height, span) == (34.0, 16.0):
        # 0.13100 in with I 0.0426 in4 and E 29 Mpsi
        assert (response.by_node[corner, 0, 0] - stretch) / INCH * e / (29000 * KSI) == pytest.approx(
            0.13100, rel=0.002
        )


@pytest.mark.parametrize(("height", "span"), [(34.0, 16.0), (34.0, 48.0)])
def test_portal_on_fixed_feet(height: float, span: float) -> None:
    frame = portal(height, span)
    response, corner = pushed(frame, "fixed")
    tube = parse_stock("round tube 1.25 x 0.065", unit="inch")
    e, i = tube.material.e, tube.section.i_u
    h, width, push = height * INCH, span * INCH, 20 * POUND_FORCE
    k = h / width
    sway = push * h**3 / (12 * e * i) * (3 * k + 2) / (6 * k + 1)
    base = push * h / 2 * (3 * k + 1) / (6 * k + 1)
    assert response.by_node[corner, 0, 0] == pytest.approx(sway, rel=0.01)
    moments = np.abs(response.reactions.reshape(-1, 6)[[f.node for f in frame.feet], 4])
    assert moments == pytest.approx([base, base], rel=0.005)
    if span == 16.0:
        assert moments[0] / (POUND_FORCE * INCH) == pytest.approx(182.4, rel=0.005)


def test_simple_beam_of_singer_on_two_posts() -> None:
    """Singer and Pytel, problem 504: 2 x 4 in on 12 ft, 2,000 lb at 3 ft: largest fibre stress 10,125 psi.

    The beam is a bar between two posts, its ends released; the moment under the load is what counts.
    """
    frame = piece_frame("""
job: {name: Beam, unit: inch}
stock: {bar: board 2 x 4 sugar maple, post: square tube 4 x 11 ga}
parts:
  beam: {stock: bar, path: [[2, 0, 40], [150, 0, 40]], wide: z, fastened: bolted}
  post: {stock: post, path: [[0, 0, 0], [0, 0, 60]], ends: free, mirror: {x: 76}}
""")
    own = frame.elements_of[0]
    ends = frame.model.ends[own]
    target = ends[0, 0, 0] + (ends[-1, 1, 0] - ends[0, 0, 0]) / 4
    at = int(np.flatnonzero((ends[:, 0, 0] <= target) & (ends[:, 1, 0] >= target - 1e-9))[0])
    push = np.zeros((1, 6))
    model = frame.model
    local = factorise(model, supports(model, {f.node: "fixed" for f in frame.feet})).elements.rotation[own[at]]
    push[0, :3] = local @ np.array([0.0, 0.0, -2000 * POUND_FORCE])
    held = on_feet(model, supports(model, {f.node: "fixed" for f in frame.feet}), feet([f.node for f in frame.feet]))
    loads = at_points(model, [own[at]], [target - ends[at, 0, 0]], push)
    forces = section_forces(solve(factorise(model, held), loads), np.linspace(0, 1, 11))[own]
    section = frame.stocks[0].section
    stress = bending_stress(forces[:, :, 4], forces[:, :, 5], section).max()
    span = float(ends[-1, 1, 0] - ends[0, 0, 0]) / INCH
    assert stress / KSI * 1000 == pytest.approx(10125 * span / 144, rel=0.002)
