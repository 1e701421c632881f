"""How stiff a joint is while it is only tacked."""

from __future__ import annotations

import numpy as np

from fitwright.mechanics.axes import skew
from fitwright.mechanics.model import Floats
from fitwright.mechanics.shrinkage.runs import Bead

SIDE_SHARE = 0.4
"""Shear over stretching stiffness of a short piece of metal, near G / E = 0.385 of steel."""


def tack_places(bead: Bead) -> Floats:
    """(t, 3) middles of the tacks, evenly along the seam from its first point on [mm]."""
    seam = bead.seam
    reach = np.cumsum(seam.length)
    at = (np.arange(bead.tacks) + 0.5) / bead.tacks * reach[-1]
    return np.asarray(seam.points[np.searchsorted(reach, at)])


def tack_stiffness(bead: Bead, point: Floats, e: float, size: float) -> Floats:
    """(6, 6) stiffness of a tacked joint, measured at a point (3,) [N/mm, N, N mm].

    e: [MPa]; size: outside size of the branch [mm].
    Each tack is a short strip of wall, as wide as the tack and as long as a disturbance of the wall reaches, sqrt(r t).
    Holds for tacks that do not crack; a model, not a measurement, and only its order of size matters.
    Source: sqrt(r t) is the reach of bending in a thin cylinder, S. Timoshenko, S. Woinowsky-Krieger, Theory of Plates
    and Shells, section 114 (from memory).
    """
    seam = bead.seam
    reach = float(np.sqrt(size / 2 * seam.thickness))
    along = e * bead.tack_length * min(bead.throat, seam.thickness) / reach
    normal = np.outer(seam.pull, seam.pull)
    spring = along * (normal + SIDE_SHARE * (np.eye(3) - normal))
    arms = skew(tack_places(bead) - point)
    total = np.zeros((6, 6))
    for arm in arms:
        # a gap at the point moves the tack by translation + rotation x arm
        motion = np.hstack([np.eye(3), -arm])
        total += motion.T @ spring @ motion
    return total
