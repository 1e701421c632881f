"""The solid of a trimmed member: its section carried along its path, its two ends cut."""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING

import numpy as np

from fitwright.piece.body import Body
from fitwright.piece.model import EndCut, Member, Piece, Plane
from fitwright.piece.path import Arc, Segment, Straight, Vector
from fitwright.piece.trim import plane_stop, straight_met
from fitwright.sheets.solids.errors import SolidError
from fitwright.sheets.solids.kernel import beyond, cylinder, gap, joined, solids_in, sound, volume, without
from fitwright.sheets.solids.sweep import ring_solid, segment_solid

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

SQUARE = 1 - 1e-12
SPARE_MM = 1.0
FUZZY_MM = (0.0, 1e-5, 1e-4, 1e-3)
MASS_SHARE = 0.005
VOLUME_SHARE, CUT_SHARE = 1e-4, 0.05


def member_shape(member: Member, piece: Piece) -> TopoDS_Shape:
    """The trimmed solid of a member.

    The modeller can fail where surfaces only graze one another, as in a cope between equal tubes, and does not say so:
    its result is held against the computed mass, and the cuts are tried in another order and with wider tolerances.
    Raises SolidError when no attempt agrees with the computed mass within half a percent.
    """
    wanted = member.mass / member.stock.material.density * 1e9
    best: TopoDS_Shape | None = None
    off = np.inf
    for fuzzy, planes_first in product(FUZZY_MM, (True, False)):
        shape = _attempt(member, piece, fuzzy, planes_first=planes_first)
        miss = np.inf if shape is None else abs(volume(shape) - wanted)
        if miss < off and sound(shape):
            best, off = shape, miss
        if off <= _close(member, wanted):
            break
    if best is not None and off <= MASS_SHARE * wanted:
        return best
    raise SolidError(
        f"{member.name}: the solid modeller is {off / 1000:.2f} cm3 off the {wanted / 1000:.2f} cm3 that were "
        "computed; it cannot model how the ends are cut: draw them a little farther into the parts they meet, or less"
    )


def _close(member: Member, wanted: float) -> float:
    """How near the computed volume a solid is surely cut right [mm3]: far less than any of its copes takes out."""
    cut = sum(end.longest - end.shortest for end in member.ends) * member.stock.section.metal_area
    return VOLUME_SHARE * wanted + CUT_SHARE * cut


def _attempt(member: Member, piece: Piece, fuzzy: float, *, planes_first: bool) -> TopoDS_Shape | None:
    body = member.body
    segments = body.path.segments
    if member.path.closed and _one_circle(segments):
        assert isinstance(segments[0], Arc)
        return ring_solid(segments[0], body.frame, body.section)
    solids = [segment_solid(segment, frame, body.section) for segment, frame in _lengthened(member)]
    for end, pair in ((0, slice(0, 2)), (1, slice(-2, None))):
        if _runs_on(member, end):
            solids[pair] = [joined(solids[pair])]
    for end, at in ((0, 0), (1, -1)):
        kept = solids[at]
        for tools in _cuts(member, piece, end, planes_first=planes_first):
            kept = without(kept, tools, fuzzy)
        held = _holding(kept, _inner_point(member, end))
        if held is None:
            return None
        solids[at] = held
    whole = solids_in(joined(solids))
    return whole[0] if len(whole) == 1 else None


def _one_circle(segments: tuple[Segment, ...]) -> bool:
    arcs = [segment for segment in segments if isinstance(segment, Arc)]
    if len(arcs) < len(segments):
        return False
    return all(np.allclose(arc.centre, arcs[0].centre, atol=1e-6) and arc.axis @ arcs[0].axis > SQUARE for arc in arcs)


def _lengthened(member: Member) -> list[tuple[Segment, np.ndarray]]:
    """The segments with their frames (2, 3), the open ends moved to where the saw or a little more than it needs."""
    body = member.body
    parts: list[tuple[Segment, np.ndarray]] = list(zip(body.path.segments, body.frames, strict=True))
    if member.path.closed:
        return parts
    for end in (0, 1):
        reach = member.ends[end].longest + (0.0 if _all_square(body, end, member.ends[end]) else SPARE_MM)
        parts = _moved_end(parts, member, end, reach)
    return parts


def _moved_end(
    parts: list[tuple[Segment, np.ndarray]], member: Member, end: int, reach: float
) -> list[tuple[Segment, np.ndarray]]:
    body = member.body
    (segment, frame), tip = parts[0 if end == 0 else -1], body.point_at(end) + reach * body.outward(end)
    if isinstance(segment, Straight):
        moved = Straight(tip, segment.end) if end == 0 else Straight(segment.start, tip)
        return [(moved, frame), *parts[1:]] if end == 0 else [*parts[:-1], (moved, frame)]
    if not _runs_on(member, end):
        return parts
    more = Straight(tip, body.point_at(0)) if end == 0 else Straight(body.point_at(1), tip)
    return [(more, body.frame), *parts] if end == 0 else [*parts, (more, body.end_frame)]


def _runs_on(member: Member, end: int) -> bool:
    """Whether an end that is drawn as a bend needs a straight beyond it, to be cut with the bend."""
    bent = isinstance(member.path.segments[0 if end == 0 else -1], Arc)
    return (
        bent
        and not member.path.closed
        and member.ends[end].longest + SPARE_MM > 0
        and bool(member.ends[end].planes or member.ends[end].copes)
    )


def _all_square(body: Body, end: int, cut: EndCut) -> bool:
    """Whether a square end at the right length is all that an end needs."""
    bent = isinstance(body.path.segments[0 if end == 0 else -1], Arc)
    return not cut.copes and not (bent and cut.planes) and all(_square(plane, body, end) for plane in cut.planes)


def _square(plane: Plane, body: Body, end: int) -> bool:
    return float(plane.normal @ body.outward(end)) > SQUARE


def _cuts(member: Member, piece: Piece, end: int, *, planes_first: bool) -> list[list[TopoDS_Shape]]:
    """What is taken off an end, in order: a block beyond each plane, and the rounds it is fitted to."""
    body, cut = member.body, member.ends[end]
    if member.path.closed or _all_square(body, end, cut):
        return []
    size = 4 * (body.reach + SPARE_MM) + cut.longest - cut.shortest
    planes = [plane for plane in cut.planes if _parts(plane, body, end, cut.longest + SPARE_MM)]
    blocks = [[beyond(_foot(plane, body, end), plane.normal, _reach(plane, body, end, size))] for plane in planes]
    rounds = [_tools(body, end, piece.members[other].body) for other in cut.copes]
    return blocks + rounds if planes_first else rounds + blocks


def _parts(plane: Plane, body: Body, end: int, reach: float) -> bool:
    """Whether a plane touches a member that runs `reach` past its drawn end [mm]."""
    return float(plane_stop(body, end, body.section.outline(), plane).min()) < reach


def _foot(plane: Plane, body: Body, end: int) -> Vector:
    """Where the member's line meets the plane (3,)."""
    point, outward = body.point_at(end), body.outward(end)
    foot: Vector = point + ((plane.point - point) @ plane.normal) / float(outward @ plane.normal) * outward
    return foot


def _reach(plane: Plane, body: Body, end: int, size: float) -> float:
    """How large a block must be to take everything beyond an oblique plane [mm]."""
    return size / abs(float(plane.normal @ body.outward(end)))


def _tools(body: Body, end: int, other: Body) -> list[TopoDS_Shape]:
    """The filled outside of a round member near an end that is fitted to it."""
    point = body.point_at(end)
    run, far = straight_met(point, other), 20 * (body.reach + other.reach)
    if run is not None:
        middle = run.start + ((point - run.start) @ run.direction) * run.direction
        return [cylinder(middle - far * run.direction, 2 * far * run.direction, other.section.extents[1])]
    if other.path.closed and _one_circle(other.path.segments):
        first = other.path.segments[0]
        assert isinstance(first, Arc)
        return [ring_solid(first, other.frame, other.section, filled=True)]
    parts = zip(other.path.segments, other.frames, strict=True)
    return [joined([segment_solid(segment, frame, other.section, filled=True) for segment, frame in parts])]


def _inner_point(member: Member, end: int) -> Vector:
    """A point (3,) of the metal that the cut of an end leaves: half way along, or where the first bend begins."""
    body = member.body
    uv = body.section.fibres()[0, :2]
    if len(body.path.segments) > 1:
        at = 1.0 if end == 0 else 0.0
        return np.asarray(body.place(0 if end == 0 else len(body.path.segments) - 1, np.array([at]), uv[None])[0, 0])
    low, high = -member.ends[0].longest, body.path.length + member.ends[1].longest
    middle: Vector = body.path.start - (low + high) / 2 * body.outward(0) + uv @ body.frame
    return middle


def _holding(shape: TopoDS_Shape, point: Vector) -> TopoDS_Shape | None:
    """Of the pieces that a cut leaves, the one that holds a point (3,)."""
    pieces = solids_in(shape)
    if len(pieces) <= 1:
        return pieces[0] if pieces else None
    return min(pieces, key=lambda piece: gap(piece, point))
