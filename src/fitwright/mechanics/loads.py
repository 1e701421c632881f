"""What acts on the frame: forces, and strains or misfits built into it, in k load cases side by side."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike

from fitwright.mechanics.model import Floats, FrameError, FrameModel, Ints

GRAVITY = 9.80665
"""Standard acceleration of free fall [m/s2], so also N per kg: ISO 80000-3."""


@dataclass(frozen=True, eq=False)
class Loads:
    """k load cases.

    nodal: (6n, k) forces and moments at nodes, global [N, N mm].
    line: (m, 3, k) force per length of element, global [N/mm]; None where there is none.
    gaps: (m, 6, k) the relative displacement of the two halves at midpoint, local, at which the element is free of
        stress [mm, rad]; None where there is none. See `strains` and `misfits`.
    point_elements: (p,); point_places: (p,) distance from end 1 [mm]; point_forces: (p, 6, k) local [N, N mm].
    """

    nodal: Floats
    line: Floats | None
    gaps: Floats | None
    point_elements: Ints
    point_places: Floats
    point_forces: Floats

    @property
    def cases(self) -> int:
        """k."""
        return int(self.nodal.shape[1])


def forces(model: FrameModel, nodal: ArrayLike) -> Loads:
    """Load cases from forces at nodes: (6n, k), or (6n,) for one case [N, N mm]."""
    array = np.asarray(nodal, dtype=np.float64)
    array = array.reshape(model.dof_count, -1) if array.ndim == 1 else array
    if array.shape[0] != model.dof_count:
        raise FrameError(f"forces for {array.shape[0]} displacements on a frame with {model.dof_count}: give 6 a node")
    none = np.zeros(0, dtype=np.intp)
    return Loads(array, None, None, none, np.zeros(0), np.zeros((0, 6, array.shape[1])))


def at_nodes(model: FrameModel, cases: Sequence[Mapping[int, ArrayLike]]) -> Loads:
    """One load case for each mapping of node to (Fx Fy Fz Mx My Mz), global [N, N mm]."""
    nodal = np.zeros((model.node_count, 6, len(cases)))
    for k, case in enumerate(cases):
        for node, force in case.items():
            nodal[node, :, k] += np.asarray(force, dtype=np.float64)
    return forces(model, nodal.reshape(model.dof_count, len(cases)))


def along(model: FrameModel, line: ArrayLike, rotation: Floats | None = None) -> Loads:
    """Uniform force per length of element: (m, 3, k), or (m, 3) for one case [N/mm].

    Global axes; local ones when the elements' `rotation` (m, 3, 3) is given, as in `Beams.rotation`. A load per
    length of floor plan has to be multiplied by the cosine of the slope first.
    """
    array = np.asarray(line, dtype=np.float64)
    array = array.reshape(model.element_count, 3, -1)
    if rotation is not None:
        array = rotation.transpose(0, 2, 1) @ array
    return replace(forces(model, np.zeros((model.dof_count, array.shape[2]))), line=array)


def self_weight(model: FrameModel, direction: ArrayLike = (0.0, 0.0, -1.0), gravity: float = GRAVITY) -> Loads:
    """One case: the weight of the elements, in N with mass_per_mm in kg/mm; direction: (3,) unit vector."""
    pull = np.asarray(direction, dtype=np.float64) * gravity
    return along(model, model.mass_per_mm[:, None] * pull)


def at_points(model: FrameModel, elements: ArrayLike, places: ArrayLike, local_forces: ArrayLike) -> Loads:
    """Forces on elements between their ends.

    elements: (p,); places: (p,) distance from end 1 [mm]; local_forces: (p, 6, k), or (p, 6) for one case.

    Raises FrameError for a place that is not on the element.
    """
    which = np.asarray(elements, dtype=np.intp).reshape(-1)
    where = np.asarray(places, dtype=np.float64).reshape(-1)
    array = np.asarray(local_forces, dtype=np.float64).reshape(len(which), 6, -1)
    length = np.linalg.norm(model.ends[which, 1] - model.ends[which, 0], axis=1)
    outside = np.flatnonzero((where < 0) | (where > length))
    if len(outside):
        i = outside[0]
        raise FrameError(
            f"a force at {where[i]} mm on {model.element_labels[which[i]]}: give a place from 0 to {length[i]:.6g} mm"
        )
    base = forces(model, np.zeros((model.dof_count, array.shape[2])))
    return replace(base, point_elements=which, point_places=where, point_forces=array)


def strains(model: FrameModel, imposed: ArrayLike) -> Loads:
    """Strain that the elements take up by themselves, as weld shrinkage or heat gives: (m, 4, k) or (m, 4).

    The four are stretch along x [-] and turning per length about x, y and z [rad/mm], local: a turning about z
    bends the element towards +y, one about y towards -z.
    Holds for strain uniform along each element; shorten the elements where it is not.
    Source: geometry; the gap at midpoint is strain times length, and a uniform bend leaves no shift there.
    """
    array = np.asarray(imposed, dtype=np.float64).reshape(model.element_count, 4, -1)
    length = np.linalg.norm(model.ends[:, 1] - model.ends[:, 0], axis=1)[:, None]
    gaps = np.zeros((model.element_count, 6, array.shape[2]))
    gaps[:, 0], gaps[:, 3:] = array[:, 0] * length, array[:, 1:] * length[:, :, None]
    # a section twists about its shear centre, and the gap is kept at the centroid
    gaps[:, 1] += gaps[:, 3] * model.shear_centre[:, 1:]
    gaps[:, 2] -= gaps[:, 3] * model.shear_centre[:, :1]
    return replace(forces(model, np.zeros((model.dof_count, array.shape[2]))), gaps=gaps)


def add(*parts: Loads) -> Loads:
    """The parts acting together, case by case; all with the same number of cases."""
    if len({part.cases for part in parts}) != 1:
        raise FrameError(f"loads of {[part.cases for part in parts]} cases cannot act together: give as many of each")
    return Loads(
        np.sum([part.nodal for part in parts], axis=0),
        _total([part.line for part in parts]),
        _total([part.gaps for part in parts]),
        np.concatenate([part.point_elements for part in parts]),
        np.concatenate([part.point_places for part in parts]),
        np.concatenate([part.point_forces for part in parts]),
    )


def combine(loads: Loads, factors: ArrayLike) -> Loads:
    """New cases as sums of the given ones: factors (k, c) gives c cases."""
    mix = np.asarray(factors, dtype=np.float64).reshape(loads.cases, -1)
    return Loads(
        loads.nodal @ mix,
        None if loads.line is None else loads.line @ mix,
        None if loads.gaps is None else loads.gaps @ mix,
        loads.point_elements,
        loads.point_places,
        loads.point_forces @ mix,
    )


def side_by_side(*parts: Loads) -> Loads:
    """All cases of all parts, one after the other."""
    total = sum(part.cases for part in parts)
    done, spread = 0, []
    for part in parts:
        spread.append(combine(part, np.eye(part.cases, total, done)))
        done += part.cases
    return add(*spread)


def _total(arrays: Sequence[Floats | None]) -> Floats | None:
    given = [array for array in arrays if array is not None]
    return np.sum(given, axis=0) if given else None
