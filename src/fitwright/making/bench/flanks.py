"""The faces of parts that a stop can bear on, at their real outside, and which of them a set-up needs."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.making.bench.pose import LEVEL, Laid, Posed, Run
from fitwright.piece.model import JointKind
from fitwright.piece.sections import outline_of

Floats = NDArray[np.float64]

SPAN_MM = 0.05  # points of an outline this near its extreme belong to one face
FEWEST_MM = 120.0  # a straight shorter than this takes one stop, not two; common practice
SHAPE_MM = 150.0  # a bent leg shorter than this keeps its own shape; common practice
SIDES = {(0, -1): "left", (0, 1): "right", (1, -1): "front", (1, 1): "back"}


@dataclass(frozen=True, eq=False)
class Flank:
    """A face seen from above: its normal along axis 0 (x) or 1 (y), pointing to -1 or +1; where it is, and from low to
    high along the other axis [mm]. end: the sawn end of a part; hollow: it is not
    square, and bears on its tips."""

    run: Run
    axis: int
    sign: int
    at: float
    low: float
    high: float
    end: bool = False
    hollow: bool = False

    @property
    def normal(self) -> Floats:
        """Outward unit normal (2,) as seen from above."""
        return np.asarray(self.sign * np.eye(2)[self.axis])

    @property
    def words(self) -> str:
        """The face as the maker sees it from the front of the bench."""
        side = SIDES[self.axis, self.sign]
        return f"{side} end" if self.end else f"{side} side"

    @property
    def span(self) -> float:
        """How long it is [mm]."""
        return self.high - self.low


@dataclass(frozen=True, eq=False)
class Slot:
    """A place where a thing is to bear on something: one of several flanks. pair: the number of the slot whose flank it
    shares, a good way off; role as in `Stop`."""

    laid: int
    options: tuple[Flank, ...]
    role: str
    pair: int | None = None


def flanks_of(run: Run) -> list[Flank]:
    """The faces of a straight that lie square to an axis of the bench: both sides of a level one, four of an upright.

    Empty for a straight that leans or runs askew. A round upright bears on a line, of no width as seen from above.
    """
    if run.way == "upright":
        return [_of_upright(run, axis, sign) for axis in (0, 1) for sign in (-1, 1)]
    axis = _normal_axis(run)
    if run.way != "level" or axis is None:
        return []
    low, high = sorted((float(run.start[1 - axis]), float(run.end[1 - axis])))
    found = []
    for sign in (-1, 1):
        at = float(run.start[axis]) + sign * run.reach(sign * np.eye(3)[axis])
        found.append(Flank(run, axis, sign, at, low, high))
    return found


def ends_of(run: Run) -> list[Flank]:
    """The ends of a level straight that are ends of its member."""
    axis = _normal_axis(run)
    if run.way != "level" or axis is None:
        return []
    found = []
    ends = ((run.start, -run.along, run.first), (run.end, run.along, run.last))
    for (point, outward, is_end), tip in zip(ends, run.tips, strict=True):
        if is_end:
            middle, sign = float(point[axis]), int(np.sign(outward[1 - axis]))
            low, high = middle - run.reach(-np.eye(3)[axis]), middle + run.reach(np.eye(3)[axis])
            at = float(point[1 - axis]) + sign * tip
            found.append(Flank(run, 1 - axis, sign, at, low, high, end=True, hollow=tip > 0.5))
    return found


def askew(run: Run) -> bool:
    """Whether a level straight runs along neither axis of the bench."""
    return run.way == "level" and _normal_axis(run) is None


def slots_of(pose: Posed) -> list[Slot]:
    """Every bearing that the set-up needs, the base's first.

    A frame or bent member: two on its first flank, one on a second square to it; each further leg of a bent one has
    one, near its free end, that keeps its shape. A loose straight: two on one flank, one where it is short; one more at
    an end where no joint sets it along. What stands on the bare bench: one each way; on another
    part it is set by spacers (see `spacers`).
    Source: 3-2-1 location; N-2-1 for what is not stiff in its plane (Cai, Hu, Yuan 1996, for sheet metal).
    """
    slots: list[Slot] = []
    for laid in sorted(pose.laid, key=lambda thing: thing is not pose.base):
        if not laid.lies:
            slots += _standing(pose, laid)
        elif laid.frame or laid.bent:
            slots += _rigid(laid, len(slots))
        else:
            slots += _loose(pose, laid, len(slots))
    return slots


def _rigid(laid: Laid, start: int) -> list[Slot]:
    """Two bearings, one square to them, and one for each further leg of a bent member."""
    runs = sorted((r for r in laid.level if r.bottom - laid.bottom < 1.0), key=lambda r: -round(r.length, 1))
    level = [(run, flanks_of(run)) for run in runs]
    usable = [(run, flanks) for run, flanks in level if flanks]
    if not usable:
        return []
    first_run, first = usable[0]
    axis = first[0].axis
    alike = [f for run, flanks in usable if abs(run.length - first_run.length) < 1.0 for f in flanks if f.axis == axis]
    if laid.bent:
        alike = first
    square = [f for _, flanks in usable for f in flanks if f.axis != axis and f.span > 20.0]
    if laid.bent and square:
        square = [f for f in square if f.run is square[0].run]
    square += [f for run in runs for f in ends_of(run) if f.axis != axis]
    slots = [Slot(laid.number, tuple(alike), "first"), Slot(laid.number, tuple(alike), "first", start)]
    if square:
        slots.append(Slot(laid.number, tuple(square), "second"))
    taken = {id(f) for f in (*alike, *square)}
    for run, flanks in usable if laid.bent else ():
        if run.length >= SHAPE_MM and not any(id(f) in taken for f in flanks):
            slots.append(Slot(laid.number, tuple(flanks), "shape"))
    return slots


def _loose(pose: Posed, laid: Laid, start: int) -> list[Slot]:
    run = max(laid.level, key=lambda r: r.length)
    flanks = tuple(flanks_of(run))
    if not flanks:
        return []
    slots = [Slot(laid.number, flanks, "member")]
    if run.length >= FEWEST_MM:
        slots.append(Slot(laid.number, flanks, "member", start))
    if not _set_along(pose, laid) and ends_of(run):
        slots.append(Slot(laid.number, tuple(ends_of(run)), "member"))
    return slots


def _set_along(pose: Posed, laid: Laid) -> bool:
    """Whether a joint at one of its own ends keeps a loose member from sliding along itself."""
    inside = {m for thing in pose.laid for m in thing.members}
    for joint in pose.piece.joints:
        if not {joint.first, joint.second} <= inside or joint.end is None:
            continue
        if joint.first == laid.members[0] or (joint.kind == JointKind.CORNER and joint.second == laid.members[0]):
            return True
    return False


def _standing(pose: Posed, laid: Laid) -> list[Slot]:
    """One bearing each way for every upright straight that stands on the bare bench."""
    bare = [run for run in feet_of(laid) if stands_on(pose, laid, run) is None]
    return [
        Slot(laid.number, tuple(f for f in flanks_of(run) if f.axis == axis), "member")
        for run in bare
        for axis in (0, 1)
    ]


def feet_of(laid: Laid) -> list[Run]:
    """The upright straights at the bottom of what stands."""
    return [run for run in laid.runs if run.way == "upright" and run.bottom - laid.bottom < 1.0]


def stands_on(pose: Posed, laid: Laid, run: Run) -> Run | None:
    """The level straight, of another thing, that an upright stands on; None on the bare bench."""
    foot = min((run.start, run.end), key=lambda point: float(point[2]))
    best: tuple[tuple[float, ...], Run | None] = ((np.inf,), None)
    for other in (r for thing in pose.laid if thing is not laid for r in thing.level):
        along = np.clip(float((foot - other.start) @ other.along), 0.0, other.length)
        gap = float(np.linalg.norm((foot - other.start - along * other.along)[:2]))
        if gap < other.half + run.half and other.top <= foot[2] + other.half + 1.0:
            # at a corner two are as near: the longer one, so that all corners of a frame are told alike
            likes = (round(gap, 1), -round(other.top, 1), -round(other.length, 1))
            best = min(best, (likes, other), key=lambda pair: pair[0])
    return best[1]


def _normal_axis(run: Run) -> int | None:
    """The axis of the bench that a level straight runs square to."""
    return next((axis for axis in (0, 1) if abs(float(run.along[axis])) < LEVEL), None)


def _of_upright(run: Run, axis: int, sign: int) -> Flank:
    seen = (outline_of(run.section, 72) @ run.frame)[:, :2] + run.start[:2]
    at = float((sign * seen[:, axis]).max())
    face = seen[sign * seen[:, axis] > at - SPAN_MM, 1 - axis]
    low, high = (float(run.start[1 - axis]),) * 2 if run.section.is_round else (float(face.min()), float(face.max()))
    return Flank(run, axis, sign, sign * at, low, high)
