"""What is squared up before it is tacked: what stands, leans, or lies above the bench without stops."""

from __future__ import annotations

from collections.abc import Set as AnySet

import numpy as np
from numpy.typing import NDArray

from fitwright.making.bench.flanks import SIDES
from fitwright.making.bench.model import Point, SquareUp
from fitwright.making.bench.outlines import outlines_of
from fitwright.making.bench.pose import ON_BENCH_MM, Laid, Posed, Run
from fitwright.making.bench.spacers import Standing
from fitwright.shop import Bench
from fitwright.units import Style

Floats = NDArray[np.float64]

LEANS_MM = 0.25  # less is not set out with a tape
LAID = "of everything laid"


def squares_of(
    pose: Posed, stopped: AnySet[int], placed: AnySet[int], bench: Bench, edge: Floats, style: Style
) -> tuple[tuple[SquareUp, ...], tuple[str, ...]]:
    """What is squared up, and what no square is tall enough for.

    stopped: members that bear on a stop; placed: numbers of things that a block, an end or a mark sets along. What
    stands and has neither is told by its sides; what leans by where its lower end stands and how far it leans.
    """
    found, short = [], []
    for thing in pose.laid:
        above = thing.lies and thing.bottom > ON_BENCH_MM and not stopped & set(thing.members)
        if thing.lies and not above:
            continue
        if leaning := _leaning(thing):
            found.append(_leant(pose, leaning, edge, style))
            continue
        run = max(thing.runs, key=lambda r: r.length) if not thing.lies else thing.level[0]
        need = thing.bottom if above else min(thing.bottom + 100.0, run.top)
        square = min((s for s in bench.squares if s.height >= need), key=lambda s: s.height, default=None)
        how = "brought over the frame below" if above else "plumb both ways"
        tool = f"with the {square.name}" if square else "with a level"
        at = run.start if not above else (run.start + run.end) / 2
        high = f", its underside {style.fine().length(thing.bottom)} above the bench" if above else ""
        words = f"{how} {tool}{high}"
        found.append(SquareUp(run.mark, run.member, square.name if square else "", _on(at, edge), words))
        if not above and thing.number not in placed and not stopped & set(thing.members):
            found.append(SquareUp(run.mark, run.member, "", _on(at, edge), _sides(pose, thing, style)))
        if square is None:
            short.append(run.mark)
    return tuple(found), tuple(dict.fromkeys(short))


def set_by_mark(pose: Posed, one: Standing, edge: Floats, style: Style) -> SquareUp:
    """An upright told by the distance of its side from the outside of what is laid, to be marked with a tape."""
    axis = int(np.argmax(np.abs(one.main.along[:2])))
    point = (one.main.start + one.low * one.main.along)[:2]
    far = (one.main.start + one.high * one.main.along)[:2]
    near = min(float(point[axis]), float(far[axis])) - float(_laid_low(pose)[axis])
    words = f"its {SIDES[axis, -1]} side marked {style.length(near)} from the {SIDES[axis, -1]} {LAID}"
    return SquareUp(one.run.mark, one.run.member, "", _on(point, edge), words)


def _leaning(thing: Laid) -> Run | None:
    """The longest straight of what stands on none that is upright, where it leans; None where it is plumb."""
    if thing.lies or any(run.way == "upright" for run in thing.runs):
        return None
    return max((run for run in thing.runs if run.way == "leaning"), key=lambda run: run.length, default=None)


def _leant(pose: Posed, run: Run, edge: Floats, style: Style) -> SquareUp:
    """Where the middle of the lower end stands, and how far the upper end lies to the sides of it.

    Source: geometry of the drawn part, ends taken half way between their longest and their shortest.
    """
    ends = run.start - run.tips[0] / 2 * run.along, run.end + run.tips[1] / 2 * run.along
    low, high = sorted(ends, key=lambda point: float(point[2]))
    place, away = low[:2] - _laid_low(pose), high - low
    ways = [
        f"{style.length(abs(float(away[axis])))} to the {SIDES[axis, int(np.sign(away[axis]))]}"
        for axis in (0, 1)
        if abs(float(away[axis])) > LEANS_MM
    ]
    words = (
        f"the middle of its lower end {style.length(float(place[0]))} from the left and "
        f"{style.length(float(place[1]))} from the front {LAID}, {style.length(float(low[2]))} above the bench; over "
        f"{style.length(float(away[2]))} of height it leans {' and '.join(ways)}"
    )
    return SquareUp(run.mark, run.member, "", _on(low, edge), words)


def _sides(pose: Posed, thing: Laid, style: Style) -> str:
    """How far in the left and the front of a thing lie from those of what is laid."""
    at = _low(pose, frozenset(thing.members)) - _laid_low(pose)
    told = [f"its {SIDES[a, -1]} side marked {style.length(float(at[a]))} from the {SIDES[a, -1]}" for a in (0, 1)]
    return f"{' and '.join(told)} {LAID}"


def _laid_low(pose: Posed) -> Floats:
    """The left and the front (2,) of everything that lies on the bench, or of everything where nothing does [mm]."""
    return _low(pose, frozenset(m for thing in pose.laid if thing.on_bench for m in thing.members))


def _low(pose: Posed, members: AnySet[int]) -> Floats:
    """The left and the front (2,) of some members as seen from above, of all where none are named [mm]."""
    seen = [o for o in outlines_of(pose, np.zeros(2)) if o.member in members or not members]
    return np.asarray(np.array([p for o in seen for line in o.lines for p in line]).min(axis=0))


def _on(point: Floats, edge: Floats) -> Point:
    """A place in the bench's own plan."""
    return (round(float(point[0] - edge[0]), 6), round(float(point[1] - edge[1]), 6))
