"""Influence matrices: how much each output moves for one unit of each input."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike

from fitwright.mechanics.factor import Factor
from fitwright.mechanics.loads import forces
from fitwright.mechanics.misfit import misfit_to_middle
from fitwright.mechanics.model import Floats, FrameModel, Ints
from fitwright.mechanics.response import solve

if TYPE_CHECKING:
    from fitwright.mechanics.assembly import Matrix


def probes(model: FrameModel, outputs: Sequence[Mapping[int, ArrayLike]]) -> Matrix:
    """(o, 6n) rows that read outputs off displacements, each a mapping of node to six weights.

    The width between nodes 3 and 7 along X is `{7: (1, 0, 0, 0, 0, 0), 3: (-1, 0, 0, 0, 0, 0)}`.
    """
    from scipy.sparse import csc_array

    rows = np.zeros((len(outputs), model.node_count, 6))
    for row, output in enumerate(outputs):
        for node, weights in output.items():
            rows[row, node] += np.asarray(weights, dtype=np.float64)
    return csc_array(rows.reshape(len(outputs), model.dof_count))


def influence(factor: Factor, outputs: Matrix | Floats, inputs: Matrix | Floats) -> Floats:
    """(o, i) change of each output for one unit of each input.

    outputs: (o, 6n) weights on displacements, as from `probes`. inputs: (6n, i) forces on nodes, as from `gap_forces`
    or `misfit_forces`, or plain unit loads.
    Solved from whichever side has fewer columns (the stiffness is symmetric, so the adjoint costs no new factors).
    Holds for the linear frame with its supports as factorised; feet that lift are not in it.
    Source: S. C. Liu, S. J. Hu, Variation simulation for deformable sheet metal assemblies using finite element
    methods, ASME J. Manufacturing Science and Engineering 119 (1997) 368-374, for their use in assembly (from memory).
    """
    read = _on_free(factor, _sparse(outputs).T.tocsc())
    push = _on_free(factor, _sparse(inputs))
    if read.shape[1] <= push.shape[1]:
        return np.asarray(push.T @ factor.solve_free(read.toarray())).T
    return np.asarray(read.T @ factor.solve_free(push.toarray()))


def support_influence(factor: Factor, outputs: Matrix | Floats, dofs: ArrayLike) -> Floats:
    """(o, i) change of each output for one unit of prescribed displacement at held displacements dofs (i,)."""
    which = np.asarray(dofs, dtype=np.intp).reshape(-1)
    size = factor.model.dof_count
    moved = np.zeros((size, len(which)))
    moved[which, np.arange(len(which))] = 1.0
    return np.asarray(outputs @ solve(factor, forces(factor.model, np.zeros_like(moved)), moved).displacements)


def gap_forces(factor: Factor) -> Matrix:
    """(6n, 6m) forces on nodes from unit gaps at the midpoint of each element; columns run 6 to an element.

    An imposed strain is a gap of strain times length: see `strain_forces`.
    """
    return _columns(factor, np.tile(np.eye(6), (factor.model.element_count, 1, 1)), None)


def strain_forces(factor: Factor) -> Matrix:
    """(6n, 4m) forces on nodes from unit imposed strains (stretch, and turning about x, y, z), 4 to an element."""
    length, centre = factor.elements.length, factor.model.shear_centre
    gaps = np.zeros((len(length), 6, 4))
    gaps[:, 0, 0] = gaps[:, 3, 1] = gaps[:, 4, 2] = gaps[:, 5, 3] = length
    gaps[:, 1, 1], gaps[:, 2, 1] = length * centre[:, 1], -length * centre[:, 0]
    return _columns(factor, gaps, None)


def misfit_forces(factor: Factor, elements: ArrayLike, ends: ArrayLike) -> Matrix:
    """(6n, 6p) forces on nodes from unit misfits (global) at ends (p,) of elements (p,); columns run 6 to an end."""
    which = np.asarray(elements, dtype=np.intp).reshape(-1)
    where = np.asarray(ends, dtype=np.intp).reshape(-1)
    return _columns(factor, misfit_to_middle(factor.model, which, where), which)


def _columns(factor: Factor, gaps: Floats, elements: Ints | None) -> Matrix:
    """(6n, p c) sparse forces from gaps (p, 6, c) in the given elements (all when None)."""
    from scipy.sparse import csc_array

    pick = np.arange(factor.model.element_count) if elements is None else elements
    beams = factor.elements
    pushed = beams.deform[pick].transpose(0, 2, 1) @ (beams.stiffness[pick] @ gaps)
    p, _, c = pushed.shape
    rows = np.repeat(factor.model.element_dofs[pick][:, None, :], c, axis=1).ravel()
    data = pushed.transpose(0, 2, 1).ravel()
    starts = np.arange(p * c + 1) * 12
    return csc_array((data, rows, starts), shape=(factor.model.dof_count, p * c))


def _sparse(array: Matrix | Floats) -> Matrix:
    from scipy.sparse import csc_array

    return csc_array(array)


def _on_free(factor: Factor, columns: Matrix) -> Matrix:
    """(f, c) the rows of columns (6n, c) that belong to free displacements, those of carried nodes moved over."""
    from scipy.sparse import csc_array

    whole = columns if factor.ties is None else csc_array(factor.ties.T @ columns)
    return csc_array(whole[factor.free, :])
