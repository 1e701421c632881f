"""Where marked points are in space, about: from their rays and the coordinates they share, for a given camera."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fitwright.place.photo.scene import Round, Row, Scene
from fitwright.place.photo.turning import crossing

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

ROUNDS = 4
NEAR = 0.05


def placed(scene: Scene, rays: Floats, slants: dict[str, Floats]) -> Floats:
    """Coordinates (unknowns,) of the points, each group at a middle distance of 1 from the camera.

    rays (n, 3): unit directions of the points in directions of the piece; slants: unit directions that are no axes.
    Holds for groups that hang together; where a group could stretch, some way of many.
    """
    coordinates = np.zeros(scene.unknowns)
    point_group = scene.group[scene.index[:, 0]]
    for group in np.unique(point_group):
        points = np.flatnonzero(point_group == group)
        used, local = np.unique(scene.index[points], return_inverse=True)
        local = local.reshape(-1, 3)
        ties = _ties(scene, points, local, len(used), slants)
        coordinates[used] = _one_group(local, rays[points], ties, len(used))
    for arc in scene.rounds.values():
        _set_circle(coordinates, scene, arc)
    for row in scene.rows.values():
        _set_row(coordinates, row)
    return coordinates


def _ties(scene: Scene, points: Ints, local: Ints, size: int, slants: dict[str, Floats]) -> Floats:
    """Equations (k, size) of pairs that lie along directions that are no axes."""
    number = {int(point): k for k, point in enumerate(points)}
    rows = [np.zeros((0, size))]
    for slanted in scene.slanted:
        across = crossing(slants[slanted.name])
        for one, other in slanted.pairs:
            if int(one) in number:
                tie = np.zeros((3, size))
                tie[:, local[number[int(other)]]] += across
                tie[:, local[number[int(one)]]] -= across
                rows.append(tie)
    return np.vstack(rows)


def _one_group(local: Ints, rays: Floats, ties: Floats, size: int) -> Floats:
    """The coordinates that miss the rays least for their distance, by weighing again with the distances found."""
    cross, points = crossing(rays), np.arange(len(rays))
    table = np.zeros((len(rays), 3, size))
    for axis in range(3):
        table[points, :, local[:, axis]] = cross[:, :, axis]
    away = np.ones(len(rays))
    found = np.zeros(size)
    for _ in range(ROUNDS):
        whole = np.vstack([(table / away[:, None, None]).reshape(-1, size), 10 * ties])
        found = np.linalg.svd(whole)[2][-1]
        along = np.einsum("ij,ij->i", found[local], rays)
        found = found * np.sign(np.median(along) or 1.0) / max(float(np.median(np.abs(along))), 1e-12)
        away = np.maximum(np.einsum("ij,ij->i", found[local], rays), NEAR)
    return found


def _set_circle(coordinates: Floats, scene: Scene, arc: Round) -> None:
    """Centre and radius of the circle through points in their plane, by the linear fit of Kasa (1976)."""
    flat = coordinates[scene.index[arc.points]][:, arc.others]
    middle = flat.mean(axis=0)
    local = flat - middle
    table = np.column_stack([2 * local, np.ones(len(local))])
    (x, y, rest), *_ = np.linalg.lstsq(table, (local**2).sum(axis=1))
    coordinates[list(arc.centre)] = middle + np.array([x, y])
    coordinates[arc.radius] = np.sqrt(max(rest + x * x + y * y, 1e-12))


def _set_row(coordinates: Floats, row: Row) -> None:
    step, first = np.polyfit(np.arange(len(row.coordinates)), coordinates[row.coordinates], 1)
    coordinates[row.first], coordinates[row.step] = first, step
