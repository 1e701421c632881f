"""Rigid ties: a node carried along by another as if on one solid piece."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from fitwright.mechanics.axes import skew
from fitwright.mechanics.model import Bools, FrameError, FrameModel, Ints

if TYPE_CHECKING:
    from fitwright.mechanics.assembly import Matrix


def carried_dofs(model: FrameModel) -> Bools:
    """(6n,) true for the displacements that follow from another node's."""
    mask = np.zeros((model.node_count, 6), dtype=np.bool_)
    mask[model.rigid[:, 0]] = True
    return mask.ravel()


def tie_matrix(model: FrameModel) -> Matrix | None:
    """(6n, 6n) from the displacements of carriers to those of all nodes, or None where nothing is tied.

    u = u_carrier + rotation x arm, exact for small rotations; a chain of ties ends at its last carrier.

    Raises FrameError for a node carried twice, or ties that run in a circle.
    """
    if not len(model.rigid):
        return None
    from scipy.sparse import csc_array

    carrier = _carriers(model)
    blocks = np.tile(np.eye(6), (model.node_count, 1, 1))
    blocks[:, :3, 3:] = -skew(model.nodes - model.nodes[carrier])
    dofs = np.arange(model.dof_count).reshape(-1, 6)
    rows = np.repeat(dofs, 6, axis=1).ravel()
    cols = np.tile(dofs[carrier], (1, 6)).ravel()
    return csc_array((blocks.ravel(), (rows, cols)), shape=(model.dof_count, model.dof_count))


def _carriers(model: FrameModel) -> Ints:
    carrier = np.arange(model.node_count)
    if len(np.unique(model.rigid[:, 0])) < len(model.rigid):
        raise FrameError("a node is carried by two others: tie the carriers to each other instead")
    carrier[model.rigid[:, 0]] = model.rigid[:, 1]
    for _ in range(len(model.rigid)):
        carrier = carrier[carrier]
    circle = np.flatnonzero(np.isin(carrier, model.rigid[:, 0]))
    if len(circle):
        raise FrameError(f"rigid ties run in a circle through {model.node_labels[circle[0]]}: leave one node untied")
    return carrier
