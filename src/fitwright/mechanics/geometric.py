"""Geometric stiffness: what an axial force adds to, or takes from, the stiffness across it."""

from __future__ import annotations

import numpy as np

from fitwright.mechanics.axes import skew
from fitwright.mechanics.beam import Beams
from fitwright.mechanics.model import Floats, FrameModel
from fitwright.mechanics.releases import end_to_middle


def geometric_stiffness(model: FrameModel, elements: Beams, axial: Floats) -> Floats:
    """(m, 12, 12) geometric stiffness of each element under axial (m,) [N, tension positive], at its nodes, global.

    Holds for axial force constant along the element; bending moments and torques add nothing here, so lateral
    buckling of a beam in bending is not covered. Released ends follow as the elastic element lets them.
    Source: W. McGuire, R. Gallagher, R. Ziemian, Matrix Structural Analysis, 2nd ed. (2000), section 9.2 (from
    memory), with the polar term for twisting.
    """
    local = _between_ends(model, elements.length) * axial[:, None, None]
    index = elements.released.index
    if len(index):
        follow = np.eye(12) - end_to_middle(elements.length[index]).transpose(0, 2, 1) @ elements.released.carry
        local[index] = follow @ local[index] @ follow.transpose(0, 2, 1)
    to_ends = _nodes_to_ends(model, elements)
    matrix: Floats = to_ends.transpose(0, 2, 1) @ local @ to_ends
    return matrix


def _between_ends(model: FrameModel, length: Floats) -> Floats:
    """(m, 12, 12) for a unit of tension, local, between the element ends: cubic shape functions."""
    k = np.zeros((len(length), 12, 12))
    one = np.ones_like(length)
    for across, turn, sign in ((1, 5, 1.0), (2, 4, -1.0)):
        dofs = np.array([across, turn, across + 6, turn + 6])
        s = sign / 10 * one
        rows = [
            [6 / 5 / length, s, -6 / 5 / length, s],
            [s, 2 / 15 * length, -s, -length / 30],
            [-6 / 5 / length, -s, 6 / 5 / length, -s],
            [s, -length / 30, -s, 2 / 15 * length],
        ]
        k[:, dofs[:, None], dofs] = np.array(rows).transpose(2, 0, 1)
    polar = (model.i_y + model.i_z) / model.area / length
    k[:, 3, 3] = k[:, 9, 9] = polar
    k[:, 3, 9] = k[:, 9, 3] = -polar
    return k


def _nodes_to_ends(model: FrameModel, elements: Beams) -> Floats:
    """(m, 12, 12) displacements of the nodes (global) to those of the element ends (local)."""
    to_ends = np.zeros((len(elements.length), 12, 12))
    arms = -elements.rotation[:, None] @ skew(model.offsets)
    for end in (0, 1):
        at = 6 * end
        to_ends[:, at : at + 3, at : at + 3] = to_ends[:, at + 3 : at + 6, at + 3 : at + 6] = elements.rotation
        to_ends[:, at : at + 3, at + 3 : at + 6] = arms[:, end]
    return to_ends
