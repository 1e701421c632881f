"""The frame factorised once, so that many load cases cost little each."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from fitwright.mechanics.assembly import assemble
from fitwright.mechanics.beam import Beams, beams
from fitwright.mechanics.mechanism import refuse_loose
from fitwright.mechanics.model import Floats, FrameError, FrameModel, Ints
from fitwright.mechanics.supports import Supports
from fitwright.mechanics.ties import carried_dofs, tie_matrix

if TYPE_CHECKING:
    from scipy.sparse.linalg import SuperLU

    from fitwright.mechanics.assembly import Matrix

SUSPECT = 1e9
"""Growth of a random load, in units of the stiffness at hand, from which a mechanism is looked for."""


@dataclass(frozen=True, eq=False)
class Factor:
    """A factorised frame.

    free: (f,) displacements to be found; held: (h,) those given.
    matrix: (f, f) stiffness over the free ones; lu: its factors (None when nothing is free).
    ties: (6n, 6n) from carriers to all nodes, or None.
    """

    model: FrameModel
    supports: Supports
    elements: Beams
    free: Ints
    held: Ints
    matrix: Matrix
    lu: SuperLU | None
    ties: Matrix | None

    def solve_free(self, forces: Floats) -> Floats:
        """(f, k) free displacements under forces (f, k) on them."""
        if self.lu is None:
            return np.zeros(forces.shape)
        return self.lu.solve(np.asfortranarray(forces))

    def to_carriers(self, forces: Floats) -> Floats:
        """(6n, k) the same forces with those on carried nodes moved to their carriers."""
        return forces if self.ties is None else np.asarray(self.ties.T @ forces)

    def to_all(self, displacements: Floats) -> Floats:
        """(6n, k) displacements with carried nodes following their carriers."""
        return displacements if self.ties is None else np.asarray(self.ties @ displacements)


def factorise(model: FrameModel, supports: Supports) -> Factor:
    """Assemble and factorise the stiffness of a frame as it is held.

    Raises Mechanism, naming the part, when something can move without resistance; FrameError when a carried node is
    held.
    """
    elements = beams(model)
    ties = tie_matrix(model)
    carried = carried_dofs(model)
    mask = supports.held.ravel()
    if (mask & carried).any():
        name = model.node_labels[int(np.flatnonzero(mask & carried)[0]) // 6]
        raise FrameError(f"{name} is held and also tied rigidly to another node: hold its carrier instead")
    free = np.flatnonzero(~mask & ~carried)
    matrix = _free_matrix(model, elements, supports, free, ties)
    return Factor(
        model, supports, elements, free, np.flatnonzero(mask), matrix, _factors(model, supports, matrix, free), ties
    )


def _free_matrix(model: FrameModel, elements: Beams, supports: Supports, free: Ints, ties: Matrix | None) -> Matrix:
    if ties is None:
        number = np.full(model.dof_count, -1)
        number[free] = np.arange(len(free))
        return assemble(model, elements, supports, number, len(free))
    whole = assemble(model, elements, supports, np.arange(model.dof_count), model.dof_count)
    return (ties.T @ whole @ ties).tocsc()[:, free][free, :]


def _factors(model: FrameModel, supports: Supports, matrix: Matrix, free: Ints) -> SuperLU | None:
    from scipy.sparse.linalg import splu

    if not len(free):
        return None
    try:
        # The matrix is symmetric and positive: pivots may stay on the diagonal, which keeps the fill small.
        lu = splu(matrix, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options={"SymmetricMode": True})
    except RuntimeError:
        refuse_loose(model, supports, matrix, free)
        raise FrameError("the stiffness of this frame cannot be factorised: look for stiffnesses far apart") from None
    if not _growth(lu, matrix) < SUSPECT:
        refuse_loose(model, supports, matrix, free)
    return lu


def _growth(lu: SuperLU, matrix: Matrix) -> float:
    """How far a random load moves the frame compared with its diagonal stiffness: about 1 / smallest eigenvalue."""
    scale = np.sqrt(np.abs(matrix.diagonal()))
    load = np.random.default_rng(0).standard_normal(len(scale))
    moved = scale * lu.solve(scale * load)
    return float(np.linalg.norm(moved) / np.linalg.norm(load))
