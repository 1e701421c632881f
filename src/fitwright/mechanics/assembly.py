"""The stiffness matrix of the whole frame, assembled from all elements at once."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from fitwright.mechanics.axes import skew
from fitwright.mechanics.beam import Beams, beams
from fitwright.mechanics.model import Floats, FrameModel, Ints
from fitwright.mechanics.supports import Supports

if TYPE_CHECKING:
    from scipy.sparse import csc_array

    Matrix = csc_array[np.float64]


def stiffness(model: FrameModel, supports: Supports | None = None) -> Matrix:
    """(6n, 6n) stiffness of the whole frame without regard to what is held [N/mm, N, N mm].

    Springs to the ground are in it when `supports` are given. Rigid ties are not: see `ties`.
    """
    return assemble(model, beams(model), supports, np.arange(model.dof_count), model.dof_count)


def assemble(model: FrameModel, elements: Beams, supports: Supports | None, number: Ints, size: int) -> Matrix:
    """(size, size) stiffness in a numbering of our own: number (6n,), negative where a displacement is left out."""
    dofs, blocks = [model.element_dofs], [element_stiffness(elements)]
    if len(model.links):
        dofs.append(link_dofs(model))
        blocks.append(link_blocks(model))
    if supports is not None and len(supports.spring_nodes):
        dofs.append(supports.spring_nodes[:, None] * 6 + np.arange(6))
        blocks.append(supports.spring_stiffness)
    return gather_blocks([number[d] for d in dofs], blocks, size)


def element_stiffness(elements: Beams) -> Floats:
    """(m, 12, 12) stiffness of each element in global axes at its nodes."""
    matrix: Floats = elements.deform.transpose(0, 2, 1) @ (elements.stiffness @ elements.deform)
    return matrix


def link_dofs(model: FrameModel) -> Ints:
    """(l, 12) numbers of the displacements at the two nodes of each link."""
    dofs: Ints = model.links[:, :, None] * 6 + np.arange(6)
    return dofs.reshape(-1, 12)


def link_deform(model: FrameModel) -> Floats:
    """(l, 6, 12) displacements of the two linked nodes to their relative displacement at midpoint, global."""
    ends = model.nodes[model.links]
    arms = skew(ends.mean(axis=1)[:, None] - ends)
    deform = np.zeros((len(model.links), 6, 12))
    rows = np.arange(6)
    deform[:, rows, rows], deform[:, rows, rows + 6] = -1.0, 1.0
    deform[:, :3, 3:6], deform[:, :3, 9:12] = arms[:, 0], -arms[:, 1]
    return deform


def link_blocks(model: FrameModel) -> Floats:
    """(l, 12, 12) stiffness of the spring links in global axes."""
    deform = link_deform(model)
    matrix: Floats = deform.transpose(0, 2, 1) @ (model.link_stiffness @ deform)
    return matrix


def gather_blocks(dofs: list[Ints], blocks: list[Floats], size: int) -> Matrix:
    """(size, size) sum of blocks (p, q, q) at the displacements dofs (p, q); those below zero are left out."""
    from scipy.sparse import coo_array

    rows = np.concatenate([np.repeat(d, d.shape[1], axis=1).ravel() for d in dofs]).astype(np.int32)
    cols = np.concatenate([np.tile(d, (1, d.shape[1])).ravel() for d in dofs]).astype(np.int32)
    data = np.concatenate([block.ravel() for block in blocks])
    kept = (rows >= 0) & (cols >= 0)
    if not kept.all():
        rows, cols, data = rows[kept], cols[kept], data[kept]
    return coo_array((data, (rows, cols)), shape=(size, size)).tocsc()
