"""Where the fit begins: bow of the lens from straight edges, focal length by trying, rotation, points, scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from fitwright.job.marks import AXES, Known
from fitwright.place.photo.facing import Facing, common_direction, facing, plane_normals
from fitwright.place.photo.lens import Lens
from fitwright.place.photo.placing import placed
from fitwright.place.photo.quantities import valued
from fitwright.place.photo.scene import Scene, spots_of
from fitwright.place.photo.unknowns import Start, Unknowns
from fitwright.place.photo.usual import Expected

Floats = NDArray[np.float64]
Pictured = tuple[Floats, Floats]

FOCAL_TRIES = np.linspace(-2.5, 2.5, 11)
BARREL_TRIES = np.linspace(-0.6, 0.3, 31)
FAR = 2500.0
"""How far away a piece is taken to be [mm] until a length says it: across a room."""


def beginnings(scene: Scene, expected: Expected, size: tuple[int, int]) -> list[Lens]:
    """Lenses to begin with, the most likely first: one for each hollow of the likelihood over focal lengths."""
    lens = Lens(*size, float(np.exp(expected.log_focal)), expected.centre, expected.barrel)
    lens = replace(lens, barrel=_bow(scene, lens, expected))
    lenses = [replace(lens, focal=lens.focal * float(np.exp(k * expected.log_focal_sigma))) for k in FOCAL_TRIES]
    misses = [facing(plane_normals(scene, one)).miss + k**2 for one, k in zip(lenses, FOCAL_TRIES, strict=True)]
    order = sorted(range(len(lenses)), key=misses.__getitem__)
    around = [np.inf, *misses, np.inf]
    return [lenses[k] for k in order if around[k] >= misses[k] <= around[k + 2]]


def begun(scene: Scene, lens: Lens, known: Sequence[tuple[str, Known]]) -> Start:
    """Rotation and points for a lens, each group at the scale that its known lengths give it."""
    normals = plane_normals(scene, lens)
    looking: Facing = facing(normals)
    rays = lens.rays(scene.pixels) if len(scene.pixels) else np.zeros((0, 3))
    rays = rays / np.linalg.norm(rays, axis=1, keepdims=True) @ looking.rotation
    slants = {one.name: common_direction(normals[one.name]) @ looking.rotation for one in scene.slanted}
    start = Start(
        lens=lens,
        rotation=looking.rotation,
        coordinates=FAR * placed(scene, rays, slants),
        slants=np.array(list(slants.values())).reshape(-1, 3),
        straights=tuple(_straight(lens, straight.pixels) for straight in scene.straights),
    )
    return _to_scale(scene, start, known)


def _to_scale(scene: Scene, start: Start, known: Sequence[tuple[str, Known]]) -> Start:
    """Each group of points moved away or nearer until its known lengths come out right in the middle."""
    unknowns = Unknowns(scene, start.lens, start.rotation)
    state = unknowns.state(unknowns.row(start))
    ratios: dict[int, list[float]] = {}
    for name, one in known:
        group = scene.groups_of(spots_of(one.quantity)).pop()
        ratios.setdefault(group, []).append(one.value / max(valued(name, one.quantity, state)[0], 1e-6))
    grown = np.array([float(np.median(ratios.get(int(group), [1.0]))) for group in scene.group])
    return replace(start, coordinates=start.coordinates * grown)


def _straight(lens: Lens, pixels: Floats) -> Floats:
    """Angle, distance and places along it of the straight line nearest to clicks, on the plane at distance 1."""
    flat = lens.rays(pixels)[:, :2]
    middle = flat.mean(axis=0)
    toward = np.linalg.svd(flat - middle)[2][0]
    angle = np.arctan2(-toward[0], toward[1])
    return np.array([angle, float(middle @ [np.cos(angle), np.sin(angle)]), *(flat @ toward)])


def _bow(scene: Scene, lens: Lens, expected: Expected) -> float:
    """The bow that makes edges marked at three or more spots straightest, with what is expected of it."""
    edges = [
        (scene.pixels[line], scene.sigmas[line]) for lines in scene.lines.values() for line in lines if len(line) > 2
    ]
    edges += [(one.pixels, one.sigmas) for one in scene.straights]
    if not edges:
        return lens.barrel
    pulls = ((BARREL_TRIES - expected.barrel) / expected.barrel_sigma) ** 2
    misses = [_crookedness(replace(lens, barrel=float(barrel)), edges) for barrel in BARREL_TRIES]
    return float(BARREL_TRIES[int(np.argmin(np.array(misses) + pulls))])


def _crookedness(lens: Lens, edges: Sequence[Pictured]) -> float:
    """Chi squared of the clicks about straight lines."""
    total = 0.0
    for pixels, sigmas in edges:
        straight = lens.straightened(pixels)
        u, v = (straight - straight.mean(axis=0)).T
        spread, both = float(u @ u - v @ v), float(u @ v)
        least = (float(u @ u + v @ v) - float(np.hypot(spread, 2 * both))) / 2
        total += max(least, 0.0) / float(sigmas.mean()) ** 2
    return total


def axes_marked(scene: Scene) -> int:
    """Along how many of x, y and z edges are marked."""
    return sum(axis in scene.lines for axis in AXES)
