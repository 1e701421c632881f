"""What is seen at each pixel: the nearest triangle by its depth, for the camera and for each light."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from builders.old_photo.shapes import Body

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

NEAREST_MM = 60.0


@dataclass(frozen=True)
class Seen:
    """By pixel (height, width): places (…, 3) [mm], normals (…, 3), and which surface; -1 where nothing is."""

    places: Floats
    normals: Floats
    surface: Ints
    names: tuple[str, ...]


@dataclass(frozen=True)
class Eye:
    """A camera without bow: rotation (3, 3) with rows right, down, forward; eye (3,) [mm]; focal and centre [px]."""

    rotation: Floats
    eye: Floats
    focal: float
    centre: tuple[float, float]
    size: tuple[int, int]


def seen(bodies: Sequence[Body], eye: Eye) -> Seen:
    """The picture before light falls on it."""
    corners = np.concatenate([one.corners for one in bodies])
    normals = np.concatenate([one.normals for one in bodies])
    names = tuple(dict.fromkeys(one.surface for one in bodies))
    which = np.concatenate([np.full(len(one.corners), names.index(one.surface)) for one in bodies])
    local = (corners - eye.eye) @ eye.rotation.T
    width, height = eye.size
    depth = np.full((height, width), np.inf)
    found = np.full((height, width), -1, dtype=np.int64)
    for number in np.flatnonzero(local[:, :, 2].max(axis=1) > NEAREST_MM):
        for triangle in _before(local[number]):
            _fill(triangle, eye, depth, found, int(number))
    return _gathered(eye, depth, found, local, normals, which, names)


def _before(triangle: Floats) -> list[Floats]:
    """A triangle cut off at the nearest depth."""
    ahead = triangle[:, 2] > NEAREST_MM
    if ahead.all():
        return [triangle]
    cut: list[Floats] = []
    for k in range(3):
        one, other = triangle[k], triangle[(k + 1) % 3]
        if ahead[k]:
            cut.append(one)
        if ahead[k] != ahead[(k + 1) % 3]:
            part = (NEAREST_MM - one[2]) / (other[2] - one[2])
            cut.append(one + part * (other - one))
    return [np.array([cut[0], cut[k], cut[k + 1]]) for k in range(1, len(cut) - 1)]


def _fill(triangle: Floats, eye: Eye, depth: Floats, found: Ints, number: int) -> None:
    flat = triangle[:, :2] / triangle[:, 2:] * eye.focal + eye.centre
    window = _window(flat, eye.size)
    if window is None:
        return
    rows, columns, inside = window
    plane = np.cross(triangle[1] - triangle[0], triangle[2] - triangle[0])
    u = (np.arange(columns.start, columns.stop) - eye.centre[0]) / eye.focal
    v = (np.arange(rows.start, rows.stop) - eye.centre[1]) / eye.focal
    slope = plane[0] * u[None, :] + plane[1] * v[:, None] + plane[2]
    with np.errstate(divide="ignore", invalid="ignore"):
        away = float(plane @ triangle[0]) / slope
    nearer = inside & (away > NEAREST_MM) & (away < depth[rows, columns])
    depth[rows, columns][nearer] = away[nearer]
    found[rows, columns][nearer] = number


def _window(flat: Floats, size: tuple[int, int]) -> tuple[slice, slice, NDArray[np.bool_]] | None:
    """The pixels about a triangle (3, 2), and which of them lie in it."""
    low, high = np.floor(flat.min(axis=0)).astype(int), np.ceil(flat.max(axis=0)).astype(int) + 1
    low, high = np.maximum(low, 0), np.minimum(high, size)
    if (low >= high).any():
        return None
    (a, b), (c, d), (e, f) = flat
    u, v = np.arange(low[0], high[0])[None, :], np.arange(low[1], high[1])[:, None]
    sides = [(c - a) * (v - b) - (d - b) * (u - a), (e - c) * (v - d) - (f - d) * (u - c)]
    sides.append((a - e) * (v - f) - (b - f) * (u - e))
    within = ((sides[0] >= 0) & (sides[1] >= 0) & (sides[2] >= 0)) | (
        (sides[0] <= 0) & (sides[1] <= 0) & (sides[2] <= 0)
    )
    return slice(int(low[1]), int(high[1])), slice(int(low[0]), int(high[0])), within


def _gathered(
    eye: Eye, depth: Floats, found: Ints, local: Floats, normals: Floats, which: Ints, names: tuple[str, ...]
) -> Seen:
    height, width = depth.shape
    v, u = np.mgrid[0:height, 0:width]
    rays = np.dstack([(u - eye.centre[0]) / eye.focal, (v - eye.centre[1]) / eye.focal, np.ones((height, width))])
    there = found >= 0
    at = rays[there] * depth[there][:, None]
    triangles, number = local[found[there]], found[there]
    parts = _parts(at, triangles)
    smooth = np.einsum("nk,nkc->nc", parts, normals[number])
    smooth /= np.maximum(np.linalg.norm(smooth, axis=1, keepdims=True), 1e-9)
    places, facing = np.zeros((height, width, 3)), np.zeros((height, width, 3))
    places[there] = at @ eye.rotation + eye.eye
    toward = eye.eye - places[there]
    facing[there] = np.where(np.einsum("nc,nc->n", smooth, toward)[:, None] < 0, -smooth, smooth)
    surface = np.full((height, width), -1, dtype=np.int64)
    surface[there] = which[number]
    return Seen(places, facing, surface, names)


def _parts(at: Floats, triangles: Floats) -> Floats:
    """How near each place is to each corner of its triangle (n, 3), summing to 1."""
    one, other = triangles[:, 1] - triangles[:, 0], triangles[:, 2] - triangles[:, 0]
    normal = np.cross(one, other)
    size = np.maximum(np.einsum("nc,nc->n", normal, normal), 1e-12)
    gap = at - triangles[:, 0]
    second = np.einsum("nc,nc->n", np.cross(gap, other), normal) / size
    third = np.einsum("nc,nc->n", np.cross(one, gap), normal) / size
    found: Floats = np.clip(np.column_stack([1 - second - third, second, third]), 0, 1)
    return found


def lit(bodies: Sequence[Body], toward: Floats, places: Floats, normals: Floats, size: int = 1400) -> Floats:
    """How much light that comes from a direction reaches each place (n,), 0 to 1, by a map of what is nearest to it."""
    right = np.cross(toward, [0.0, 0.0, 1.0])
    right /= np.linalg.norm(right)
    frame = np.array([right, np.cross(right, toward), toward])
    corners = np.concatenate([one.corners for one in bodies]) @ frame.T
    low, high = corners[:, :, :2].min(axis=(0, 1)), corners[:, :, :2].max(axis=(0, 1))
    middle = np.median(places, axis=0) @ frame[:2].T
    low, high = np.maximum(low, middle - 2600), np.minimum(high, middle + 2600)
    scale = (size - 1) / float((high - low).max())
    nearest = np.full((size, size), -np.inf)
    for triangle in corners:
        _raise(nearest, (triangle[:, :2] - low) * scale, triangle)
    at = (places + 6.0 * normals) @ frame.T
    cell = np.clip(((at[:, :2] - low) * scale).round().astype(int), 0, size - 1)
    return np.asarray((nearest[cell[:, 1], cell[:, 0]] < at[:, 2] + 8.0).astype(float))


def _raise(nearest: Floats, flat: Floats, triangle: Floats) -> None:
    window = _window(flat, (nearest.shape[1], nearest.shape[0]))
    if window is None:
        return
    rows, columns, inside = window
    one, other = flat[1] - flat[0], flat[2] - flat[0]
    area = one[0] * other[1] - one[1] * other[0]
    if abs(area) < 1e-9:
        return
    u = np.arange(columns.start, columns.stop)[None, :] - flat[0, 0]
    v = np.arange(rows.start, rows.stop)[:, None] - flat[0, 1]
    second, third = (u * other[1] - v * other[0]) / area, (v * one[0] - u * one[1]) / area
    height = triangle[0, 2] + second * (triangle[1, 2] - triangle[0, 2]) + third * (triangle[2, 2] - triangle[0, 2])
    there = nearest[rows, columns]
    np.copyto(there, height, where=inside & (height > there))
