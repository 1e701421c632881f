"""Whether locators hold a part in one place, and how well: the Jacobian of the locating scheme."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

# what a rigid part can still do when its smallest singular value is below this counts as not located
LOOSE = 1e-6


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
    values = np.empty((len(second), len(one)))
    push = np.array([normals[0], normals[0], normals[1]])
    for k, place in enumerate(second):
        points = np.stack([first[one], first[two], np.broadcast_to(place, (len(one), 2))], axis=1)
        jacobians = locating_jacobian(points, np.broadcast_to(push, points.shape), centre, size)
        values[k] = np.linalg.svd(jacobians, compute_uv=False)[:, -1]
        near = np.minimum(*(np.linalg.norm(stand[j] - stand_second[k], axis=1) for j in (one, two))) < apart[1]
        values[k][near] = -1.0
    place, pair = divmod(int(np.argmax(values)), values.shape[1])
    best = float(values[place, pair])
    return None if best < 0 else (int(one[pair]), int(two[pair]), place, best)
