"""Parts as seen from above, for the drawing of the bench."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from fitwright.making.bench.model import Line, Outline
from fitwright.making.bench.pose import LEVEL, Posed
from fitwright.piece.body import Body, sampled
from fitwright.piece.drawn import support
from fitwright.piece.path import Arc, Straight
from fitwright.piece.sections import outline_of
from fitwright.piece.trim import stops

Floats = NDArray[np.float64]
ARC_STEPS = 12


def outlines_of(pose: Posed, edge: Floats) -> tuple[Outline, ...]:
    """Outlines of the members, in the bench's axes from its front left corner; edge (2,): it in the pose."""
    found = []
    for thing in pose.laid:
        for index in thing.members:
            member = pose.piece.members[index]
            points = pose.seen(member.path.vertices)
            runs = [run for run in thing.runs if run.member == index]
            lines, axes = _lines(pose, member.body, index)
            middle = _middle(pose, member.body)
            found.append(
                Outline(
                    pose.piece.mark_of[member.name],
                    index,
                    tuple(_line(line - edge) for line in lines),
                    tuple(_line(axis - edge) for axis in axes),
                    min([run.bottom for run in runs] or [float(points[:, 2].min())]),
                    max([run.top for run in runs] or [float(points[:, 2].max())]),
                    _pair(middle - edge),
                )
            )
    return tuple(found)


def _lines(pose: Posed, body: Body, index: int) -> tuple[list[Floats], list[Floats]]:
    """Outlines and middle lines of one member (k, 2)."""
    cuts = _cut_edges(pose, index)
    strips: list[tuple[Floats, Floats]] = []
    single: list[Floats] = []
    axes: list[Floats] = []
    for k, (segment, frame) in enumerate(zip(body.path.segments, body.frames, strict=True)):
        last = k == len(body.path.segments) - 1
        points = _drawn(segment)
        seen = pose.seen(points)
        level = np.ptp(seen[:, 2]) < LEVEL * max(float(np.linalg.norm(seen[-1] - seen[0])), 1.0)
        if level:
            strip = _strip(pose, body, segment, frame, seen)
            if isinstance(segment, Straight) and not body.path.closed:
                strip = _to_cuts(strip, cuts, first=k == 0, last=last)
            strips.append(strip)
            axes.append(seen[:, :2])
        else:
            single.append(_shadow(pose, body, frame, points))
    joined = [np.vstack([s[0] for s in strips]), np.vstack([s[1] for s in strips])[::-1]] if strips else []
    if strips and body.path.closed:
        return [*joined, *single], [np.vstack(axes)]
    outlines = [_round_trip(*joined)] if strips and not single else [_round_trip(a, b[::-1]) for a, b in strips]
    return [*outlines, *single], [np.vstack(axes)] if axes and not single else axes


def _round_trip(there: Floats, back: Floats) -> Floats:
    return np.vstack([there, back, there[:1]])


def _drawn(segment: Straight | Arc) -> Floats:
    """Points (n, 3) of a segment, as drawn."""
    if isinstance(segment, Arc):
        return sampled(segment, np.linspace(0, 1, ARC_STEPS))
    return np.array([segment.start, segment.end])


def _cut_edges(pose: Posed, index: int) -> Floats:
    """How far the material reaches past either end (row) at its left and right edge (column), as seen from above and
    walking along the member [mm]."""
    member, found = pose.piece.members[index], np.zeros((2, 2))
    body, uv = member.body, outline_of(member.stock.section, 72)
    for end in () if body.path.closed else (0, 1):
        copes = tuple(pose.piece.members[j].body for j in member.ends[end].copes)
        if member.ends[end].planes or copes:
            reach = stops(body, end, uv, member.ends[end].planes, copes)
            walk = pose.rotation @ body.outward(end) * (1 if end else -1)
            left = np.array([-walk[1], walk[0], 0.0]) @ pose.rotation
            across = uv @ (body.frame_at(end) @ left)
            found[end] = reach[int(np.argmax(across))], reach[int(np.argmin(across))]
    return found


def _to_cuts(strip: tuple[Floats, Floats], cuts: Floats, *, first: bool, last: bool) -> tuple[Floats, Floats]:
    """Both edges of a straight made as long as its cuts leave them."""
    edges = []
    for edge, before, after in zip(strip, cuts[0], cuts[1], strict=True):
        unit = (edge[-1] - edge[0]) / np.linalg.norm(edge[-1] - edge[0])
        start = edge[0] - unit * before if first else edge[0]
        edges.append(np.array([start, edge[-1] + unit * after if last else edge[-1]]))
    return edges[0], edges[1]


def _strip(pose: Posed, body: Body, segment: Straight | Arc, frame: Floats, seen: Floats) -> tuple[Floats, Floats]:
    """Left and right edges (n, 2) of a level segment."""
    along = np.gradient(seen[:, :2], axis=0)
    if isinstance(segment, Arc):
        turn = pose.rotation @ segment.axis
        spokes = seen - pose.seen(segment.centre[None])[0]
        along = np.cross(np.broadcast_to(turn, spokes.shape), spokes)[:, :2]
    unit = along / np.linalg.norm(along, axis=1)[:, None]
    left = np.column_stack([-unit[:, 1], unit[:, 0]])
    side = np.array([*left[0], 0.0]) @ pose.rotation
    out, into = support(body.section, frame, side), support(body.section, frame, -side)
    return seen[:, :2] + out * left, seen[:, :2] - into * left


def _shadow(pose: Posed, body: Body, frame: Floats, points: Floats) -> Floats:
    """The section (n, 2) of an upright segment, or the hull of one that leans, as seen from above."""
    uv = outline_of(body.section, 24)
    run = pose.rotation @ (points[-1] - points[0])
    if len(points) == 2 and float(np.hypot(run[0], run[1])) < LEVEL * float(np.linalg.norm(run)):
        seen = pose.seen(points[0] + uv @ frame)[:, :2]
        return np.vstack([seen, seen[:1]])
    cloud = (points[:, None] + (uv @ frame)[None]).reshape(-1, 3)
    return hull(pose.seen(cloud)[:, :2])


def hull(points: Floats) -> Floats:
    """The convex hull (n, 2) of points (k, 2), closed, counterclockwise.

    Source: monotone chain, A. M. Andrew, Information Processing Letters 9(5), 1979.

    >>> hull(np.array([[0.0, 0.0], [2.0, 0.0], [1.0, 0.5], [2.0, 2.0], [0.0, 2.0]])).tolist()
    [[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0], [0.0, 0.0]]
    """
    order = [tuple(p) for p in np.unique(np.round(points, 6), axis=0)]
    chains = []
    for walk in (order, order[::-1]):
        chain: list[tuple[float, ...]] = []
        for p in walk:
            while len(chain) > 1 and _turn(chain[-2], chain[-1], p) <= 0:
                chain.pop()
            chain.append(p)
        chains.append(chain)
    return np.array([*chains[0][:-1], *chains[1]])


def _turn(a: tuple[float, ...], b: tuple[float, ...], c: tuple[float, ...]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _middle(pose: Posed, body: Body) -> Floats:
    """A point (2,) on the part for its mark: the middle of its longest straight as seen from above."""
    points = [pose.seen(np.array([s.start, s.end])) for s in body.path.segments if isinstance(s, Straight)]
    points = points or [pose.seen(np.array([body.path.start, sampled(body.path.segments[0], np.array([0.5]))[0]]))]
    longest = max(points, key=lambda pair: float(np.linalg.norm((pair[1] - pair[0])[:2])))
    return np.asarray(longest.mean(axis=0)[:2])


def _line(points: Floats) -> Line:
    kept = [points[0]]
    for before, point in pairwise(points):
        if np.abs(point - before).max() > 1e-6:
            kept.append(point)
    return tuple(_pair(p) for p in kept)


def _pair(point: Floats) -> tuple[float, float]:
    return (float(point[0]), float(point[1]))
