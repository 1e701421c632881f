"""Numbers to read with a tape after tacking: outside to outside, between points that a tape can be hooked on."""

from __future__ import annotations

import csv
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

import numpy as np
from numpy.typing import NDArray

from fitwright.making.bench.flanks import SIDES
from fitwright.making.bench.model import Check
from fitwright.making.bench.pose import Posed
from fitwright.piece.path import Arc
from fitwright.units import Style

Floats = NDArray[np.float64]
Tolerance = Callable[[str, float], float | None]
"""From the kind of a check and its length [mm] to how far off it may be [mm]; None where nothing is known of it."""

ISO_13920 = "ISO 13920 class B, linear dimensions"
BUILDS = "19 of 20 virtual builds lie within it"
LEVEL_WITH_MM = 2.0
SHORTEST_MM = 60.0
CORNERS = {(-1, -1): "front left", (1, -1): "front right", (-1, 1): "back left", (1, 1): "back right"}


@dataclass(frozen=True, eq=False)
class Spot:
    """A place a tape is held to: a corner (radius 0) or the outside of a bend round its centre (2,) [mm]."""

    mark: str
    what: str
    at: Floats
    radius: float
    top: float

    def reach(self, way: Floats) -> float:
        """How far it reaches along a unit direction (2,) [mm]."""
        return float(self.at @ way) + self.radius

    def words(self, corner: str) -> str:
        """As told on the sheet."""
        return f"{self.mark} at the {corner} ({self.what})"


def iso_13920(length: float, grade: str = "B") -> float:
    """How far a welded length may be off [mm].

    Holds for lengths from 2 mm; shorter ones take the first row, longer ones the last.
    Source: ISO 13920, table 1, linear dimensions, classes A to D.

    >>> iso_13920(864.0), iso_13920(406.0), iso_13920(1200.0), iso_13920(25.0)
    (3.0, 3.0, 4.0, 1.0)
    """
    rows = [row for row in _iso_rows() if row[0] == grade]
    return next((off for _, to, off in rows if length <= to), rows[-1][2])


@cache
def _iso_rows() -> tuple[tuple[str, float, float], ...]:
    text = files("fitwright.making.bench").joinpath("data/iso13920_linear.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(text.splitlines())
    return tuple((row["class"], float(row["to_mm"] or "inf"), float(row["tolerance_mm"])) for row in rows)


def checks_of(pose: Posed, style: Style, tolerance: Tolerance | None) -> list[Check]:
    """Diagonals, parallel distances and heights of a set-up, in the pose's axes.

    A tape over a bend reads its greatest: the centre's distance and the outer radius.
    Holds for parts whose corners stand free. Source: geometry of the drawn parts.
    """
    corners = _corners(pose)
    found: list[Check] = []

    def add(name: str, kind: str, length: float, start: Floats, end: Floats) -> None:
        if length > SHORTEST_MM and not any(c.name == name for c in found):
            ends = ((float(start[0]), float(start[1])), (float(end[0]), float(end[1])))
            own = tolerance(kind, length) if tolerance else None
            allowed, basis = (iso_13920(length), ISO_13920) if own is None else (own, BUILDS)
            found.append(Check(name, kind, length, allowed, *ends, basis))

    for name, a, b in _diagonals(pose, corners):
        start, end, length = _between(a, b)
        add(f"{name}: {a.what} of {a.mark} to {b.what} of {b.mark}", "diagonal", length, start, end)
    if len(set(corners.values())) == 1:
        _across(next(iter(corners.values())), add)
    for one, other, axis in (
        ((-1, -1), (1, -1), 0),
        ((-1, 1), (1, 1), 0),
        ((-1, -1), (-1, 1), 1),
        ((1, -1), (1, 1), 1),
    ):
        _parallel(corners, one, other, axis, add)
    top = max(run.top for run in pose.runs)
    highest = [run for run in pose.runs if run.top > top - LEVEL_WITH_MM]
    if len(pose.laid) > 1 and top > max(2 * run.reach(np.array([0, 0, 1.0])) for run in highest) + 1.0:
        middle = (highest[0].start + highest[0].end) / 2
        add(f"top of {highest[0].mark} above the bench, at four corners", "height", top, middle, middle)
    return found


def _diagonals(pose: Posed, corners: dict[tuple[int, int], Spot]) -> list[tuple[str, Spot, Spot]]:
    """The two diagonals, by name and from where to where; nothing for a single ring.

    Where the corners are no more than the two ends of one straight, as of a cross, a tape over them reads its length
    alone: then from its left or front end to the ends that reach farthest to either side.
    """
    if len(set(corners.values())) < 2:
        return []
    if not any(_narrow(corners, axis) for axis in (0, 1)):
        ways = (((-1, -1), (1, 1)), ((-1, 1), (1, -1)))
        return [(f"diagonal, {CORNERS[one]} to {CORNERS[other]}", corners[one], corners[other]) for one, other in ways]
    axis = 0 if _narrow(corners, 0) else 1
    along, side = np.eye(2)[axis], np.eye(2)[1 - axis]
    return [
        (
            f"diagonal, {SIDES[axis, -1]} to {SIDES[1 - axis, sign]}",
            _farthest(pose, -along, -sign * side),
            _farthest(pose, sign * side, along),
        )
        for sign in (-1, 1)
    ]


def _narrow(corners: dict[tuple[int, int], Spot], axis: int) -> bool:
    """Whether both corners at either end of an axis are the two edges of one sawn end."""
    pairs = [[corners[(s, t) if axis == 0 else (t, s)] for t in (-1, 1)] for s in (-1, 1)]
    return all(a.mark == b.mark and float(np.linalg.norm(a.at - b.at)) < SHORTEST_MM for a, b in pairs)


def _farthest(pose: Posed, way: Floats, then: Floats) -> Spot:
    """The spot that reaches farthest along a way, of equal ones the farthest along another."""
    return max(_spots(pose), key=lambda spot: (round(spot.reach(way), 2), round(spot.reach(then), 2)))


def _across(ring: Spot, add: Callable[..., None]) -> None:
    """A ring over its outside, both ways."""
    for axis, name in enumerate(("length along the front", "width along the left")):
        way = ring.radius * np.eye(2)[axis]
        add(f"{name}, over the ring at its widest", "width", 2 * ring.radius, ring.at - way, ring.at + way)


def _parallel(
    corners: dict[tuple[int, int], Spot],
    one: tuple[int, int],
    other: tuple[int, int],
    axis: int,
    add: Callable[..., None],
) -> None:
    if one not in corners or other not in corners or corners[one] is corners[other]:
        return
    a, b, way = corners[one], corners[other], np.eye(2)[axis]
    across = np.eye(2)[1 - axis] * one[1 - axis]
    if abs(a.reach(across) - b.reach(across)) > LEVEL_WITH_MM:
        return
    length = a.reach(-way) + b.reach(way)
    side = {(0, -1): "front", (0, 1): "back", (1, -1): "left", (1, 1): "right"}[axis, one[1 - axis]]
    word = "length" if axis == 0 else "width"
    add(f"{word} along the {side}, outside to outside", "width", length, a.at - a.radius * way, b.at + b.radius * way)


def _between(a: Spot, b: Spot) -> tuple[Floats, Floats, float]:
    """Where a tape over both goes, and what it reads."""
    run = b.at - a.at
    unit = run / max(float(np.linalg.norm(run)), 1e-9)
    start, end = a.at - a.radius * unit, b.at + b.radius * unit
    return start, end, float(np.linalg.norm(end - start))


def _corners(pose: Posed) -> dict[tuple[int, int], Spot]:
    """For each corner of the set-up the spot that reaches farthest into it."""
    spots = _spots(pose)
    found = {}
    for corner in CORNERS:
        way = np.array(corner) / np.sqrt(2)
        if spots:
            found[corner] = max(spots, key=lambda spot: (round(_square_reach(spot, way), 2), spot.radius == 0.0))
    return found


def _square_reach(spot: Spot, way: Floats) -> float:
    """A bend counts as the corner of the straights it joins, so that it is not passed over for an end further in."""
    return float(spot.at @ way) + spot.radius * float(np.abs(way).sum())


def _spots(pose: Posed) -> list[Spot]:
    """Ends and bends of every level part, at their outsides."""
    spots: list[Spot] = []
    for run in (r for r in pose.runs if r.way == "level"):
        side = np.array([-run.along[1], run.along[0]])
        tips = zip((run.start, run.end), (-1, 1), (run.first, run.last), run.tips, strict=True)
        for point, way, is_end, tip in tips:
            if is_end:
                for s in (-1, 1):
                    at = point[:2] + way * tip * run.along[:2] + s * run.half * side
                    spots.append(Spot(run.mark, "end", at, 0.0, run.top))
    for thing in pose.laid:
        for index in thing.members:
            spots += _bend_spots(pose, index)
    return spots


def _bend_spots(pose: Posed, index: int) -> list[Spot]:
    member = pose.piece.members[index]
    found = []
    for segment in member.path.segments:
        if isinstance(segment, Arc) and abs(abs(float((pose.rotation @ segment.axis)[2])) - 1) < 1e-3:
            centre = pose.seen(segment.centre[None])[0]
            outer = segment.radius + member.body.reach
            found.append(
                Spot(pose.piece.mark_of[member.name], "bend", centre[:2], outer, float(centre[2]) + member.body.reach)
            )
    return found
