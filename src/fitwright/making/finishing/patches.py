"""The outside of a trimmed member in small patches, each with its area and the way it faces."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.body import Body, rotated
from fitwright.piece.model import Member, Piece
from fitwright.piece.path import Arc, Straight
from fitwright.piece.solid import Trimmed
from fitwright.piece.trim import stops
from fitwright.stock import Section

Floats = NDArray[np.float64]

STEP_MM = 4.0  # of a patch, along the member and round it
ROUND = 48  # points of an outline with round corners


@dataclass(frozen=True, eq=False)
class Patches:
    """Middles (n, 3) [mm], outward normals (n, 3), areas (n,) [mm2]."""

    points: Floats
    normals: Floats
    areas: Floats


def patches_of(piece: Piece, member: Member) -> Patches:
    """The outside of a member from cut to cut; its end faces are left out.

    Holds for strips of the outline of at most 4 mm: a round of so many sides is a thousandth too small, which the
    strips' own lengths make good.
    """
    body = member.body
    middles, normals, widths = strips(body.section)
    trims = _trims(piece, member, middles)
    parts = list(_segments(body, middles, normals, widths, trims))
    return Patches(*(np.concatenate(arrays) for arrays in zip(*parts, strict=True)))


def strips(section: Section) -> tuple[Floats, Floats, Floats]:
    """The outline in strips: middles (k, 2), outward normals (k, 2), widths (k,) [mm]."""
    corners = section.outline(ROUND)
    edges = np.roll(corners, -1, axis=0) - corners
    lengths = np.linalg.norm(edges, axis=1)
    counts = np.maximum(np.ceil(lengths / STEP_MM - 1e-9).astype(int), 1)
    which = np.repeat(np.arange(len(corners)), counts)
    part = np.concatenate([(np.arange(n) + 0.5) / n for n in counts])
    middles = corners[which] + part[:, None] * edges[which]
    normals = np.column_stack([edges[which, 1], -edges[which, 0]]) / lengths[which, None]
    widths = lengths[which] / counts[which]
    if section.is_round:
        # chords made up to the arcs that they stand for
        radius = section.extents[1]
        widths = widths * (2 * np.pi * radius / widths.sum())
        middles = normals * radius
    return middles, normals, widths


def solid_of(piece: Piece, member: Member) -> Trimmed:
    """A member as a set of points, cut as it is."""
    first, last = member.ends
    copes = [tuple(piece.members[j].body for j in cut.copes) for cut in (first, last)]
    return Trimmed(member.body, (first.planes, last.planes), (copes[0], copes[1]))


def _trims(piece: Piece, member: Member, middles: Floats) -> tuple[Floats, Floats]:
    """How far each strip runs on beyond the two drawn ends (k,), (k,) [mm]."""
    found = []
    for end, cut in enumerate(member.ends):
        if member.path.closed or not (cut.planes or cut.copes):
            found.append(np.zeros(len(middles)))
        else:
            copes = tuple(piece.members[j].body for j in cut.copes)
            found.append(stops(member.body, end, middles, cut.planes, copes))
    return found[0], found[1]


def _segments(
    body: Body, middles: Floats, normals: Floats, widths: Floats, trims: tuple[Floats, Floats]
) -> Iterator[tuple[Floats, Floats, Floats]]:
    last = len(body.path.segments) - 1
    none = np.zeros(len(middles))
    for k, segment in enumerate(body.path.segments):
        frame = body.frames[k]
        if isinstance(segment, Straight):
            before, after = trims[0] if k == 0 else none, trims[1] if k == last else none
            yield _straight(segment, middles @ frame, normals @ frame, widths, before, after)
        else:
            yield _arc(segment, middles @ frame, normals @ frame, widths)


def _straight(
    segment: Straight, offsets: Floats, normals: Floats, widths: Floats, before: Floats, after: Floats
) -> tuple[Floats, Floats, Floats]:
    lengths = np.maximum(segment.length + before + after, 0.0)
    count = max(int(np.ceil(segment.length / STEP_MM)), 1)
    part = (np.arange(count) + 0.5) / count
    along = part[:, None] * lengths - before
    points = segment.start + offsets + along[..., None] * segment.direction
    return _flat(points, np.broadcast_to(normals, points.shape), np.broadcast_to(widths * lengths / count, along.shape))


def _arc(segment: Arc, offsets: Floats, normals: Floats, widths: Floats) -> tuple[Floats, Floats, Floats]:
    count = max(int(np.ceil(segment.length / STEP_MM)), 1)
    turned = segment.angle * (np.arange(count) + 0.5) / count
    shape = (count, *offsets.shape)
    points = segment.at(turned)[:, None] + rotated(np.broadcast_to(offsets, shape), segment.axis, turned[:, None])
    facing = rotated(np.broadcast_to(normals, shape), segment.axis, turned[:, None])
    radii = segment.radius + offsets @ segment.spoke
    areas = np.broadcast_to(widths * np.abs(radii) * segment.angle / count, shape[:2])
    return _flat(points, facing, areas)


def _flat(points: Floats, normals: Floats, areas: Floats) -> tuple[Floats, Floats, Floats]:
    return points.reshape(-1, 3), normals.reshape(-1, 3), areas.reshape(-1)
