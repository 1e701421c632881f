"""Where on the member a template starts, so that the two ends of a member come out in line with one another."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fitwright.making.coping.lines import Stop
from fitwright.making.coping.strip import BoxStrip, Strip
from fitwright.piece.model import Member
from fitwright.piece.path import Arc

Floats = NDArray[np.float64]

ROUND_STEPS = 720
ALIKE_MM = 0.01


def shortest_line(strip: Strip, stop: Stop) -> float:
    """Place [mm] on a closed strip where the material is cut back most: there the paper is joined, away from its tips.

    Of several that are alike, the first. On flat sides, the middle of the side that is cut back most.
    """
    if isinstance(strip, BoxStrip):
        found = np.round(stop(strip.outer(np.array(strip.middles))), 6)
        return strip.middles[int(np.argmin(found))]
    places = np.linspace(0.0, strip.girth, ROUND_STEPS, endpoint=False)
    found = stop(strip.outer(places))
    before, after = np.roll(found, 1), np.roll(found, -1)
    valleys = np.flatnonzero((found <= before) & (found <= after) & (found < found.min() + ALIKE_MM))
    at = int(valleys[0])
    bend = before[at] - 2 * found[at] + after[at]
    aside = (before[at] - after[at]) / (2 * bend) if bend > ALIKE_MM**3 else 0.0
    return float((places[at] + aside * strip.girth / ROUND_STEPS) % strip.girth)


def back_line(strip: Strip, back: Floats) -> float:
    """Place [mm] on a closed strip of the line on the back of a bend, whose direction in (u, v) is `back` (2,)."""
    angle = float(np.arctan2(back[1], back[0])) % (2 * np.pi)
    if isinstance(strip, BoxStrip):
        return strip.middles[round(angle / (np.pi / 2)) % 4]
    return angle / (2 * np.pi) * strip.girth


def nearest_bend(member: Member, end: int) -> Arc | None:
    """The bend nearest to an end of a member; None when it has none."""
    segments = member.path.segments if end == 0 else member.path.segments[::-1]
    return next((segment for segment in segments if isinstance(segment, Arc)), None)


def back_of(member: Member, end: int, bend: Arc) -> Floats:
    """Direction (2,) in (u, v), at an end, of the outside of the bend next to it."""
    spoke = (bend.start if end == 0 else bend.end) - bend.centre
    return np.asarray(member.body.frame_at(end) @ spoke / bend.radius)


def clockwise_sign(member: Member) -> int:
    """+1 when a turn from u to v is clockwise for one who looks along the member from its start."""
    u, v = member.body.frame
    return 1 if float(np.cross(u, v) @ -member.body.outward(0)) > 0 else -1
