"""Volume and centre of mass of a trimmed member, fibre by fibre."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.body import Body
from fitwright.piece.model import Plane
from fitwright.piece.path import Arc, Straight, Vector
from fitwright.piece.sections import fibres_of
from fitwright.piece.trim import stops

Floats = NDArray[np.float64]


def volume(body: Body, starts: Floats, finishes: Floats) -> tuple[float, Vector]:
    """Volume [mm3] and its first moment (3,) [mm4] of the material.

    starts, finishes: where each fibre of `section.fibres()` stops beyond the start and the end of the path (m,) [mm].
    Holds for cuts that stay within the first and last straight; where a member ends in a bend, for cuts that are short
    against the bend's radius.
    Source: Pappus's theorem applied to each fibre of the section.
    """
    fibres = fibres_of(body.section)
    uv, area = fibres[:, :2], fibres[:, 2]
    total, moment = 0.0, np.zeros(3)
    last = len(body.path.segments) - 1
    for k, segment in enumerate(body.path.segments):
        if isinstance(segment, Straight):
            before = starts if k == 0 else np.zeros(len(uv))
            after = finishes if k == last else np.zeros(len(uv))
            lengths, firsts = _straight(segment, uv @ body.frames[k], before, after)
        else:
            lengths, firsts = _arc(segment, uv @ body.frames[k])
            for end, stop in ((0, starts), (1, finishes)):
                if k == (0, last)[end] and not body.path.closed:
                    middles = body.point_at(end) + uv @ body.frame_at(end) + stop[:, None] / 2 * body.outward(end)
                    lengths, firsts = lengths + stop, firsts + stop[:, None] * middles
        total += float(area @ lengths)
        moment += area @ firsts
    return total, moment


def fibre_stops(body: Body, end: int, planes: tuple[Plane, ...], copes: tuple[Body, ...]) -> Floats:
    """Where each fibre of the section stops at an end (m,) [mm beyond the end]."""
    return stops(body, end, fibres_of(body.section)[:, :2], planes, copes)


def _straight(segment: Straight, offsets: Floats, before: Floats, after: Floats) -> tuple[Floats, Floats]:
    lengths = segment.length + before + after
    middles = segment.start + offsets + ((segment.length + after - before) / 2)[:, None] * segment.direction
    return lengths, middles * lengths[:, None]


def _arc(segment: Arc, offsets: Floats) -> tuple[Floats, Floats]:
    radii = segment.radius + offsets @ segment.spoke
    lengths = radii * segment.angle
    hubs = segment.centre + (offsets @ segment.axis)[:, None] * segment.axis
    swung = np.sin(segment.angle) * segment.spoke + (1 - np.cos(segment.angle)) * segment.onward
    return lengths, hubs * lengths[:, None] + (radii**2)[:, None] * swung
