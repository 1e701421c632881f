"""Finding the seams of a piece: which stretch of a cut end lies against the member that it meets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fitwright.mechanics.model import Bools, Floats
from fitwright.mechanics.shrinkage.seam import Seam, WeldKind, wall
from fitwright.piece.body import Body
from fitwright.piece.model import CutKind, Joint, JointKind, Member, Piece
from fitwright.piece.path import Path
from fitwright.piece.seams import PARALLEL, SHORT_MM, STITCH_LONG_MM
from fitwright.piece.trim import nearest_axis, stops
from fitwright.stock import Section

ROUND_POINTS = 720
STEP_MM = 0.5
GAP_MM = 1.6
"""AWS D1.1 fit-up of fillets: gaps up to 1/16 in need no larger weld (from memory)."""

FLUSH_COSINE = 0.7
PROBE_MM = 0.01
TOUCH_MM = 0.3


@dataclass(frozen=True, eq=False)
class Branch:
    """Which of two members ends at a joint: its index and end, the member it is welded to, and its cut edge.

    points, along: (k, 3); length, gap: (k,) of the pieces of the whole edge; touches: (k,) near enough to be welded.
    """

    member: int
    end: int
    host: int
    points: Floats
    along: Floats
    length: Floats
    gap: Floats
    touches: Bools


def seams(piece: Piece) -> tuple[Seam, ...]:
    """The seams of all welded joints of metal members, in the order of the joints; what touches nowhere is left out.

    Holds for ends cut as the piece has them; a stretch where the gap is more than 1.6 mm, or more than the thinner
    wall where that is thicker, is not welded.
    Source: intersection of the trimmed outline with the other member's surface; the gap as `GAP_MM`.
    """
    found = branches(piece)
    made = (_seam(piece, index, found) for index in range(len(piece.joints)))
    return tuple(seam for seam in made if seam is not None)


def seam_of(piece: Piece, index: int) -> Seam | None:
    """The seam of one joint; None where it is bolted, not of metal, inside a tube, or touches nowhere."""
    return _seam(piece, index, branches(piece))


def branches(piece: Piece) -> tuple[Branch | None, ...]:
    """For each joint the member whose cut edge is welded: of two ends that meet, the one with more edge in touch."""
    return tuple(_branch(piece, joint) for joint in piece.joints)


def _branch(piece: Piece, joint: Joint) -> Branch | None:
    first, second = piece.members[joint.first], piece.members[joint.second]
    if joint.end is None or not _welded(joint, first, second):
        return None
    ways = [_edge(piece, first, joint.end, second)]
    if first is not second and not second.path.closed:
        reach = 2 * (first.body.reach + second.body.reach)
        near = (e for e in (0, 1) if float(np.linalg.norm(second.body.point_at(e) - joint.point)) < reach)
        ways += [_edge(piece, second, e, first) for e in near]
    return max(ways, key=lambda way: round(float(way.length @ way.touches), 3))


def _edge(piece: Piece, member: Member, end: int, host: Member) -> Branch:
    points, along, length = _pieces(end_ring(member, end, piece))
    if member is host:
        gap, touches = np.zeros(len(points)), np.ones(len(points), dtype=np.bool_)
    else:
        gap = _gaps(host, points)
        limit = max(GAP_MM, _thinner(member, host))
        touches = (gap <= limit) & _before_cuts(host, points)
    return Branch(member.index, end, host.index, points, along, length, gap, touches)


def _thinner(first: Member, second: Member) -> float:
    return min(wall(first.stock.section), wall(second.stock.section))


def _seam(piece: Piece, index: int, found: Sequence[Branch | None]) -> Seam | None:
    joint, branch = piece.joints[index], found[index]
    if branch is not None:
        return _end_seam(piece, index, branch, found)
    first, second = piece.members[joint.first], piece.members[joint.second]
    if joint.end is not None or not _welded(joint, first, second):
        return None
    return _side_seam(index, joint, first, second, _thinner(first, second))


def _welded(joint: Joint, first: Member, second: Member) -> bool:
    metal = all(member.stock.material.is_metal and member.sleeve_of is None for member in (first, second))
    return metal and not joint.bolted


def _end_seam(piece: Piece, index: int, branch: Branch, found: Sequence[Branch | None]) -> Seam | None:
    first, second = piece.members[branch.member], piece.members[branch.host]
    kept = branch.touches & _nearest(index, branch, found)
    if not kept.any():
        return None
    points, length = branch.points[kept], branch.length[kept]
    if first is second:
        flush, run = np.ones(len(points), dtype=np.bool_), -first.body.outward(branch.end)
    else:
        flush = _flush(first, branch.end, second, points)
        run = nearest_axis(second.body, length @ points / length.sum())[1]
    return Seam(
        joint=index,
        first=branch.member,
        second=branch.host,
        end=branch.end,
        kind=_kind(first, second, branch.end, piece.joints[index], float(length @ flush) > length.sum() / 2),
        points=points,
        along=branch.along[kept],
        length=length,
        gap=branch.gap[kept],
        flush=flush,
        pull=_pull(first, branch.end),
        run=run,
        thickness=_thinner(first, second),
        around=float(branch.length.sum()),
    )


def end_ring(member: Member, end: int, piece: Piece) -> Floats:
    """(k, 3) points round the cut edge of an end, half a millimetre apart or closer [mm]."""
    uv = _fine_outline(member.stock.section)
    cut = member.ends[end]
    stop = stops(member.body, end, uv, cut.planes, tuple(piece.members[k].body for k in cut.copes))
    outward = member.body.outward(end)
    ring: Floats = member.body.point_at(end) + uv @ member.body.frame_at(end) + stop[:, None] * outward
    return ring


def _fine_outline(section: Section) -> Floats:
    if section.is_round:
        return section.outline(ROUND_POINTS)
    outline = section.outline()
    nexts = np.roll(outline, -1, axis=0)
    runs = []
    for start, stop in zip(outline, nexts, strict=True):
        count = max(int(np.ceil(float(np.linalg.norm(stop - start)) / STEP_MM)), 1)
        runs.append(start + np.linspace(0, 1, count, endpoint=False)[:, None] * (stop - start))
    return np.concatenate(runs)


def _pieces(ring: Floats) -> tuple[Floats, Floats, Floats]:
    """Middles (k, 3), unit directions (k, 3) and lengths (k,) of the chords of a closed ring (k, 3)."""
    step = np.roll(ring, -1, axis=0) - ring
    length = np.linalg.norm(step, axis=1)
    real = length > 1e-9
    return (ring + step / 2)[real], step[real] / length[real, None], length[real]


def _gaps(member: Member, points: Floats) -> Floats:
    """(k,) distance of points (k, 3) from a member's outside, as if it ran on past its ends [mm]; inside counts as
    0."""
    return np.asarray(np.maximum(_longer(member).distance(points), 0.0))


def _longer(member: Member) -> Body:
    body = member.body
    if body.path.closed:
        return body
    vertices = body.path.vertices.copy()
    for end, at in ((0, 0), (1, -1)):
        vertices[at] = vertices[at] + 2 * body.reach * body.outward(end)
    return Body(Path(vertices, body.path.radii, False, body.path.seam), body.frame, body.section)


def _before_cuts(member: Member, points: Floats) -> Bools:
    """(k,) which points lie before the cuts of both ends of a member, or before its drawn ends where it has none."""
    inside = np.ones(len(points), dtype=np.bool_)
    if member.path.closed:
        return inside
    for end, cut in enumerate(member.ends):
        outward, tip = member.body.outward(end), member.body.point_at(end)
        if cut.planes:
            for plane in cut.planes:
                near = np.abs((points - tip) @ outward) < 4 * member.body.reach
                inside &= ~near | ((points - plane.point) @ plane.normal <= TOUCH_MM)
        elif not cut.copes and len(member.path.segments) == 1:
            inside &= (points - tip) @ outward <= TOUCH_MM
    return inside


def _nearest(index: int, branch: Branch, found: Sequence[Branch | None]) -> Bools:
    """(k,) where no other joint of the same end lies nearer, nor an earlier one as near: an edge is welded once."""
    mine = np.ones(len(branch.points), dtype=np.bool_)
    for other, rival in enumerate(found):
        if rival is not None and other != index and (rival.member, rival.end) == (branch.member, branch.end):
            theirs = np.where(rival.touches, rival.gap, np.inf)
            mine &= branch.gap <= theirs - 1e-6 if other < index else branch.gap <= theirs
    return mine


def _flush(first: Member, end: int, second: Member, points: Floats) -> Bools:
    """(k,) where the outsides of the two members lie side by side rather than in a corner."""
    inner = points - 2 * TOUCH_MM * first.body.outward(end)
    cosine = np.abs(np.einsum("ij,ij->i", _normals(_longer(first), inner), _normals(_longer(second), points)))
    return np.asarray(cosine > FLUSH_COSINE)


def _normals(body: Body, points: Floats) -> Floats:
    """(k, 3) unit vectors out of a body's surface near points (k, 3)."""
    steps = PROBE_MM * np.eye(3)
    slope = np.stack([body.distance(points + step) - body.distance(points - step) for step in steps], axis=1)
    size = np.linalg.norm(slope, axis=1)
    return np.asarray(slope / np.maximum(size, 1e-12)[:, None])


def _kind(first: Member, second: Member, end: int, joint: Joint, flush: bool) -> WeldKind:
    mitred = first.ends[end].kind is CutKind.MITRE and any(cut.kind is CutKind.MITRE for cut in second.ends)
    if joint.kind is JointKind.BUTT or (joint.kind is JointKind.CORNER and mitred):
        return WeldKind.BUTT
    return WeldKind.FLUSH if flush else WeldKind.FILLET


def _pull(first: Member, end: int) -> Floats:
    """(3,) the way the first member is drawn: square to a mitre, else along itself."""
    cut, outward = first.ends[end], first.body.outward(end)
    if cut.kind is CutKind.MITRE and len(cut.planes) == 1:
        return np.asarray(cut.planes[0].normal / np.linalg.norm(cut.planes[0].normal))
    return np.asarray(outward)


def _side_seam(index: int, joint: Joint, first: Member, second: Member, thickness: float) -> Seam | None:
    """A lap or a crossing: two lines along the patch where the sides touch; a stitch of them where they lap along."""
    at, along = nearest_axis(first.body, joint.point)
    other, run = nearest_axis(second.body, at)
    toward = other - at
    toward = toward - (toward @ along) * along
    size = float(np.linalg.norm(toward))
    pull = toward / size if size > 1e-6 else np.cross(along, run)
    patch = _patch(first, second, at, along, max(GAP_MM, thickness))
    if patch is None:
        return None
    side = np.cross(pull, along)
    places = np.column_stack([(patch - at) @ along, (patch - at) @ side])
    low, high = places.min(axis=0), places.max(axis=0)
    if abs(float(along @ run)) > PARALLEL and high[0] - low[0] > SHORT_MM:
        low[0], high[0] = max(low[0], -STITCH_LONG_MM / 2), min(high[0], STITCH_LONG_MM / 2)
    length = float(high[0] - low[0])
    if length < STEP_MM:
        return None
    count = max(int(np.ceil(length / STEP_MM)), 2)
    s = low[0] + (np.arange(count) + 0.5) * length / count
    depth = float(np.mean((patch - at) @ pull))
    lines = [at + s[:, None] * along + w * side + depth * pull for w in (high[1], low[1])]
    directions = [np.tile(along, (count, 1)), np.tile(-along, (count, 1))]
    return Seam(
        joint=index,
        first=joint.first,
        second=joint.second,
        end=None,
        kind=WeldKind.FILLET if not first.stock.section.is_round else WeldKind.FLUSH,
        points=np.concatenate(lines),
        along=np.concatenate(directions),
        length=np.full(2 * count, length / count),
        gap=np.zeros(2 * count),
        flush=np.zeros(2 * count, dtype=np.bool_),
        pull=np.asarray(pull / np.linalg.norm(pull)),
        run=np.asarray(run),
        thickness=thickness,
        around=2 * length,
    )


def _patch(first: Member, second: Member, at: Floats, along: Floats, limit: float) -> Floats | None:
    """(p, 3) points of the first member's outside near `at` that lie against the second; None where there are none."""
    reach = 2 * (first.body.reach + second.body.reach)
    uv = _fine_outline(first.stock.section)
    segments = first.path.segments
    found = []
    for k, segment in enumerate(segments):
        parts = np.linspace(0, 1, max(int(np.ceil(segment.length / 2.0)), 2) + 1)
        middles = first.body.place(k, parts, np.zeros((1, 2)))[:, 0]
        near = np.linalg.norm(middles - at, axis=1) < reach
        if near.any():
            found.append(first.body.place(k, parts[near], uv).reshape(-1, 3))
    if not found:
        return None
    points = np.concatenate(found)
    against = np.abs(second.body.distance(points)) <= limit
    return points[against] if against.any() else None
