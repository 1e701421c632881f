"""The walls that a hole or a stem passes: material met along a line through the piece."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.body import Body
from fitwright.piece.model import Member, Panel, Piece
from fitwright.piece.path import Straight
from fitwright.stock import Section

Floats = NDArray[np.float64]
Mask = NDArray[np.bool_]
Owner = Member | Panel

STEP = 0.5  # mm between the points looked at: no wall is thinner
FINE, ROUNDS = 24, 3  # points between two of them where material begins or ends, again and again
REACH = 120.0  # mm looked at on either side
TOUCHING = 0.6  # mm: walls nearer to one another than this are one stack
PARALLEL = 0.98  # of the cosine between a stem and a member whose open end it enters


@dataclass(frozen=True, eq=False)
class Wall:
    """Material along a line from `start` to `end` [mm] from the point looked from, and the parts it belongs to."""

    start: float
    end: float
    owners: tuple[Owner, ...]

    @property
    def thickness(self) -> float:
        """Depth of material, to a thousandth [mm]: what the search for its faces is good for."""
        return round(self.end - self.start, 3)

    @property
    def names(self) -> str:
        """What it is made of, in words."""
        return " and ".join(owner.name for owner in self.owners)


def walls(piece: Piece, at: Floats, along: Floats, back: float = 0.0, ahead: float = REACH) -> tuple[Wall, ...]:
    """The walls of metal met from `back` before to `ahead` behind a point `at` (3,) along a unit vector (3,), in order.

    Walls that touch are one, as a tube on a plate. Distances to a thousandth of a mm.
    """
    steps = np.arange(-back, ahead + STEP, STEP)
    near = _near(piece, at + steps[[0, -1], None] * along)
    inside = [(owner, _filled(owner, at + steps[:, None] * along)) for owner in near]
    filled = np.any([mask for _, mask in inside], axis=0) if inside else np.zeros(len(steps), dtype=bool)
    faces = _faces(near, at, along, steps, filled)
    return tuple(_wall(steps, start, end, inside) for start, end in _runs(steps, filled, faces))


def _faces(owners: list[Owner], at: Floats, along: Floats, steps: Floats, filled: Mask) -> Floats:
    """Where material begins or ends (b,), narrowed down between the steps (k,) where `filled` (k,) changes."""
    changes = np.flatnonzero(filled[1:] != filled[:-1])
    low, before, width = steps[changes], filled[changes], STEP
    parts = np.arange(FINE + 1) / FINE
    for _ in range(ROUNDS if len(changes) else 0):
        looked = low[:, None] + width * parts
        points = at + looked.ravel()[:, None] * along
        now = np.any([_filled(owner, points) for owner in owners], axis=0).reshape(looked.shape)
        first = np.argmax(now != before[:, None], axis=1)
        low = looked[np.arange(len(low)), np.maximum(first - 1, 0)]
        width /= FINE
    return np.asarray(low + width / 2)


def _filled(owner: Owner, points: Floats) -> Mask:
    """Which points (k, 3) lie in the metal of a member or panel (k,)."""
    if isinstance(owner, Member):
        return in_metal(owner, points)
    boxes = [((points >= b.low) & (points <= b.high)).all(axis=1) for b in owner.boards]
    return np.asarray(np.any(boxes, axis=0))


def _near(piece: Piece, line: Floats) -> list[Owner]:
    """The metal parts whose box a line between two points (2, 3) may meet."""
    low, high = line.min(axis=0) - TOUCHING, line.max(axis=0) + TOUCHING
    members = [m for m in piece.members if m.sleeve_of is None and _meets(m.body.box, low, high)]
    sheets = [p for p in piece.panels if p.stock.material.is_metal and _meets((p.low, p.high), low, high)]
    return [*members, *sheets]


def _meets(box: tuple[Floats, Floats], low: Floats, high: Floats) -> bool:
    return bool((box[0] <= high).all() and (low <= box[1]).all())


def in_metal(member: Member, points: Floats) -> Mask:
    """Which points (k, 3) lie in the metal of a member, its bore left out and its ends cut off (k,)."""
    body = member.body
    filled = np.asarray(body.distance(points) <= 0)
    hollow = _hollow(member.stock.section)
    if hollow is not None:
        filled &= ~_in_bore(body, hollow, points)
    for end in (0, 1):
        for plane in member.ends[end].planes:
            if member.path.closed:
                continue
            near = (points - body.point_at(end)) @ body.outward(end) > -body.reach * 2
            filled &= ~near | ((plane.point - points) @ plane.normal >= -1e-6)
    return filled


def open_end(piece: Piece, at: Floats, along: Floats) -> Member | None:
    """The hollow member into whose open end a stem at `at` (3,) goes along a unit vector (3,); None without one."""
    for member in piece.members:
        if member.sleeve_of is not None or _hollow(member.stock.section) is None or member.path.closed:
            continue
        for end in (0, 1):
            away = at - member.body.point_at(end)
            inward = -member.body.outward(end)
            level = float(away @ inward)
            beside = float(np.linalg.norm(away - level * inward))
            if (
                float(inward @ along) > PARALLEL
                and abs(level) < 2 * member.body.reach
                and beside < member.body.reach / 2
            ):
                return member
    return None


def bore_width(member: Member) -> float:
    """The smaller width of a hollow member's bore [mm]."""
    hollow = _hollow(member.stock.section)
    assert hollow is not None
    return 2 * min(hollow)


@cache
def _hollow(section: Section) -> tuple[float, float] | None:
    """Half the width of a section's bore along u and v [mm]; None when it has none."""
    bore = section.bore()
    if bore is None:
        return None
    half_u, half_v = np.abs(bore).max(axis=0).tolist()
    return half_u, half_v


def _in_bore(body: Body, halves: tuple[float, float], points: Floats) -> Mask:
    """Points (k,) in the hollow of the straights of a member; halves: half its widths along u and v [mm]."""
    half_u, half_v = halves
    hollow = np.zeros(len(points), dtype=bool)
    for segment, frame in zip(body.path.segments, body.frames, strict=True):
        if not isinstance(segment, Straight):
            continue
        away = points - segment.start
        along = away @ segment.direction
        u, v = (away @ frame.T).T
        beside = np.hypot(u, v) < half_u if body.section.is_round else (np.abs(u) < half_u) & (np.abs(v) < half_v)
        hollow |= beside & (along >= -1e-6) & (along <= segment.length + 1e-6)
    return hollow


def _runs(steps: Floats, filled: Mask, faces: Floats) -> list[tuple[float, float]]:
    """Start and end of each run of material, gaps that count as touching closed."""
    ends = [*([steps[0]] if filled[0] else []), *faces, *([steps[-1]] if filled[-1] else [])]
    merged: list[tuple[float, float]] = []
    for start, end in zip(ends[::2], ends[1::2], strict=True):
        if merged and start - merged[-1][1] <= TOUCHING:
            merged[-1] = (merged[-1][0], float(end))
        else:
            merged.append((float(start), float(end)))
    return merged


def _wall(steps: Floats, start: float, end: float, inside: list[tuple[Owner, Mask]]) -> Wall:
    within = (steps >= start) & (steps <= end)
    return Wall(start, end, tuple(owner for owner, mask in inside if mask[within].any()))
