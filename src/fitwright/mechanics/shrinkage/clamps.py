"""Where a group is held down while it is welded, when nobody says."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from fitwright.mechanics.model import Floats
from fitwright.mechanics.shrinkage.welded import Group
from fitwright.mechanics.supports import Supports, supports

PLACES = (0.15, 0.85)
"""A clamp near each end of a member, out of the way of the torch (common practice)."""

APART_MM = 700.0
"""No stretch between clamps longer than this (common practice)."""

DOWN, SIDEWAYS, FIRM = 20000.0, 2000.0, 1e8
"""Stiffness of a clamp square to the bench and along it [N/mm], and of one that must stop turning [N mm/rad]: a screw
clamp on a stop gives about a tenth of a millimetre to a man's weight sideways (common practice)."""

ON_BENCH_MM = 5.0


def bench_face(group: Group) -> tuple[int, int]:
    """Axis and side (-1 low, +1 high) of the face on which most length of tube lies flat: what goes down on the
    bench."""
    ends = group.model.ends
    lengths = np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1)
    best = (-1.0, (2, -1))
    for axis in (2, 1, 0):
        for side in (-1, 1):
            level = side * float((side * ends[:, :, axis]).max())
            flat = (np.abs(ends[:, :, axis] - level) <= ON_BENCH_MM).all(axis=1)
            length = float(lengths[flat].sum())
            if length > best[0] + 1.0:
                best = length, (axis, side)
    return best[1]


def clamped(group: Group, points: Sequence[Floats] | None = None) -> Supports:
    """The group held where it is clamped, by springs: stiff square to the bench, softer along it, free to turn.

    points: (3,) each, where the clamps are; when None, clamps near both ends of each member that lies on the bench, on
    the face that `bench_face` finds, and between where it is long. A group with clamps in one line only is held by
    the first against turning too.
    Holds for clamps that do not slip. Source: `DOWN`, `SIDEWAYS`.
    """
    nodes = sorted(_nodes_at(group, points) if points is not None else _usual(group))
    axis, _ = bench_face(group)
    shift = np.full(3, SIDEWAYS)
    shift[axis] = DOWN
    turning = np.zeros(3) if _stands(group.model.nodes[nodes]) else np.full(3, FIRM)
    springs = {node: np.concatenate([shift, turning if k == 0 else np.zeros(3)]) for k, node in enumerate(nodes)}
    return supports(group.model, springs=springs)


def clamp_points(group: Group, held: Supports) -> Floats:
    """(c, 3) where a group is held [mm]."""
    return np.asarray(group.model.nodes[np.sort(held.spring_nodes)])


def _usual(group: Group) -> set[int]:
    axis, side = bench_face(group)
    ends = group.model.ends
    level = side * float((side * ends[:, :, axis]).max())
    nodes: set[int] = set()
    for member in group.members:
        elements = np.flatnonzero(group.framed.member_of[group.kept] == member)
        flat = (np.abs(ends[elements][:, :, axis] - level) <= ON_BENCH_MM).all(axis=1)
        if flat.any():
            nodes |= _places(group, elements[flat])
    return nodes or {int(group.model.elements[0, 0])}


def _places(group: Group, elements: np.ndarray[tuple[int, ...], np.dtype[np.intp]]) -> set[int]:
    """The nodes nearest to 15 and 85 % of a member's run on the bench, and between them on long ones."""
    chain = group.model.elements[elements]
    nodes = np.concatenate([chain[:, 0], chain[-1:, 1]])
    steps = np.linalg.norm(np.diff(group.model.nodes[nodes], axis=0), axis=1)
    s = np.concatenate([[0.0], np.cumsum(steps)])
    count = max(2, int(np.ceil((PLACES[1] - PLACES[0]) * s[-1] / APART_MM)) + 1)
    return {int(nodes[np.argmin(np.abs(s - part * s[-1]))]) for part in np.linspace(*PLACES, count)}


def _nodes_at(group: Group, points: Sequence[Floats]) -> set[int]:
    return {int(np.argmin(np.linalg.norm(group.model.nodes - np.asarray(point), axis=1))) for point in points}


def _stands(points: Floats) -> bool:
    """Whether places hold a body against every motion: three of them, not in one line."""
    if len(points) < 3:
        return False
    spread = np.linalg.svd(points - points.mean(axis=0), compute_uv=False)
    return bool(spread[1] > 1.0)
