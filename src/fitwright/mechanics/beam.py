"""The beam element: six springs at its midpoint.

Cut a uniform beam at its middle and write the relative displacement of the two halves, each taken along rigidly by
its own end. There the six stiffnesses of a beam fall apart into stretching EA/L, shearing 12 EI/L3, twisting GJ/L
and bending EI/L; the well-known 12 x 12 matrix is D^T k D, with D the geometry of the arms from the nodes to the
middle. So offsets, rotations and end releases need no further matrices, a rigid motion gives exactly no force, and
what an element would like to be (an imposed strain, a lack of fit) is a gap at the same place.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fitwright.mechanics.axes import local_axes, skew
from fitwright.mechanics.model import Floats, FrameModel
from fitwright.mechanics.releases import Released, release


@dataclass(frozen=True, eq=False)
class Beams:
    """What the elements of a model do, seen from their midpoints.

    length: (m,) [mm].
    rotation: (m, 3, 3) rows are local x, y, z.
    deform: (m, 6, 12) displacements of the two nodes (global) to the relative displacement at midpoint (local).
    stiffness: (m, 6, 6) midpoint forces N Vy Vz T My Mz from relative displacement [N/mm, N, N mm].
    released: what the end releases do to loads between the ends.
    """

    length: Floats
    rotation: Floats
    deform: Floats
    stiffness: Floats
    released: Released


def beams(model: FrameModel) -> Beams:
    """The elements of a model, ready to be assembled.

    Holds for small displacements of straight prismatic members; plane sections (Euler-Bernoulli), or with shear
    areas given, uniform shear (Timoshenko). Warping of open sections is left free.
    Source: J. S. Przemieniecki, Theory of Matrix Structural Analysis (1968), section 5.6 (from memory),
    rearranged about midspan.
    """
    length, rotation = local_axes(model)
    stiffness, released = release(model.releases, midpoint_stiffness(model, length), length)
    return Beams(length, rotation, _deform(model, rotation), stiffness, released)


def midpoint_stiffness(model: FrameModel, length: Floats) -> Floats:
    """(m, 6, 6) forces N Vy Vz T My Mz at midpoint from the relative displacement there, without end releases.

    Torsion is about the shear centre, stretching and bending about the centroid. The transverse terms are
    12/L3 (B^-1 + 12/L2 S^-1)^-1 with B and S the 2 x 2 bending and shear stiffness, which is Przemieniecki's
    12 EI/L3 / (1 + Phi) where the axes are principal.
    """
    b_yy, b_zz, b_yz = _bending(model)
    k = np.zeros((len(length), 6, 6))
    k[:, 0, 0] = model.e * model.area / length
    k[:, 1, 1], k[:, 2, 2], k[:, 1, 2] = _transverse(model, length, b_yy, b_zz, b_yz)
    k[:, 2, 1] = k[:, 1, 2]
    k[:, 3, 3] = model.g * model.j / length
    # rotation about y is -dw/dx, hence the sign of the product term
    k[:, 4, 4], k[:, 5, 5], k[:, 4, 5] = b_zz / length, b_yy / length, -b_yz / length
    k[:, 5, 4] = k[:, 4, 5]
    return _about_shear_centre(k, model.shear_centre)


def _bending(model: FrameModel) -> tuple[Floats, Floats, Floats]:
    e = model.e / model.softening
    return e * model.i_z, e * model.i_y, e * model.i_yz


def _transverse(
    model: FrameModel, length: Floats, b_yy: Floats, b_zz: Floats, b_yz: Floats
) -> tuple[Floats, Floats, Floats]:
    scale = 12 / length**3
    if np.isinf(model.shear_y).all() and np.isinf(model.shear_z).all():
        return scale * b_yy, scale * b_zz, scale * b_yz
    det = b_yy * b_zz - b_yz**2
    f_yy = b_zz / det + 12 / length**2 / (model.g * model.shear_y)
    f_zz = b_yy / det + 12 / length**2 / (model.g * model.shear_z)
    f_yz = -b_yz / det
    det = f_yy * f_zz - f_yz**2
    return scale * f_zz / det, scale * f_yy / det, -scale * f_yz / det


def _about_shear_centre(k: Floats, centre: Floats) -> Floats:
    """The same springs when the transverse ones act on the shear centre, centre (m, 2) from the centroid."""
    if not centre.any():
        return k
    move = np.tile(np.eye(6), (len(k), 1, 1))
    move[:, 1, 3], move[:, 2, 3] = -centre[:, 1], centre[:, 0]
    moved: Floats = move.transpose(0, 2, 1) @ k @ move
    return moved


def _deform(model: FrameModel, rotation: Floats) -> Floats:
    arms = model.ends.mean(axis=1)[:, None] - model.nodes[model.elements]
    turned = rotation[:, None] @ skew(arms)
    deform = np.zeros((len(rotation), 6, 12))
    deform[:, :3, 0:3], deform[:, :3, 6:9] = -rotation, rotation
    deform[:, :3, 3:6], deform[:, :3, 9:12] = turned[:, 0], -turned[:, 1]
    deform[:, 3:, 3:6], deform[:, 3:, 9:12] = -rotation, rotation
    return deform
