"""A second opinion on whole pieces: PyNiteFEA 3.2 (D. Craig Brinck, MIT licence), an independent 3-D frame program.

The three shipped jobs as frames, same mesh, all loads on and somebody pushing from the side, feet held on the floor.
What the other program lacks is rebuilt from what it has: rigid arms as members ten thousand times stiffer, bends by a
smaller second moment, angle on its principal axes turned by hand. It knows no shear centre, so that is left out on both
sides. Displacements, forces of the feet and forces at the ends of the members have to agree to 0.1 % of the largest of
their kind.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from Pynite import FEModel3D

from fitwright.checks.cases import load_cases
from fitwright.job import load_job
from fitwright.job.model import Job
from fitwright.mechanics import FrameModel, Response, factorise, on_feet, solve
from fitwright.mechanics.axes import local_axes
from fitwright.mechanics.framing import Framed, floor_feet, framed, holding
from fitwright.mechanics.framing.loading import Pattern, as_loads
from fitwright.mechanics.model import Bools, Floats
from fitwright.piece import build

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = ("drying-rack", "workbench", "coat-rail")
AGREES = 1e-3
RIGID = 1e4
ARM_MM = 1e-6
DIRECTIONS = ("DX", "DY", "DZ", "RX", "RY", "RZ")
REACTIONS = ("RxnFX", "RxnFY", "RxnFZ", "RxnMX", "RxnMY", "RxnMZ")
FORCES = ("FX", "FY", "FZ", "MX", "MY", "MZ")


@cache
def job_of(name: str) -> Job:
    """A shipped job."""
    return load_job(EXAMPLES / name / "job.yaml")


def plain(name: str) -> Framed:
    """A demo's frame without shear centres."""
    frame = framed(build(job_of(name)), job_of(name))
    return replace(frame, model=replace(frame.model, shear_centre=np.zeros((frame.model.element_count, 2))))


def principal(model: FrameModel, m: int) -> tuple[float, float, float]:
    """Second moments about the principal y and z of an element, and the turn from its local y to that one [rad].

    The moment about y is the integral of z squared, so the turn that clears the product is half the angle of
    (2 Iyz, Iz - Iy).
    """
    i_y, i_z, i_yz = (float(values[m]) for values in (model.i_y, model.i_z, model.i_yz))
    turn = 0.5 * float(np.arctan2(2 * i_yz, i_z - i_y)) if abs(i_yz) > 1e-9 * (i_y + i_z) else 0.0
    c, s = np.cos(turn), np.sin(turn)
    about_z = i_z * c**2 + i_y * s**2 + 2 * i_yz * s * c
    return i_y + i_z - about_z, about_z, turn


def end_node(model: Any, frame: FrameModel, m: int, end: int) -> str:
    """The other program's node at an element's end: the frame's own, or one at the tip of a rigid arm."""
    node = int(frame.elements[m, end])
    if np.linalg.norm(frame.offsets[m, end]) < ARM_MM:
        return f"N{node}"
    tip = f"E{m}.{end}"
    model.add_node(tip, *frame.ends[m, end].tolist())
    model.add_member(f"R{m}.{end}", f"N{node}", tip, "steel", "rigid")
    return tip


def theirs(frame: Framed, pattern: Pattern, held: Bools) -> Any:
    """The solved model of the other program."""
    ours, model = frame.model, FEModel3D()
    model.add_material("steel", 200000.0, 77200.0, 0.3, 7.85e-6)
    size = [float(values.max()) * RIGID for values in (ours.area, ours.i_y + ours.i_z, ours.i_y + ours.i_z, ours.j)]
    model.add_section("rigid", *size)
    for n, point in enumerate(ours.nodes.tolist()):
        model.add_node(f"N{n}", *point)
        model.def_support(f"N{n}", *(bool(fixed) for fixed in held[n]))
        for direction, force in zip(FORCES, pattern.nodal[n].tolist(), strict=True):
            model.add_node_load(f"N{n}", direction, force)
    _, rotation = local_axes(ours)
    for m in range(ours.element_count):
        add_element(model, ours, m, rotation[m])
        for axis, force in zip("XYZ", pattern.line[m].tolist(), strict=True):
            model.add_member_dist_load(f"M{m}", f"F{axis}", force, force)
    model.analyze_linear(check_stability=False)
    return model


def add_element(model: Any, ours: FrameModel, m: int, rotation: Floats) -> None:
    """One element on its principal axes; the other program's own axes at no turn are asked from it."""
    i_y, i_z, turn = principal(ours, m)
    soft = float(ours.softening[m])
    model.add_material(f"m{m}", float(ours.e[m]), float(ours.g[m]), 0.3, 0.0)
    model.add_section(f"s{m}", float(ours.area[m]), i_y / soft, i_z / soft, float(ours.j[m]))
    start, end = end_node(model, ours, m, 0), end_node(model, ours, m, 1)
    model.add_member(f"M{m}", start, end, f"m{m}", f"s{m}")
    wanted = np.cos(turn) * rotation[1] + np.sin(turn) * rotation[2]
    plain_axes = model.members[f"M{m}"].T()[:3, :3]
    angle = np.degrees(np.arctan2(wanted @ plain_axes[2], wanted @ plain_axes[1]))
    model.members[f"M{m}"].rotation = float(angle)
    assert model.members[f"M{m}"].T()[1, :3] == pytest.approx(wanted, abs=1e-6)


def agree(mine: Floats, other: Floats) -> None:
    """Translations and rotations, or forces and moments, each beside the largest of their kind."""
    for part in (slice(0, 3), slice(3, 6)):
        size = np.abs(other[:, part]).max()
        assert np.abs(mine[:, part] - other[:, part]).max() < AGREES * size


def turned_ends(frame: Framed, response: Response) -> Floats:
    """(m, 6) forces at the first end of each element, on its principal axes."""
    ends = response.end_forces[:, :6, 0].copy()
    for m in range(len(ends)):
        turn = principal(frame.model, m)[2]
        c, s = np.cos(turn), np.sin(turn)
        for y in (1, 4):
            ends[m, y], ends[m, y + 1] = c * ends[m, y] + s * ends[m, y + 1], -s * ends[m, y] + c * ends[m, y + 1]
    return ends


@pytest.mark.parametrize("name", NAMES)
def test_whole_pieces_agree(name: str) -> None:
    frame = plain(name)
    cases = load_cases(frame, job_of(name))
    leaning = next(case for case in cases.cases if case.kind == "push")
    supports = on_feet(frame.model, holding(frame, stick=True), floor_feet(frame, stick=True))
    response = solve(factorise(frame.model, supports), as_loads(frame, [leaning.pattern]))
    model = theirs(frame, leaning.pattern, supports.held)
    nodes = [model.nodes[f"N{n}"] for n in range(frame.model.node_count)]
    agree(response.by_node[:, :, 0], np.array([[getattr(n, d)["Combo 1"] for d in DIRECTIONS] for n in nodes]))
    reactions = np.array([[getattr(n, d)["Combo 1"] for d in REACTIONS[:3]] for n in nodes])
    mine = response.reactions.reshape(-1, 6)[:, :3]
    assert np.abs(mine - reactions).max() < AGREES * np.abs(reactions).max()
    ends = np.array(
        [model.members[f"M{m}"].f().ravel()[:6] for m in range(frame.model.element_count)], dtype=np.float64
    )
    agree(turned_ends(frame, response), ends)
