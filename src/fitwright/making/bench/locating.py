"""Whether locators hold a part in one place, and how well: the Jacobian of the locating scheme."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

# what a rigid part can still do when its smallest singular value is below this counts as not located
LOOSE = 1e-6
TINY = 1e-12
QUICK_OFF = 1e-6


def locating_jacobian(points: Floats, normals: Floats, centre: Floats, size: float) -> Floats:
    """How far a part moves against each locator for each of its motions (k, 6) in space or (k, 3) in the plane.

    points, normals: (k, 3) or (k, 2), where locators touch and which way they push; centre: about which it turns;
    size: the length by which turning is scaled, so that all columns are in one unit [mm].

    Holds for rigid parts and point contacts without friction, for small motions.
    Source: H. Asada, A. B. By, "Kinematic analysis of workpart fixturing for flexible assembly with automatically
    reconfigurable fixtures", IEEE Journal of Robotics and Automation RA-1(2), 1985, 86-94: rows (n, p x n).

    >>> points = np.array([[0.0, 1.0], [0.0, -1.0], [0.0, 0.0]])
    >>> normals = np.array([[1.0, 0.0], [1.0, 0.0], [0.0, 1.0]])
    >>> locating_jacobian(points, normals, np.zeros(2), 1.0).tolist()
    [[1.0, 0.0, -1.0], [1.0, 0.0, 1.0], [0.0, 1.0, 0.0]]
    """
    arms = (points - centre) / size
    if points.shape[-1] == 3:
        return np.concatenate([normals, np.cross(arms, normals)], axis=-1)
    turning = arms[..., 0] * normals[..., 1] - arms[..., 1] * normals[..., 0]
    return np.concatenate([normals, turning[..., None]], axis=-1)


def conditioning(jacobian: Floats) -> float:
    """Smallest singular value of a locating Jacobian (k, n); 0 where some motion is free or locators are too few.

    Errors of the locators reach the part's position multiplied by at most its reciprocal.
    Holds for a Jacobian whose columns share one unit.
    Source: rank condition of Asada and By 1985; its margin by the singular value, as Wang and Pelinescu, "Optimizing
    fixture layout in a point-set domain", IEEE Transactions on Robotics and Automation 17(3), 2001 (from memory).
    """
    if jacobian.shape[-2] < jacobian.shape[-1]:
        return 0.0
    return float(np.linalg.svd(jacobian, compute_uv=False)[..., -1])


def is_located(jacobian: Floats) -> bool:
    """Whether the locators leave no small motion free.

    Holds for rigid parts; friction may hold more. Source: Asada and By 1985, full rank.
    """
    return conditioning(jacobian) > LOOSE


def best_triple(
    first: Floats,
    second: Floats,
    normals: tuple[Floats, Floats],
    centre: Floats,
    size: float,
    apart: Floats,
    holes: tuple[Floats, Floats] | None = None,
) -> tuple[int, int, int, float] | None:
    """Of places for two locators on one face (m, 2) and one on another (n, 2), those of the largest smallest singular
    value: their numbers and that value; None where no three can stand together.

    normals: (2,), (2,), which way each face is pushed. apart: least distances between two on the first face, and
    between one there and the other (2,) [mm], told by where they touch or, where given, by their holes (m, 2), (n, 2).
    Holds for what `locating_jacobian` holds for; every combination is tried. Source: as `conditioning`.
    """
    one, two = np.triu_indices(len(first), 1)
    stand, stand_second = holes or (first, second)
    far = np.linalg.norm(stand[one] - stand[two], axis=1) >= apart[0]
    one, two = one[far], two[far]
    if not len(one) or not len(second):
        return None
    push = np.array([normals[0], normals[0], normals[1]])
    points = np.empty((len(second), len(one), 3, 2))
    points[:, :, 0], points[:, :, 1], points[:, :, 2] = first[one], first[two], second[:, None]
    jacobians = locating_jacobian(points, np.broadcast_to(push, points.shape), centre, size)
    away = np.linalg.norm(stand[:, None] - stand_second[None], axis=2)
    near = (np.minimum(away[one], away[two]) < apart[1]).T
    if near.all():
        return None
    quick = np.where(near, -1.0, smallest_of_three(jacobians))
    # the quick values tell which are worth the exact ones, of which the first of the best is taken
    worth = np.argwhere(quick >= quick.max() - QUICK_OFF)
    exact = np.linalg.svd(jacobians[worth[:, 0], worth[:, 1]], compute_uv=False)[:, -1]
    place, pair = worth[int(np.argmax(exact))]
    return int(one[pair]), int(two[pair]), int(place), float(exact.max())


def smallest_of_three(matrices: Floats) -> Floats:
    """Smallest singular value of matrices (..., 3, 3), by their size to within `QUICK_OFF` for entries of about one.

    Source: eigenvalues of the symmetric 3 x 3 product in closed form, O. K. Smith, Communications of the ACM 4 (1961)
    168.

    >>> round(float(smallest_of_three(np.diag([3.0, 0.5, 2.0]))), 9)
    0.5
    """
    product = np.swapaxes(matrices, -1, -2) @ matrices
    mean = np.trace(product, axis1=-2, axis2=-1) / 3
    off = product - mean[..., None, None] * np.eye(3)
    spread = np.sqrt((off**2).sum(axis=(-2, -1)) / 6)
    cosine = _determinant(off / np.maximum(spread, TINY)[..., None, None]) / 2
    turn = np.arccos(np.clip(cosine, -1.0, 1.0)) / 3
    return np.asarray(np.sqrt(np.maximum(mean + 2 * spread * np.cos(turn + 2 * np.pi / 3), 0.0)))


def _determinant(m: Floats) -> Floats:
    """Determinants of matrices (..., 3, 3)."""
    return np.asarray((m[..., 0, :] * np.cross(m[..., 1, :], m[..., 2, :])).sum(axis=-1))
