"""End releases: what happens to an element when an end does not pass a force to its node.

A release is static condensation of one of the twelve end displacements. Because an element keeps equilibrium
whatever is released, condensing it in the six midpoint springs gives the same 12 x 12 matrix at a fraction of the
work: k <- k - (k d)(k d)^T / (d^T k d), with d the column of the end displacement that is let go.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fitwright.mechanics.model import Bools, Floats, Ints

LOOSE = 1e-10
"""Share of its first stiffness below which an end displacement has none left."""


@dataclass(frozen=True, eq=False)
class Released:
    """The elements with releases.

    index: (r,) which elements.
    carry: (r, 6, 12) midpoint forces set free by unit fixed-end forces.
    free: (r, 12) releases that add nothing, for the displacement had no stiffness left: a fixed-end force there
        has no way out.
    """

    index: Ints
    carry: Floats
    free: Bools


def end_to_middle(length: Floats) -> Floats:
    """(m, 6, 12) displacements of the two element ends (local) to the relative displacement at midpoint."""
    deform = np.zeros((len(length), 6, 12))
    rows = np.arange(6)
    deform[:, rows, rows], deform[:, rows, rows + 6] = -1.0, 1.0
    half = length / 2
    deform[:, 1, 5] = deform[:, 1, 11] = -half
    deform[:, 2, 4] = deform[:, 2, 10] = half
    return deform


def release(releases: Bools, stiffness: Floats, length: Floats) -> tuple[Floats, Released]:
    """Midpoint stiffness (m, 6, 6) after the releases (m, 12), and what they do to loads between the ends.

    Holds for any set of releases; one that would let a part of an element fly adds nothing and is marked `free`.
    Source: W. McGuire, R. Gallagher, R. Ziemian, Matrix Structural Analysis, 2nd ed. (2000), section 13.1
    (condensation, from memory), written for the midpoint springs.
    """
    index = np.flatnonzero(releases.any(axis=1))
    carry = np.zeros((len(index), 6, 12))
    free = np.zeros((len(index), 12), dtype=np.bool_)
    if not len(index):
        return stiffness, Released(index, carry, free)
    k = stiffness[index]
    deform = end_to_middle(length[index])
    first = np.einsum("mir,mij,mjr->mr", deform, k, deform)
    for dof in np.flatnonzero(releases.any(axis=0)):
        let_go = np.flatnonzero(releases[index, dof])
        free[let_go, dof] = ~_condense(k, carry, deform[:, :, dof], first[:, dof], let_go, int(dof))
    changed = stiffness.copy()
    changed[index] = k
    return changed, Released(index, carry, free)


def _condense(k: Floats, carry: Floats, column: Floats, first: Floats, rows: Ints, dof: int) -> Bools:
    """Let one end displacement go in `rows`, in place; true where it had stiffness to lose."""
    force = np.einsum("mij,mj->mi", k[rows], column[rows])
    pivot = np.einsum("mi,mi->m", column[rows], force)
    held: Bools = pivot > LOOSE * first[rows]
    at, force, share = rows[held], force[held], force[held] / pivot[held, None]
    k[at] -= share[:, :, None] * force[:, None, :]
    passed = -np.einsum("mi,mij->mj", column[at], carry[at])
    passed[:, dof] += 1
    carry[at] += share[:, :, None] * passed[:, None, :]
    return held
