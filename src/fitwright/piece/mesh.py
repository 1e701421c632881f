"""Triangles and sharp edges of every part, for drawings and for the view in space."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.fittings import caster_shape, swivel_reach
from fitwright.piece.model import Board, Hardware, Member, Piece
from fitwright.piece.path import Arc
from fitwright.piece.trim import stops
from fitwright.stock import Section

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

SIDES = 24
BEND_STEP_RAD = np.radians(7.5)
SHARP_RAD = np.radians(40)


@dataclass(frozen=True, eq=False)
class Mesh:
    """One body: vertices (n, 3) [mm], faces (m, 3) outward triangles, edges (k, 2) sharp edges to draw.

    kind: "member", "panel" or "hardware"; mark and name say which part it is.
    """

    mark: str
    name: str
    kind: str
    vertices: Floats
    faces: Ints
    edges: Ints


def meshes(piece: Piece) -> tuple[Mesh, ...]:
    """The bodies of a piece; sleeves, which lie inside tubes, are left out."""
    bodies = [member_mesh(m, piece) for m in piece.members if m.sleeve_of is None]
    for panel in piece.panels:
        bodies += [
            _box(board.low, board.high, piece.mark_of[f"{panel.name} {board.role} {k + 1}"], panel.name, "panel")
            for k, board in enumerate(panel.boards)
        ]
    for item in piece.hardware:
        bodies += hardware_meshes(item, piece.mark_of[item.name])
    return tuple(bodies)


def member_mesh(member: Member, piece: Piece) -> Mesh:
    """The outside of a trimmed member, its ends closed; inside of tubes is not modelled here."""
    outline = member.stock.section.outline(SIDES)
    rings = _rings(member, piece, outline)
    count, sides = len(rings), len(outline)
    closed = member.path.closed
    vertices = rings.reshape(-1, 3)
    faces = _side_faces(count, sides, closed)
    edges = [_long_edges(count, sides, _sharp_corners(outline), closed)]
    if not closed:
        cap = _cap(member.stock.section)
        faces = np.vstack([faces, cap[:, ::-1], cap + (count - 1) * sides])
        ring = np.column_stack([np.arange(sides), np.roll(np.arange(sides), -1)])
        edges += [ring, ring + (count - 1) * sides]
    if float(np.cross(*member.body.frame) @ -member.body.outward(0)) < 0:
        faces = faces[:, ::-1]
    return Mesh(piece.mark_of[member.name], member.name, "member", vertices, faces, np.vstack(edges))


def hardware_meshes(item: Hardware, mark: str) -> list[Mesh]:
    """Wheels and plates of casters, feet as cylinders, fittings of known size as boxes; screws are not drawn."""
    if item.kind == "caster":
        return _caster(item, mark)
    if item.kind == "foot":
        base = item.at - np.array([0, 0, item.drop])
        return [_cylinder(base, np.eye(3)[2] * item.drop, swivel_reach(item), mark, item.name)]
    size = np.array([float(item.properties.get(f"size_{axis}", 0.0)) for axis in "xyz"])
    if item.kind == "fitting" and size.all():
        return [_box(item.at - size / 2, item.at + size / 2, mark, item.name, "hardware")]
    return []


def box_mesh(board: Board, mark: str, name: str) -> Mesh:
    """A board as a box."""
    return _box(board.low, board.high, mark, name, "panel")


def _rings(member: Member, piece: Piece, outline: Floats) -> Floats:
    """Outlines (count, sides, 3) along the member, the first and last moved to their cuts."""
    body = member.body
    parts = []
    segments = body.path.segments
    for k, segment in enumerate(segments):
        steps = int(np.ceil(segment.angle / BEND_STEP_RAD)) if isinstance(segment, Arc) else 1
        part = np.linspace(0, 1, steps + 1)
        parts.append(body.place(k, part if k == 0 else part[1:], outline))
    rings = np.vstack(parts)
    if body.path.closed:
        return rings[:-1]
    for end, at in ((0, 0), (1, -1)):
        cut = member.ends[end]
        if cut.planes or cut.copes:
            copes = tuple(piece.members[j].body for j in cut.copes)
            rings[at] += stops(body, end, outline, cut.planes, copes)[:, None] * body.outward(end)
    return rings


def _side_faces(count: int, sides: int, closed: bool) -> Ints:
    rings = np.arange(count if closed else count - 1)
    side = np.arange(sides)
    here = (rings[:, None] * sides + side).ravel()
    beside = (rings[:, None] * sides + np.roll(side, -1)).ravel()
    onward = ((rings[:, None] + 1) % count * sides + side).ravel()
    across = ((rings[:, None] + 1) % count * sides + np.roll(side, -1)).ravel()
    return np.vstack([np.column_stack([here, beside, across]), np.column_stack([here, across, onward])])


def _sharp_corners(outline: Floats) -> Ints:
    before = outline - np.roll(outline, 1, axis=0)
    after = np.roll(outline, -1, axis=0) - outline
    cross = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
    turn = np.abs(np.arctan2(cross, (before * after).sum(axis=1)))
    return np.flatnonzero(turn > SHARP_RAD)


def _long_edges(count: int, sides: int, corners: Ints, closed: bool) -> Ints:
    rings = np.arange(count if closed else count - 1)
    start = (rings[:, None] * sides + corners).ravel()
    finish = ((rings[:, None] + 1) % count * sides + corners).ravel()
    return np.column_stack([start, finish])


@lru_cache(maxsize=64)
def _cap(section: Section) -> Ints:
    """Triangles (m, 3) over the outline, counterclockwise."""
    outline = section.outline(SIDES)
    left = list(range(len(outline)))
    faces = []
    while len(left) > 3:
        ear = next(k for k in range(len(left)) if _is_ear(outline, left, k))
        faces.append([left[ear - 1], left[ear], left[(ear + 1) % len(left)]])
        left.pop(ear)
    faces.append(left)
    return np.array(faces)


def _is_ear(outline: Floats, left: list[int], k: int) -> bool:
    a, b, c = outline[left[k - 1]], outline[left[k]], outline[left[(k + 1) % len(left)]]
    if _turn(a, b, c) <= 1e-12:
        return False
    others = outline[[left[m] for m in range(len(left)) if m not in {k, (k - 1) % len(left), (k + 1) % len(left)}]]
    inside = (_turns(a, b, others) >= 0) & (_turns(b, c, others) >= 0) & (_turns(c, a, others) >= 0)
    return not bool(inside.any())


def _turn(a: Floats, b: Floats, c: Floats) -> float:
    return float((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]))


def _turns(a: Floats, b: Floats, points: Floats) -> Floats:
    return np.asarray((b[0] - a[0]) * (points[:, 1] - a[1]) - (b[1] - a[1]) * (points[:, 0] - a[0]))


def _box(low: Floats, high: Floats, mark: str, name: str, kind: str) -> Mesh:
    corners = np.array([[x, y, z] for z in (0, 1) for y in (0, 1) for x in (0, 1)])
    vertices = low + corners * (high - low)
    quads = [(0, 2, 3, 1), (4, 5, 7, 6), (0, 1, 5, 4), (2, 6, 7, 3), (0, 4, 6, 2), (1, 3, 7, 5)]
    faces = np.array([face for a, b, c, d in quads for face in ((a, b, c), (a, c, d))])
    edges = np.array([(0, 1), (2, 3), (4, 5), (6, 7), (0, 2), (1, 3), (4, 6), (5, 7), (0, 4), (1, 5), (2, 6), (3, 7)])
    return Mesh(mark, name, kind, vertices, faces, edges)


def _cylinder(base: Floats, axis: Floats, radius: float, mark: str, name: str) -> Mesh:
    """A solid cylinder from `base` along `axis` (3,), its length that of the axis."""
    unit = axis / np.linalg.norm(axis)
    first = np.cross(unit, np.eye(3)[int(np.argmin(np.abs(unit)))])
    first /= np.linalg.norm(first)
    angles = np.linspace(0, 2 * np.pi, SIDES, endpoint=False)[:, None]
    ring = base + radius * (np.cos(angles) * first + np.sin(angles) * np.cross(unit, first))
    fan = np.column_stack([np.zeros(SIDES - 2, int), np.arange(1, SIDES - 1), np.arange(2, SIDES)])
    faces = np.vstack([_side_faces(2, SIDES, closed=False), fan[:, ::-1], fan + SIDES])
    loop = np.column_stack([np.arange(SIDES), np.roll(np.arange(SIDES), -1)])
    return Mesh(mark, name, "hardware", np.vstack([ring, ring + axis]), faces, np.vstack([loop, loop + SIDES]))


def _caster(item: Hardware, mark: str) -> list[Mesh]:
    shape = caster_shape(item)
    wheel = _cylinder(shape.hub, shape.axle, shape.wheel / 2, mark, item.name)
    return [wheel, _box(shape.fork_low, shape.fork_high, mark, item.name, "hardware")]
