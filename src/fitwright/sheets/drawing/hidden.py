"""What is seen of the edges of a piece from one direction: hidden edges removed, exactly, for faceted bodies.

An edge is hidden where it lies inside the outline of a front face and behind its plane. Both are linear along the
edge, so each pair of edge and face gives one interval, found in closed form; their union is what is hidden.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.sheets.drawing.directions import Direction
from fitwright.sheets.drawing.solids import NO_FACE, Solids

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

# An edge closer than this behind a face is taken to lie on it [mm, square to the face]. It covers how far the facets
# of a tube stand off its true surface, r (1 - cos(pi / n)): 0.13 mm for 1 1/8 inch at 24 sides, and 0.4 mm for a bend
# of 100 mm in steps of 10 degrees, whose own outline must not break up.
ON_OTHER_MM = 0.25
ON_OWN_MM = 0.45
EDGE_ON = 1e-7
CRACK_MM = 1e-6
SHORTEST_MM = 0.02
FACES_A_CLUSTER = 8
# directions in which boxes are compared: square to the lines that furniture shows in the four views
COMPARED = np.array([[1.0, 0.0], [0.0, 1.0], [0.5, 3**0.5 / 2], [-0.5, 3**0.5 / 2]])


@dataclass(frozen=True)
class Segments:
    """Straight bits seen: `points` (k, 2, 2) right and up [mm], `body` (k,) the body that each belongs to."""

    points: Floats
    body: Ints


@dataclass(frozen=True)
class _Edges:
    """Edges in view coordinates: `start`, `end` (k, 3); `body` (k,)."""

    start: Floats
    end: Floats
    body: Ints


@dataclass(frozen=True)
class _Faces:
    """Front faces: `corners` (m, 3, 3); `planes` (m, 4, 4) whose product with (x, y, z, 1) is positive where hidden
    but for the tolerance: three sides (inwards) and how far behind the face [mm]; `body` (m,)."""

    corners: Floats
    planes: Floats
    body: Ints


@dataclass(frozen=True)
class Seen:
    """One view of the solids, ready to be asked what is seen."""

    solids: Solids
    direction: Direction
    points: Floats
    towards: Floats
    faces: _Faces


def look(solids: Solids, direction: Direction) -> Seen:
    """The solids seen from a direction."""
    points = direction.seen(solids.vertices)
    normals = direction.seen(solids.normals)
    towards = normals[:, 2]
    front = towards > EDGE_ON
    return Seen(solids, direction, points, towards, _front_faces(points, solids, normals, front))


def visible(view: Seen) -> Segments:
    """The straight bits of sharp edges and outlines that are seen; coincident ones are all kept.

    Holds for closed bodies of plane faces; an edge less than ON_OTHER_MM behind a face of another body, or ON_OWN_MM
    behind one of its own, counts as lying on it.
    Source: the interval method of A. Appel, The notion of quantitative invisibility, ACM 1967, with faces for surfaces.
    """
    edges = _candidates(view)
    edge, low, high = _seen_intervals(len(edges.body), *_hidden(edges, view.faces), _lengths(edges))
    start, along = edges.start[edge, :2], (edges.end - edges.start)[edge, :2]
    points = np.stack([start + low[:, None] * along, start + high[:, None] * along], axis=1)
    return Segments(points, edges.body[edge])


def exposed(view: Seen, points: Floats, body: Ints) -> Bools:
    """Which points (k, 3) [mm, piece coordinates] lying on `body` (k,) are seen."""
    at = view.direction.seen(points)
    pair, low, high = _hidden(_Edges(at, at, body), view.faces)
    hidden = np.zeros(len(at), dtype=bool)
    hidden[pair[high >= low]] = True
    return ~hidden


def _candidates(view: Seen) -> _Edges:
    """Sharp edges with a face towards the viewer, outlines (a face towards him, one away) and edges of open bodies."""
    solids = view.solids
    towards = np.append(view.towards > EDGE_ON, False)
    first, second = towards[solids.edge_faces[:, 0]], towards[solids.edge_faces[:, 1]]
    alone = solids.edge_faces[:, 1] == NO_FACE
    wanted = (solids.edge_sharp & (first | second)) | (first ^ second) | alone
    start, end = (view.points[solids.edges[wanted, i]] for i in range(2))
    body = solids.edge_body[wanted]
    long = np.hypot(*(end - start)[:, :2].T) > SHORTEST_MM
    return _Edges(start[long], end[long], body[long])


def _front_faces(points: Floats, solids: Solids, normals: Floats, front: Bools) -> _Faces:
    """Faces towards the viewer with the four half-spaces behind them."""
    corners = points[solids.faces[front]]
    normals = normals[front]
    following = np.roll(corners, -1, axis=1)
    run = (following - corners)[..., :2]
    length = np.maximum(np.hypot(run[..., 0], run[..., 1]), 1e-12)
    planes = np.zeros((len(corners), 4, 4))
    planes[:, :3, 0] = -run[..., 1] / length
    planes[:, :3, 1] = run[..., 0] / length
    planes[:, :3, 3] = CRACK_MM - (planes[:, :3, :2] * corners[..., :2]).sum(axis=2)
    planes[:, 3, :3] = -normals
    planes[:, 3, 3] = (normals * corners[:, 0]).sum(axis=1)
    return _Faces(corners, planes, solids.face_body[front])


def _hidden(edges: _Edges, faces: _Faces) -> tuple[Ints, Floats, Floats]:
    """Edges (k,) with the interval (k,), (k,) of 0..1 along each that a face hides; an edge may come many times."""
    edge, face = _near_pairs(edges, faces)
    own = edges.body[edge] == faces.body[face]
    start, along = edges.start[edge], (edges.end - edges.start)[edge]
    low, high = np.zeros(len(edge)), np.ones(len(edge))
    for side in (3, 0, 1, 2):
        plane = faces.planes[face, side]
        at = (start * plane[:, :3]).sum(axis=1) + plane[:, 3]
        if side == 3:
            at -= np.where(own, ON_OWN_MM, ON_OTHER_MM)
        rate = (along * plane[:, :3]).sum(axis=1)
        low, high = _clipped(low, high, at, rate)
        kept = low <= high
        edge, face, own = edge[kept], face[kept], own[kept]
        start, along, low, high = start[kept], along[kept], low[kept], high[kept]
    return edge, low, high


def _clipped(low: Floats, high: Floats, at: Floats, rate: Floats) -> tuple[Floats, Floats]:
    """The intervals cut down to where at + t rate >= 0; an empty one has low > high."""
    level = rate == 0
    crossing = -at / np.where(level, 1.0, rate)
    low = np.where(rate > 0, np.maximum(low, crossing), np.where(level & (at < 0), 2.0, low))
    return low, np.where(rate < 0, np.minimum(high, crossing), high)


def _near_pairs(edges: _Edges, faces: _Faces) -> tuple[Ints, Ints]:
    """Pairs (k,), (k,) of edges and faces whose boxes overlap where the face is nearer."""
    low, high, depth = _boxes(np.stack([edges.start, edges.end], axis=1))
    face_low, face_high, face_depth = _boxes(faces.corners)
    starts, sizes = _clusters(faces.body)
    if not len(starts) or not len(edges.body):
        return np.empty(0, np.int64), np.empty(0, np.int64)
    cluster_low = np.minimum.reduceat(face_low, starts, axis=1)
    cluster_high = np.maximum.reduceat(face_high, starts, axis=1)
    cluster_depth = np.maximum.reduceat(face_depth[1], starts)
    near = cluster_depth[None, :] > depth[0][:, None]
    for axis in range(len(COMPARED)):
        near &= low[axis][:, None] <= cluster_high[axis][None, :]
        near &= high[axis][:, None] >= cluster_low[axis][None, :]
    edge, cluster = np.divmod(np.flatnonzero(near), near.shape[1])
    edge, face = _spread(edge, starts[cluster], sizes[cluster])
    kept = face_depth[1][face] > depth[0][edge]
    edge, face = edge[kept], face[kept]
    for axis in range(len(COMPARED)):
        kept = (low[axis][edge] <= face_high[axis][face]) & (high[axis][edge] >= face_low[axis][face])
        edge, face = edge[kept], face[kept]
    return edge, face


def _boxes(points: Floats) -> tuple[NDArray[np.float32], NDArray[np.float32], NDArray[np.float32]]:
    """Lowest and highest (4, k) of points (k, j, 3) in the compared directions, and depths (2, k), a hair generous."""
    spread = np.einsum("kjx,dx->djk", points[..., :2], COMPARED)
    low, high = spread.min(axis=1), spread.max(axis=1)
    depth = np.stack([points[..., 2].min(axis=1), points[..., 2].max(axis=1)])
    return (low - 0.001).astype(np.float32), (high + 0.001).astype(np.float32), depth.astype(np.float32)


def _clusters(body: Ints) -> tuple[Ints, Ints]:
    """Starts and sizes of runs of neighbouring faces of one body."""
    if not len(body):
        return np.empty(0, np.int64), np.empty(0, np.int64)
    first = np.flatnonzero(np.diff(body, prepend=body[0] - 1))
    rank = np.arange(len(body)) - np.repeat(first, np.diff(np.append(first, len(body))))
    starts = np.flatnonzero(rank % FACES_A_CLUSTER == 0)
    return starts, np.diff(np.append(starts, len(body)))


def _spread(edge: Ints, starts: Ints, sizes: Ints) -> tuple[Ints, Ints]:
    """Each pair of edge and run of faces as pairs of edge and face."""
    ends = np.cumsum(sizes)
    total = int(ends[-1]) if len(ends) else 0
    face = np.arange(total) + np.repeat(starts - (ends - sizes), sizes)
    return np.repeat(edge, sizes), face


def _lengths(edges: _Edges) -> Floats:
    """Lengths as seen (k,) [mm]."""
    run = (edges.end - edges.start)[:, :2]
    return np.hypot(run[:, 0], run[:, 1])


def _seen_intervals(count: int, edge: Ints, low: Floats, high: Floats, lengths: Floats) -> tuple[Ints, Floats, Floats]:
    """What the hidden intervals leave of each edge: edges (k,) with intervals (k,), (k,)."""
    every = np.arange(count)
    edge = np.concatenate([every, edge, every])
    low = np.concatenate([np.zeros(count), low, np.ones(count)])
    high = np.concatenate([np.zeros(count), high, np.ones(count)])
    order = np.lexsort((low, edge))
    edge, low, high = edge[order], low[order], high[order]
    # numbered apart by 2, edges cannot reach into one another, so that one running maximum serves them all
    reach = np.maximum.accumulate(2.0 * edge + high) - 2.0 * edge
    same = edge[1:] == edge[:-1]
    gap = (low[1:] - reach[:-1]) * lengths[edge[1:]]
    seen = np.flatnonzero(same & (gap > SHORTEST_MM))
    return edge[seen], reach[seen], low[seen + 1]
