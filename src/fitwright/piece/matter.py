"""Volume and centre of mass of a trimmed member, fibre by fibre."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.body import Body
from fitwright.piece.model import Plane
from fitwright.piece.path import Arc, Straight, Vector
from fitwright.piece.trim import stops

Floats = NDArray[np.float64]


def volume(body: Body, starts: Floats, finishes: Floats) -> tuple[float, Vector]:
    """Volume [mm3] and its first moment (3,) [mm4] of the material.

    starts, finishes: where each fibre of `section.fibres()` stops beyond the start and the end of the path (m,) [mm].
    Holds for cuts that stay within the first and last straight.
    Source: Pappus's theorem applied to each fibre of the section.
    """
    fibres = body.section.fibres()
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
        total += float(area @ lengths)
        moment += area @ firsts
    return total, moment


def fibre_stops(body: Body, end: int, planes: tuple[Plane, ...], copes: tuple[Body, ...]) -> Floats:
    """Where each fibre of the section stops at an end (m,) [mm beyond the end]."""
    return stops(body, end, body.section.fibres()[:, :2], planes, copes)


def _straight(segment: Straight, offsets: Floats, before: Floats, after: Floats) -> tuple[Floats, Floats]:
    lengths = segment.length + before + after
    middles = segment.start + offsets + ((segment.length + after - before) / 2)[:, None] * segment.direction
    return lengths, middles * lengths[:, None]


def _arc(segment: Arc, offsets: Floats) -> tuple[Floats, Floats]:
    spoke = (segment.start - segment.centre) / segment.radius
    tangent = np.cross(segment.axis, spoke)
    radii = segment.radius + offsets @ spoke
    lengths = radii * segment.angle
    hubs = segment.centre + (offsets @ segment.axis)[:, None] * segment.axis
    swung = np.sin(segment.angle) * spoke + (1 - np.cos(segment.angle)) * tangent
    return lengths, hubs * lengths[:, None] + (radii**2)[:, None] * swung
