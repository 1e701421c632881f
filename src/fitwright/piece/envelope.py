"""The box round the piece: as it stands, with its casters swept through their swivel, with its shelves on their way out."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.body import Body
from fitwright.piece.drawn import support
from fitwright.piece.fittings import swivel_reach
from fitwright.piece.model import Envelope, Hardware, Panel
from fitwright.piece.path import Arc, Vector
from fitwright.piece.solid import Trimmed
from fitwright.piece.trim import stops

Floats = NDArray[np.float64]
Box = tuple[Vector, Vector]


def envelope(members: list[Trimmed], panels: list[Panel], hardware: list[Hardware]) -> Envelope:
    """Extents of all parts together [mm]; a shelf's way out is its own depth along its direction of removal."""
    fixed = [member_box(member) for member in members] + [(panel.low, panel.high) for panel in panels]
    still = fixed + [hardware_box(item, swept=False) for item in hardware]
    swept = fixed + [hardware_box(item, swept=True) for item in hardware]
    removal = swept + [removal_box(panel) for panel in panels if panel.removable is not None]
    return Envelope(*_around(still), *_around(swept), *_around(removal))


def member_box(member: Trimmed) -> Box:
    """Exact low and high corners (3,) of one trimmed member [mm].

    Source: support function of the section along straights; along an arc the extreme of
    centre + R cos + h, found where the derivative vanishes or at the arc's ends.
    """
    reach = [_extent(member, sign * axis) for axis in np.eye(3) for sign in (1, -1)]
    return -np.array(reach[1::2]), np.array(reach[0::2])


def hardware_box(item: Hardware, *, swept: bool) -> Box:
    """Low and high corners (3,) of a piece of hardware [mm]."""
    if item.kind in ("caster", "foot"):
        reach = swivel_reach(item) if swept or item.kind == "foot" else float(item.properties.get("wheel", 0.0)) / 2
        flat = np.array([reach, reach, 0.0])
        return item.at - flat - np.array([0, 0, item.drop]), item.at + flat
    size = np.array([float(item.properties.get(f"size_{axis}", 0.0)) for axis in "xyz"])
    return item.at - size / 2, item.at + size / 2


def removal_box(panel: Panel) -> Box:
    """The box that a removable panel sweeps until it has left its place (low, high) [mm]."""
    assert panel.removable is not None
    travel = panel.removable * float(np.abs((panel.high - panel.low) @ panel.removable))
    return np.minimum(panel.low, panel.low + travel), np.maximum(panel.high, panel.high + travel)


def _around(boxes: list[Box]) -> Box:
    return np.min([box[0] for box in boxes], axis=0), np.max([box[1] for box in boxes], axis=0)


def _extent(member: Trimmed, direction: Vector) -> float:
    body = member.body
    best = -np.inf
    for k, segment in enumerate(body.path.segments):
        if isinstance(segment, Arc):
            best = max(best, _arc_extent(body, k, direction))
    last = len(body.path.segments) - 1
    for end, k in ((0, 0), (1, last)):
        best = max(best, _end_extent(member, end, direction))
    for k, frame in enumerate(body.frames):
        segment = body.path.segments[k]
        reach = support(body.section, frame, direction)
        if k > 0:
            best = max(best, float(segment.start @ direction) + reach)
        if k < last and not isinstance(segment, Arc):
            best = max(best, float(segment.end @ direction) + reach)
    return best


def _arc_extent(body: Body, k: int, direction: Vector) -> float:
    segment = body.path.segments[k]
    assert isinstance(segment, Arc)
    spoke = (segment.start - segment.centre) / segment.radius
    lean = float(np.arctan2(direction @ np.cross(segment.axis, spoke), direction @ spoke))
    turned = [0.0, segment.angle] + [x for x in (lean, lean + np.pi, lean - np.pi, lean + 2 * np.pi) if 0 < x < segment.angle]
    outline = body.section.outline()
    points = body.place(k, np.array(turned) / segment.angle, outline)
    if not body.section.is_round:
        return float((points @ direction).max())
    tangents = segment.tangent(np.array(turned))
    across = np.sqrt(np.maximum(1 - (tangents @ direction) ** 2, 0))
    return float((segment.at(np.array(turned)) @ direction + body.section.extents[1] * across).max())


def _end_extent(member: Trimmed, end: int, direction: Vector) -> float:
    body = member.body
    outline = body.section.outline(360)
    stop = np.zeros(len(outline))
    if member.planes[end] or member.copes[end]:
        stop = stops(body, end, outline, member.planes[end], member.copes[end])
    points = body.point_at(end) + outline @ body.frame_at(end) + stop[:, None] * body.outward(end)
    if body.section.is_round and not stop.any():
        return float(body.point_at(end) @ direction) + support(body.section, body.frame_at(end), direction)
    return float((points @ direction).max())
