"""What loads between the ends do to an element whose ends are clamped."""

from __future__ import annotations

import numpy as np

from fitwright.mechanics.axes import skew
from fitwright.mechanics.beam import Beams, midpoint_stiffness
from fitwright.mechanics.loads import Loads
from fitwright.mechanics.mechanism import Mechanism
from fitwright.mechanics.model import Floats, FrameModel
from fitwright.mechanics.picking import picked
from fitwright.mechanics.releases import end_to_middle

NO_WAY_OUT = 1e-9
AXIS = np.array([1.0, 0.0, 0.0])


def fixed_end_forces(model: FrameModel, elements: Beams, loads: Loads) -> Floats | None:
    """(m, 12, k) forces of the nodes on the element ends while these stay put, local; None without such loads.

    End releases are taken into account.

    Raises Mechanism when a load between the ends has no way to the nodes because both ends are released.
    Holds for uniform loads and for forces and moments at points, on straight prismatic elements with or without shear
    flexibility.
    Source: W. McGuire, R. Gallagher, R. Ziemian, Matrix Structural Analysis, 2nd ed. (2000), table 5.1 (from memory)
    for the uniform load; forces at points by the flexibility of the part between end 1 and the force.
    """
    if loads.line is None and not len(loads.point_elements):
        return None
    clamped = np.zeros((model.element_count, 12, loads.cases))
    if loads.line is not None:
        clamped += uniform_fixed_ends(elements.length, elements.rotation @ loads.line)
    if len(loads.point_elements):
        np.add.at(clamped, loads.point_elements, point_fixed_ends(model, elements, loads))
    return _after_release(model, elements, clamped)


def uniform_fixed_ends(length: Floats, line: Floats) -> Floats:
    """(m, 12, k) end forces under a uniform load (m, 3, k) along local axes: w L / 2 and w L2 / 12."""
    size = length[:, None, None]
    result = np.zeros((len(length), 12, line.shape[2]))
    result[:, 0:3] = result[:, 6:9] = -line * size / 2
    bend = line * size**2 / 12
    result[:, 4], result[:, 5], result[:, 10], result[:, 11] = bend[:, 2], -bend[:, 1], -bend[:, 2], bend[:, 1]
    return result


def point_fixed_ends(model: FrameModel, elements: Beams, loads: Loads) -> Floats:
    """(p, 12, k) end forces under forces (p, 6, k) at places on clamped elements, without end releases.

    Hold the element at end 1 only: the part up to the force deforms, the rest follows straight. The gap that this
    leaves at midpoint is closed by the midpoint springs.
    """
    which, place, force = loads.point_elements, loads.point_places, loads.point_forces
    length, part = elements.length[which], picked(model, which)
    gap = _carried_gap(part, place, length, force)
    closing = -midpoint_stiffness(part, length) @ gap
    result: Floats = end_to_middle(length).transpose(0, 2, 1) @ closing
    result[:, :3] -= force[:, :3]
    result[:, 3:6] -= force[:, 3:] + (place[:, None, None] * skew(AXIS)) @ force[:, :3]
    return result


def _carried_gap(part: FrameModel, place: Floats, length: Floats, force: Floats) -> Floats:
    """(p, 6, k) gap at the element's midpoint when the part up to the force is a cantilever."""
    span = np.where(place > 0, place, 1.0)
    half = (place / 2)[:, None, None]
    at_half = force.copy()
    at_half[:, 3:] += (half * skew(AXIS)) @ force[:, :3]
    gap: Floats = np.asarray(np.linalg.solve(midpoint_stiffness(part, span), at_half), dtype=np.float64)
    gap[place <= 0] = 0.0
    gap[:, :3] += (((place - length) / 2)[:, None, None] * skew(AXIS)) @ gap[:, 3:]
    return gap


def _after_release(model: FrameModel, elements: Beams, clamped: Floats) -> Floats:
    released = elements.released
    if not len(released.index):
        return clamped
    ends = clamped[released.index]
    spread = end_to_middle(elements.length[released.index]).transpose(0, 2, 1)
    ends -= spread @ (released.carry @ ends)
    stuck = (np.abs(ends) > NO_WAY_OUT * np.abs(clamped).max()) & released.free[:, :, None]
    if stuck.any():
        label = model.element_labels[released.index[int(np.argwhere(stuck)[0][0])]]
        raise Mechanism(
            f"the load on {label} has no way to its nodes: the releases at its ends let it go; "
            "release less, or put the load on a node",
            elements=(label,),
        )
    clamped[released.index] = np.where(released.free[:, :, None], 0.0, ends)
    return clamped
