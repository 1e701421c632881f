"""Which way the camera looks: the rotation that fits edges known to run along directions, for a given lens."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.job.marks import AXES
from fitwright.place.photo.lens import Lens
from fitwright.place.photo.scene import Scene
from fitwright.place.photo.turning import crossing, turn

Floats = NDArray[np.float64]

ROUNDS = 6
LEAST_LENGTH = 1e-9
LEVEL = np.array([[1.0, 0.0, 0.0], [0.0, 0.0, -1.0], [0.0, 1.0, 0.0]])
"""A level camera before the piece: x to the right, y away, z up; rows right, down, forward."""
SIGNS = [np.diag(signs) for signs in ((1.0, 1.0, 1.0), (1.0, -1.0, -1.0), (-1.0, 1.0, -1.0), (-1.0, -1.0, 1.0))]


@dataclass(frozen=True)
class Facing:
    """A rotation (3, 3) from the piece to the camera, and how badly edges miss their directions (chi squared)."""

    rotation: Floats
    miss: float


def plane_normals(scene: Scene, lens: Lens) -> dict[str, Floats]:
    """By direction, normals (k, 3) of the planes through the camera and each edge, over their angular spread.

    An edge of length L clicked to a spread s has its plane's tilt known to about s sqrt(2) / L at its ends.
    """
    found = {}
    for direction, lines in scene.lines.items():
        found[direction] = np.array([_normal(lens, scene.pixels[line], scene.sigmas[line]) for line in lines])
    return found


def _normal(lens: Lens, pixels: Floats, sigmas: Floats) -> Floats:
    straight = lens.straightened(pixels)
    middle = straight.mean(axis=0)
    _, sizes, toward = np.linalg.svd(straight - middle, full_matrices=False)
    line = np.array([-toward[0, 1], toward[0, 0]])
    centre = np.array(lens.centre)
    normal = np.array([*line, float(line @ (centre - middle)) / lens.focal])
    spread = float(sigmas.mean()) / max(float(sizes[0]), LEAST_LENGTH)
    return np.asarray(normal / np.linalg.norm(normal) / spread)


def facing(normals: Mapping[str, Floats]) -> Facing:
    """The rotation that fits best; level and from the front as far as the edges leave it open."""
    axes = {AXES.index(name): rows for name, rows in normals.items() if name in AXES}
    if not axes:
        return Facing(LEVEL, 0.0)
    return min((_refined(rotation, axes) for rotation in _guesses(axes)), key=lambda one: one.miss)


def nearest_level(rotation: Floats) -> Floats:
    """The same with axes pointing right, away and up as far as they can: edges do not say which way is plus."""
    wanted = [rotation @ sign for sign in SIGNS]
    return max(wanted, key=lambda one: float((one * LEVEL).sum()))


def common_direction(rows: Floats) -> Floats:
    """The direction (3,) that lies in all planes of normals (k, 3) best: their vanishing point."""
    direction: Floats = np.linalg.svd(rows)[2][-1]
    return direction


def _guesses(axes: Mapping[int, Floats]) -> list[Floats]:
    """One rotation from each axis taken first, the next kept square to it."""
    return [_guess(axes, [first, *(axis for axis in axes if axis != first)]) for first in axes]


def _guess(axes: Mapping[int, Floats], order: list[int]) -> Floats:
    columns: dict[int, Floats] = {}
    for axis in order:
        if len(columns) < 2 and (len(columns) or len(axes[axis]) > 1):
            columns[axis] = _square_to(columns, axes[axis])
    if not columns:
        columns[order[0]] = _toward(axes[order[0]][0], LEVEL[:, order[0]])
    for axis in (2, 1, 0):
        if len(columns) < 2 and axis not in columns:
            columns[axis] = _toward(next(iter(columns.values())), LEVEL[:, axis])
    missing = next(axis for axis in range(3) if axis not in columns) if len(columns) < 3 else None
    if missing is not None:
        columns[missing] = np.cross(columns[(missing + 1) % 3], columns[(missing + 2) % 3])
    return nearest_level(np.column_stack([columns[axis] for axis in range(3)]))


def _square_to(columns: Mapping[int, Floats], rows: Floats) -> Floats:
    """The direction in the planes of some normals that is square to the columns there are."""
    if not columns:
        return common_direction(rows)
    first = next(iter(columns.values()))
    basis = np.linalg.svd(first[None])[2][1:]
    return np.asarray(common_direction(rows @ basis.T) @ basis)


def _toward(square_to: Floats, wanted: Floats) -> Floats:
    """The unit direction square to one that is nearest to another."""
    unit = square_to / np.linalg.norm(square_to)
    rest = wanted - (wanted @ unit) * unit
    if np.linalg.norm(rest) < 1e-6:
        rest = np.linalg.svd(unit[None])[2][1]
    direction: Floats = rest / np.linalg.norm(rest)
    return direction


def _refined(rotation: Floats, axes: Mapping[int, Floats]) -> Facing:
    """Gauss-Newton on the turn; the smallest turn where the edges leave it open."""
    for _ in range(ROUNDS):
        misses = np.concatenate([rows @ rotation[:, axis] for axis, rows in axes.items()])
        rates = np.vstack([-rows @ crossing(rotation[:, axis]) for axis, rows in axes.items()])
        step = np.linalg.lstsq(rates, -misses, rcond=1e-8)[0]
        rotation = turn(step) @ rotation
    misses = np.concatenate([rows @ rotation[:, axis] for axis, rows in axes.items()])
    return Facing(nearest_level(rotation), float(misses @ misses))
