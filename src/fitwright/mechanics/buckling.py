"""Linear buckling: by how much the loads could grow before the frame bows out sideways."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from fitwright.mechanics.assembly import gather_blocks
from fitwright.mechanics.factor import Factor
from fitwright.mechanics.geometric import geometric_stiffness
from fitwright.mechanics.model import Floats
from fitwright.mechanics.response import Response
from fitwright.mechanics.stations import section_forces

if TYPE_CHECKING:
    from fitwright.mechanics.assembly import Matrix

DENSE = 150
"""Up to this many displacements all modes are found at once, which is quicker and cannot miss one."""


@dataclass(frozen=True, eq=False)
class Buckling:
    """factors: (b,) times the loads at which each mode buckles, smallest first; shapes: (6n, b), largest move 1.

    Empty where the loads buckle nothing.
    """

    factors: Floats
    shapes: Floats


def buckling(response: Response, case: int = 0, modes: int = 1) -> Buckling:
    """The smallest load factors of one load case of a response.

    Holds while displacements before buckling are small; imperfections and yield come first in stocky members, so a
    check has to add a column curve. The factor is high by about (pi h / l)4 / 720, with h the length of an element and
    l that of a half wave: 0.05 % with four elements between points of no moment.
    Source: K. J. Bathe, Finite Element Procedures (1996), section 6.8.2 (from memory): (K + factor Kg) shape = 0.
    """
    factor = response.factor
    axial = section_forces(response, (0.5,))[:, 0, 0, case]
    geometric = _free_geometric(factor, axial)
    size = len(factor.free)
    if not size or not geometric.nnz:
        return Buckling(np.zeros(0), np.zeros((factor.model.dof_count, 0)))
    wanted = min(modes, size)
    inverse, shapes = _dense(factor, geometric) if size <= DENSE else _sparse(factor, geometric, wanted)
    order = np.argsort(-inverse)[:wanted]
    order = order[inverse[order] > 1e-12 * max(1.0, float(np.abs(inverse).max()))]
    return Buckling(1 / inverse[order], _whole(factor, shapes[:, order]))


def _free_geometric(factor: Factor, axial: Floats) -> Matrix:
    model = factor.model
    blocks = geometric_stiffness(model, factor.elements, axial)
    whole = gather_blocks([model.element_dofs], [blocks], model.dof_count)
    tied = whole if factor.ties is None else factor.ties.T @ whole @ factor.ties
    return tied.tocsc()[:, factor.free][factor.free, :]


def _dense(factor: Factor, geometric: Matrix) -> tuple[Floats, Floats]:
    from scipy.linalg import eigh

    values, shapes = eigh(-geometric.toarray(), factor.matrix.toarray())
    return np.asarray(values), np.asarray(shapes)


def _sparse(factor: Factor, geometric: Matrix, modes: int) -> tuple[Floats, Floats]:
    """Largest 1 / factor by Lanczos on K^-1 (-Kg): shift-invert about zero load, with the factors already at hand."""
    from scipy.sparse.linalg import ArpackNoConvergence, LinearOperator, eigsh

    size = len(factor.free)

    def back(force: Floats) -> Floats:
        return factor.solve_free(force.reshape(size, -1)).reshape(force.shape)

    inverse = LinearOperator((size, size), matvec=back, dtype=np.float64)
    start = np.random.default_rng(0).standard_normal(size)
    try:
        values, shapes = eigsh(-geometric, k=modes, M=factor.matrix, Minv=inverse, which="LA", v0=start)
    except ArpackNoConvergence:
        return _dense(factor, geometric)
    return np.asarray(values), np.asarray(shapes)


def _whole(factor: Factor, shapes: Floats) -> Floats:
    moved = np.zeros((factor.model.dof_count, shapes.shape[1]))
    moved[factor.free] = shapes
    moved = factor.to_all(moved)
    travel = np.abs(moved.reshape(factor.model.node_count, 6, shapes.shape[1])[:, :3]).max(axis=(0, 1), initial=0.0)
    return moved / np.where(travel > 0, travel, 1.0)
