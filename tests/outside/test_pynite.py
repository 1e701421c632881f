"""A second opinion on whole frames: PyNiteFEA 3.2 (D. Craig Brinck, MIT licence), an independent 3-D frame program.

A piece of two bent hoops, and random connected frames with unequal sections turned about their axes, end releases,
supports of several kinds, node forces, distributed loads in global and local directions and forces between the ends.
Displacements, reactions and end forces have to agree to 0.1 % of the largest of their kind.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
import pytest
from Pynite import FEModel3D

from fitwright.mechanics import (
    FrameModel,
    Response,
    add,
    along,
    at_nodes,
    at_points,
    beams,
    chords,
    factorise,
    frame_model,
    solve,
    supports,
)
from fitwright.mechanics.model import Bools, Floats, Ints

AGREES = 1e-3
E, G = 205000.0, 79000.0
HELD = {0: "fixed", 1: "pinned", 2: "ux uz ry"}
DIRECTIONS = ("DX", "DY", "DZ", "RX", "RY", "RZ")
REACTIONS = ("RxnFX", "RxnFY", "RxnFZ", "RxnMX", "RxnMY", "RxnMZ")


@dataclass(frozen=True)
class Case:
    """A random frame: sections (m, 4) A Iy Iz J, roll (m,) [deg], loads as in the fields' names."""

    nodes: Floats
    elements: Ints
    sections: Floats
    roll: Floats
    releases: Bools
    nodal: Floats
    global_line: Floats
    local_line: Floats
    places: Floats
    forces: Floats


def random_case(seed: int) -> Case:
    """Nine nodes, a tree of eight members that holds together by itself, and six more, some of them released."""
    rng = np.random.default_rng(seed)
    n = 9
    nodes = rng.uniform(-800, 800, (n, 3))
    tree = [(int(rng.integers(0, k)), k) for k in range(1, n)]
    others = [(i, k) for i in range(n) for k in range(i + 1, n) if (i, k) not in tree]
    extra = [others[int(i)] for i in rng.choice(len(others), 6, replace=False)]
    elements = np.array(tree + extra)
    m = len(elements)
    sections = rng.uniform([150, 1e4, 2e4, 2e4], [400, 8e4, 9e4, 9e4], (m, 4))
    releases = np.zeros((m, 12), dtype=np.bool_)
    releases[n - 1 : n + 2, 4:6] = True
    releases[n : n + 2, 10:12] = True
    releases[n + 1, 9] = True
    releases[n + 2, 0] = True
    return Case(
        nodes,
        elements,
        sections,
        rng.uniform(0, 180, m),
        releases,
        rng.uniform(-300, 300, (n, 6)) * [1, 1, 1, 200, 200, 200],
        rng.uniform(-1, 1, (m, 3)),
        rng.uniform(-1, 1, (m, 3)),
        rng.uniform(0.1, 0.9, m),
        rng.uniform(-200, 200, (m, 6)) * [1, 1, 1, 200, 200, 200],
    )


def theirs(case: Case) -> Any:
    """The solved model of the other program."""
    model = FEModel3D()
    model.add_material("steel", E, G, 0.3, 7.85e-6)
    for i, point in enumerate(case.nodes):
        model.add_node(f"N{i}", *(float(x) for x in point))
    for i, (pair, section) in enumerate(zip(case.elements, case.sections, strict=True)):
        model.add_section(f"S{i}", *(float(x) for x in section))
        model.add_member(f"M{i}", f"N{pair[0]}", f"N{pair[1]}", "steel", f"S{i}", rotation=float(case.roll[i]))
        model.def_releases(f"M{i}", *(bool(x) for x in case.releases[i]))
        load_member(model, case, i)
    for node, words in HELD.items():
        names = {"fixed": "ux uy uz rx ry rz", "pinned": "ux uy uz"}.get(words, words).split()
        model.def_support(f"N{node}", *(name in names for name in ("ux", "uy", "uz", "rx", "ry", "rz")))
    for i, force in enumerate(case.nodal):
        for direction, size in zip(("FX", "FY", "FZ", "MX", "MY", "MZ"), force, strict=True):
            model.add_node_load(f"N{i}", direction, float(size))
    model.analyze_linear()
    return model


def load_member(model: Any, case: Case, i: int) -> None:
    """Distributed loads and one force on a member of the other program."""
    for axis, name in enumerate("XYZ"):
        model.add_member_dist_load(f"M{i}", f"F{name}", *[float(case.global_line[i, axis])] * 2)
        model.add_member_dist_load(f"M{i}", f"F{name.lower()}", *[float(case.local_line[i, axis])] * 2)
    place = float(case.places[i]) * model.members[f"M{i}"].L()
    for direction, size in zip(("Fx", "Fy", "Fz", "Mx", "My", "Mz"), case.forces[i], strict=True):
        model.add_member_pt_load(f"M{i}", direction, float(size), place)


def ours(case: Case, their_model: Any) -> Response:
    """Our answer, with local axes as the other program has them."""
    axes = np.array([their_model.members[f"M{i}"].T()[1, :3] for i in range(len(case.elements))])
    area, i_y, i_z, j = case.sections.T
    model: FrameModel = frame_model(
        case.nodes,
        case.elements,
        e=E,
        g=G,
        area=area,
        i_y=i_y,
        i_z=i_z,
        j=j,
        y_axis=axes,
        releases=case.releases,
    )
    elements = beams(model)
    load = add(
        at_nodes(model, [dict(enumerate(case.nodal))]),
        along(model, case.global_line),
        along(model, case.local_line, elements.rotation),
        at_points(model, np.arange(len(area)), case.places * elements.length, case.forces),
    )
    return solve(factorise(model, supports(model, HELD)), load)


def agree(mine: Floats, other: Floats) -> None:
    """Translations and rotations, or forces and moments, each beside the largest of their kind."""
    for part in (slice(0, 3), slice(3, 6)):
        size = np.abs(other[:, part]).max()
        assert np.abs(mine[:, part] - other[:, part]).max() < AGREES * size


def hoops() -> Case:
    """Two bent hoops 800 mm wide and 1500 mm high, 450 mm apart, with rails between: chords in the bends."""
    corner = math.pi / 2
    left = chords(np.array([100.0, 0, 1400]), np.array([0, 1.0, 0]), np.array([0.0, 0, 1400]), corner, 8)
    right = chords(np.array([700.0, 0, 1400]), np.array([0, 1.0, 0]), np.array([700.0, 0, 1500]), corner, 8)
    levels = (0.0, 350.0, 700.0, 1050.0)
    down = np.array([[800.0, 0, z] for z in reversed(levels)])
    hoop = np.vstack([np.array([[0.0, 0, z] for z in levels]), left, right, down])
    # feet first, for these are what HELD holds
    hoop_size, nodes = len(hoop), np.vstack([hoop, hoop + np.array([0, 450, 0])])
    elements = [(i + k * hoop_size, i + 1 + k * hoop_size) for k in range(2) for i in range(hoop_size - 1)]
    elements += [(i, i + hoop_size) for i in (1, 2, 3, hoop_size - 4, hoop_size - 3, hoop_size - 2)]
    feet = [0, hoop_size - 1, hoop_size]
    order = np.array(feet + [i for i in range(len(nodes)) if i not in feet])
    m, place = len(elements), np.argsort(order)
    down_line = np.tile([0.0, -0.05, -0.4], (m, 1))
    return Case(
        nodes[order],
        place[np.array(elements)],
        np.tile([215.0, 3.1e4, 3.1e4, 6.2e4], (m, 1)),
        np.zeros(m),
        np.zeros((m, 12), dtype=np.bool_),
        np.tile([1.0, 2.0, 0, 0, 0, 0], (len(nodes), 1)),
        down_line,
        np.zeros((m, 3)),
        np.full(m, 0.5),
        np.zeros((m, 6)),
    )


@pytest.mark.parametrize("case", [*(random_case(seed) for seed in range(6)), hoops()])
def test_frames_agree(case: Case) -> None:
    model = theirs(case)
    response = ours(case, model)
    nodes = [model.nodes[f"N{i}"] for i in range(len(case.nodes))]
    agree(response.by_node[:, :, 0], np.array([[getattr(n, d)["Combo 1"] for d in DIRECTIONS] for n in nodes]))
    reactions = np.array([[getattr(n, d)["Combo 1"] for d in REACTIONS] for n in nodes])
    agree(response.reactions.reshape(-1, 6), reactions)
    ends = np.array([model.members[f"M{i}"].f().ravel() for i in range(len(case.elements))], dtype=np.float64)
    agree(response.end_forces[:, :6, 0], ends[:, :6])
    agree(response.end_forces[:, 6:, 0], ends[:, 6:])
