"""Members before trimming: each spec copied to its places and parted at its sharp corners."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from fitwright.job.model import Drawn, End, MemberSpec
from fitwright.piece.body import Body, rotated
from fitwright.piece.drawn import origin_line, plane_normal, start_frame, support
from fitwright.piece.model import Plane
from fitwright.piece.path import Path, Vector
from fitwright.piece.placing import copies
from fitwright.piece.vectors import cross, size, unit
from fitwright.stock import Stock

Floats = NDArray[np.float64]

ACROSS = 1 - 1e-6


@dataclass(frozen=True, eq=False)
class Stick:
    """A member as placed, not yet trimmed.

    wanted: how the maker wants each end; mitres: the planes of ends that are corners of one drawn path, and partners
    the sticks that they meet there; sleeve_of: the stick whose butt it lies in.
    """

    index: int
    name: str
    part: str
    spec: MemberSpec
    stock: Stock
    body: Body
    wanted: tuple[End, End]
    mitres: tuple[Plane | None, Plane | None] = (None, None)
    partners: tuple[int | None, int | None] = (None, None)
    sleeve_of: int | None = None


def sticks_of(spec: MemberSpec, first: int) -> list[Stick]:
    """Every stick that a spec makes; their indices count on from `first`.

    Raises PathError and DrawnError, worded for the maker.
    """
    points = np.array(spec.points, dtype=float)
    drawn = Path(points, np.zeros(len(points)), spec.closed)
    frame = start_frame(spec, drawn.directions[0])
    line = origin_line(spec, frame)
    where = copies(spec.placings, lambda axis: _inset(spec, points, frame, axis))
    made: list[Stick] = []
    for number, copy in enumerate(where, 1):
        name = f"{spec.name} {number}" if len(where) > 1 else spec.name
        made += _parted(spec, name, copy.points(line), copy.directions(frame), first + len(made))
    return made


def _inset(spec: MemberSpec, points: Floats, frame: Floats, axis: int) -> tuple[float, float, float] | None:
    if spec.drawn is not Drawn.OUTSIDE:
        return None
    unit = np.eye(3)[axis]
    normal = plane_normal(points, spec.closed)
    direction = (points[1] - points[0]) / np.linalg.norm(points[1] - points[0])
    across = abs(normal @ unit) > ACROSS if normal is not None else abs(direction @ unit) < 1 - ACROSS
    if not across:
        return None
    section = spec.stock.section
    return support(section, frame, -unit), support(section, frame, unit), float(points[0] @ unit)


def _parted(spec: MemberSpec, name: str, points: Floats, frame: Floats, first: int) -> list[Stick]:
    radii = np.array(spec.radii, dtype=float)
    if spec.ring or not _sharp(spec, points, radii).any():
        path = Path(points, radii, spec.closed, spec.butt.fraction)
        body = Body(path, frame, spec.stock.section)
        return [Stick(first, name, spec.name, spec, spec.stock, body, spec.ends)]
    return _legs(spec, name, points, radii, frame, first)


def _sharp(spec: MemberSpec, points: Floats, radii: Floats) -> NDArray[np.bool_]:
    """Which vertices turn without a radius (n,)."""
    path = Path(points, np.zeros(len(points)), spec.closed)
    return np.asarray((path.turns > 1e-6) & (radii <= 0))


def _legs(spec: MemberSpec, name: str, points: Floats, radii: Floats, frame: Floats, first: int) -> list[Stick]:
    runs = _runs(_sharp(spec, points, radii), len(points), spec.closed)
    frames = _frames_at(points, radii, spec.closed, frame)
    round_trip = spec.closed and len(runs) > 0
    made: list[Stick] = []
    for k, run in enumerate(runs):
        before = (k - 1) % len(runs) if k > 0 or round_trip else None
        after = (k + 1) % len(runs) if k < len(runs) - 1 or round_trip else None
        ends = (
            End.AUTO if before is not None else spec.ends[0],
            End.AUTO if after is not None else spec.ends[1],
        )
        inner = np.array([0.0, *radii[run[1:-1]], 0.0])
        body = Body(Path(points[run], inner), frames[run[0]], spec.stock.section)
        mitres = (
            None if before is None else _mitre(points, runs[before][-2:], run[:2], flip=True),
            None if after is None else _mitre(points, run[-2:], runs[after][:2], flip=False),
        )
        partners = (None if before is None else first + before, None if after is None else first + after)
        label = f"{name} leg {k + 1}"
        made.append(Stick(first + k, label, spec.name, spec, spec.stock, body, ends, mitres, partners))
    return made


def _runs(sharp: NDArray[np.bool_], count: int, closed: bool) -> list[list[int]]:
    """Vertex indices of each stretch between sharp corners."""
    corners = [int(k) for k in np.flatnonzero(sharp)]
    if not closed:
        stops = [0, *corners, count - 1]
        return [list(range(a, b + 1)) for a, b in pairwise(stops)]
    pairs = zip(corners, [*corners[1:], corners[0] + count], strict=True)
    return [[k % count for k in range(a, b + 1)] for a, b in pairs]


def _frames_at(points: Floats, radii: Floats, closed: bool, frame: Floats) -> list[Floats]:
    """The section's frame (2, 3) on the leg that leaves each vertex, carried round every corner."""
    path = Path(points, np.zeros(len(points)), closed)
    frames = [frame]
    for k in range(1, len(path.directions)):
        axis = cross(path.directions[k - 1], path.directions[k])
        turn = size(axis)
        frames.append(rotated(frames[-1], axis / turn, float(path.turns[k])) if turn > 1e-9 else frames[-1])
    return frames


def _mitre(points: Floats, before: list[int], after: list[int], *, flip: bool) -> Plane:
    arrive = points[before[1]] - points[before[0]]
    leave = points[after[1]] - points[after[0]]
    normal: Vector = unit(unit(arrive) + unit(leave))
    return Plane(points[after[0]], -normal if flip else normal)
