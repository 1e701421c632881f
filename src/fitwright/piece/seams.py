"""Where two members that lie side by side are joined: not at one point but all along, a stitch every so often."""

from __future__ import annotations

import numpy as np

from fitwright.piece.path import Straight, Vector
from fitwright.piece.solid import Trimmed
from fitwright.piece.trim import nearest_segment

PARALLEL = 0.9999
STITCH_MM = 300.0  # from stitch to stitch, at most; common practice for light ledges and doubled members
INSET_MM = 15.0  # from the end of what lies side by side to the middle of the first stitch
SHORT_MM = 100.0  # a shorter seam is one weld, all along
STITCH_LONG_MM = 40.0  # common practice: 25 to 50 mm


def seam_points(first: Trimmed, second: Trimmed, point: Vector) -> list[Vector]:
    """Points (3,) at which two members that touch at a point (3,) are joined; the point itself unless they lap along.

    Holds for straights: a bend that follows another member touches it where it is nearest.
    """
    runs = [_run(member, point) for member in (first, second)]
    if runs[0] is None or runs[1] is None:
        return [point]
    (start, along), (other, beside) = runs[0], runs[1]
    if abs(float(along @ beside)) < PARALLEL * float(np.linalg.norm(along) * np.linalg.norm(beside)):
        return [point]
    direction = along / np.linalg.norm(along)
    ends = np.sort([[float((p - point) @ direction) for p in (a, a + b)] for a, b in ((start, along), (other, beside))])
    low, high = ends[:, 0].max() + INSET_MM, ends[:, 1].min() - INSET_MM
    if high - low < SHORT_MM:
        return [point]
    count = int(np.ceil((high - low) / STITCH_MM)) + 1
    return [point + at * direction for at in np.linspace(low, high, count)]


def _run(member: Trimmed, point: Vector) -> tuple[Vector, Vector] | None:
    """Where the material of the straight nearest to a point begins, and from there to its end (3,), (3,) [mm]."""
    segments, segment = member.body.path.segments, nearest_segment(member.body, point)
    if not isinstance(segment, Straight):
        return None
    opens = (segment is segments[0], segment is segments[-1]) if not member.body.path.closed else (False, False)
    more = [cut if is_open else 0.0 for cut, is_open in zip(member.shortest, opens, strict=True)]
    start = segment.start - more[0] * segment.direction
    return start, (segment.length + more[0] + more[1]) * segment.direction
