"""Meshes for the tests of drawings: boxes, straight and bent tubes, rings, and a small rack made of them."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, sin

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True)
class Shape:
    """A closed mesh: vertices (n, 3) [mm], faces (m, 3) outward, edges (k, 2) sharp ones."""

    mark: str
    vertices: Floats
    faces: Ints
    edges: Ints

    def moved(self, by: tuple[float, float, float], mark: str = "") -> Shape:
        return Shape(mark or self.mark, self.vertices + np.array(by), self.faces, self.edges)

    def turned(self, matrix: Floats) -> Shape:
        return Shape(self.mark, self.vertices @ matrix.T, self.faces, self.edges)


def box(mark: str, low: tuple[float, float, float], high: tuple[float, float, float]) -> Shape:
    corners = np.array([[x, y, z] for x in (low[0], high[0]) for y in (low[1], high[1]) for z in (low[2], high[2])])
    quads = [(0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3)]
    faces = np.array([t for a, b, c, d in quads for t in ((a, b, c), (a, c, d))])
    edges = {tuple(sorted(pair)) for q in quads for pair in zip(q, (*q[1:], q[0]), strict=True)}
    return Shape(mark, corners.astype(float), faces, np.array(sorted(edges)))


def rounded(points: list[tuple[float, float, float]], radius: float, step_deg: float = 7.5) -> Floats:
    """A path (n, 3) through the points with each corner rounded, in steps of an angle."""
    p = np.array(points, dtype=float)
    line = [p[0]]
    for before, corner, after in zip(p, p[1:], p[2:], strict=False):
        a, b = before - corner, after - corner
        a, b = a / np.linalg.norm(a), b / np.linalg.norm(b)
        turn = pi - np.arccos(np.clip(a @ b, -1, 1))
        back = radius * np.tan(turn / 2)
        spoke = -(b - (a @ b) * a) / np.linalg.norm(b - (a @ b) * a)
        centre = corner + back * a - radius * spoke
        for t in np.linspace(0, turn, max(2, int(np.ceil(np.degrees(turn) / step_deg)) + 1)):
            line.append(centre + radius * (cos(t) * spoke - sin(t) * a))
    return np.array([*line, p[-1]])


def swept(mark: str, path: Floats, outline: Floats, bore: Floats | None = None, closed: bool = False) -> Shape:
    """A section (k, 2) counterclockwise swept along a path (n, 3) that lies in one plane or is straight."""
    tangents = _tangents(path, closed)
    normal = _plane_normal(path)
    loops = [outline] if bore is None else [outline, bore[::-1]]
    vertices: list[Floats] = []
    faces: list[Ints] = []
    edges: list[Ints] = []
    for loop in loops:
        start = sum(map(len, vertices))
        rings = [
            p + np.outer(loop[:, 0], np.cross(normal, t)) + np.outer(loop[:, 1], normal)
            for p, t in zip(path, tangents, strict=True)
        ]
        vertices.append(np.concatenate(rings))
        faces.append(start + _sides(len(path), len(loop), closed))
        edges.append(start + _sharp(len(path), loop, closed))
    if not closed:
        faces.append(_caps(len(path), [len(loop) for loop in loops]))
    return Shape(mark, np.concatenate(vertices), np.concatenate(faces), np.concatenate(edges))


def circle(radius: float, sides: int = 36) -> Floats:
    t = np.arange(sides) * 2 * pi / sides
    return radius * np.stack([np.cos(t), np.sin(t)], axis=1)


def tube(
    mark: str, path: Floats, od: float = 28.575, wall: float = 2.1, sides: int = 36, closed: bool = False
) -> Shape:
    return swept(mark, path, circle(od / 2, sides), circle(od / 2 - wall, sides), closed)


def ring(mark: str, radius: float, od: float, steps: int = 72, sides: int = 36) -> Shape:
    """A full ring about the z axis."""
    t = np.arange(steps) * 2 * pi / steps
    path = radius * np.stack([np.cos(t), np.sin(t), 0 * t], axis=1)
    return tube(mark, path, od, od / 10, sides, closed=True)


def angle(
    mark: str, start: tuple[float, float, float], end: tuple[float, float, float], leg: float = 32, thick: float = 3.2
) -> Shape:
    outline = np.array([[0, 0], [leg, 0], [leg, thick], [thick, thick], [thick, leg], [0, leg]], dtype=float)
    return swept(mark, np.array([start, end], dtype=float), outline)


def rack(width: float = 800, depth: float = 483, height: float = 1880, shelves: int = 4, slats: int = 7) -> list[Shape]:
    """Two hoops of tube, ledges of angle, slatted shelves, a hanging rail and four feet: some 50 bodies."""
    r = 28.575 / 2
    hoop = rounded([(r, 0, 150), (r, 0, height - r), (width - r, 0, height - r), (width - r, 0, 150)], 102)
    bodies = [tube("A1", hoop + np.array([0, y, 0])) for y in (r, depth - r)]
    for level in np.linspace(260, height - 420, shelves):
        bodies.append(angle("B1", (r, 2 * r, level), (r, depth - 2 * r, level)))
        bodies.append(angle("B2", (width - r, depth - 2 * r, level), (width - r, 2 * r, level)))
        bodies += _slats(width, depth, level, slats, r)
    bodies.append(tube("C1", np.array([[r, depth / 2, height - 150], [width - r, depth / 2, height - 150]]), od=25.4))
    bodies += [box("F1", (x - 20, y - 20, 0), (x + 20, y + 20, 150)) for x in (r, width - r) for y in (r, depth - r)]
    return bodies


def _slats(width: float, depth: float, level: float, count: int, r: float) -> list[Shape]:
    pitch = (depth - 4 * r) / count
    lows = [2 * r + i * pitch + 3 for i in range(count)]
    planks = [box("T1", (2 * r, y, level + 3), (width - 2 * r, y + pitch - 6, level + 22)) for y in lows]
    return [*planks, box("T2", (width / 2 - 20, 3 * r, level - 16), (width / 2 + 20, depth - 3 * r, level + 3))]


def _tangents(path: Floats, closed: bool) -> Floats:
    ahead, behind = np.roll(path, -1, axis=0) - path, path - np.roll(path, 1, axis=0)
    if not closed:
        behind[0], ahead[-1] = ahead[0], behind[-1]
    mean = ahead / np.linalg.norm(ahead, axis=1)[:, None] + behind / np.linalg.norm(behind, axis=1)[:, None]
    unit: Floats = mean / np.linalg.norm(mean, axis=1)[:, None]
    return unit


def _plane_normal(path: Floats) -> Floats:
    runs = np.diff(path, axis=0)
    crosses = np.cross(runs[:-1], runs[1:]) if len(runs) > 1 else np.zeros((1, 3))
    best = crosses[np.argmax(np.linalg.norm(crosses, axis=1))]
    if np.linalg.norm(best) < 1e-9 * np.linalg.norm(runs[0]) ** 2:
        aside = np.eye(3)[np.argmin(np.abs(runs[0]))]
        best = np.cross(runs[0], aside)
    unit: Floats = best / np.linalg.norm(best)
    return unit


def _sides(rings: int, around: int, closed: bool) -> Ints:
    i, j = np.meshgrid(np.arange(rings if closed else rings - 1), np.arange(around), indexing="ij")
    k, n = (i + 1) % rings, (j + 1) % around
    a, b, c, d = i * around + j, k * around + j, k * around + n, i * around + n
    return (
        np.concatenate([np.stack([a, d, c], -1).reshape(-1, 3), np.stack([a, c, b], -1).reshape(-1, 3)])
        .reshape(2, -1, 3)
        .transpose(1, 0, 2)
        .reshape(-1, 3)
    )


def _sharp(rings: int, loop: Floats, closed: bool) -> Ints:
    around = len(loop)
    j = np.arange(around)
    ends = (
        []
        if closed
        else [np.stack([j, (j + 1) % around], 1), (rings - 1) * around + np.stack([j, (j + 1) % around], 1)]
    )
    runs = np.diff(np.vstack([loop[-1:], loop, loop[:1]]), axis=0)
    turn = np.abs(
        np.arctan2(runs[:-1, 0] * runs[1:, 1] - runs[:-1, 1] * runs[1:, 0], (runs[:-1] * runs[1:]).sum(axis=1))
    )
    corners = j[turn > 0.4]
    i = np.arange(rings - 1)
    along = [np.stack([i * around + c, (i + 1) * around + c], 1) for c in corners]
    return np.concatenate([*ends, *along, np.empty((0, 2), int)]).astype(np.int64)


def _caps(rings: int, sizes: list[int]) -> Ints:
    """Ends of a swept section: an annulus between two loops of equal size, or a fan for a convex or L-shaped loop."""
    last = (rings - 1) * sizes[0]
    n = sizes[0]
    if len(sizes) == 1:
        fan = np.array([[0, i, i + 1] for i in range(1, n - 1)])
        return np.concatenate([fan[:, ::-1], fan + last])
    inner = rings * n
    j, k = np.arange(n), (np.arange(n) + 1) % n
    # the bore runs the other way round: outline vertex j faces bore vertex n - 1 - j
    p, q = inner + n - 1 - j, inner + n - 1 - k
    front = np.concatenate([np.stack([j, q, k], 1), np.stack([j, p, q], 1)])
    p, q = p + last, q + last
    back = np.concatenate([np.stack([last + j, last + k, q], 1), np.stack([last + j, q, p], 1)])
    return np.concatenate([front, back])
