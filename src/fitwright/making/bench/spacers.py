"""Blocks that set standing parts along the part they stand on, with as few lengths to cut as can be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from fitwright.making.bench.flanks import feet_of, flanks_of, stands_on
from fitwright.making.bench.pose import Posed, Run

SAME_MM = 0.25
FLUSH_MM = 0.5
SECONDS = 2.0


@dataclass(frozen=True, eq=False)
class Standing:
    """An upright on a level straight: where it begins and ends along it, from the straight's start [mm]; thing: number
    of what it belongs to."""

    thing: int
    run: Run
    main: Run
    low: float
    high: float


@dataclass(frozen=True, eq=False)
class Set:
    """An upright and what it is set from: "start" or "end" of the main straight, or another upright; the gap [mm]."""

    what: Standing
    source: str
    other: Standing | None
    length: float


def standing(pose: Posed) -> list[Standing]:
    """Every upright that stands on a level straight of another part, in order along it."""
    found = []
    for thing in (laid for laid in pose.laid if not laid.lies):
        for run in feet_of(thing):
            main = stands_on(pose, thing, run)
            if main is not None:
                found.append(_along(thing.number, run, main))
    return sorted(found, key=lambda s: (s.main.member, s.main.start.tolist(), s.low))


def _along(thing: int, run: Run, main: Run) -> Standing:
    axis = int(np.argmax(np.abs(main.along[:2])))
    faces = sorted(f.at for f in flanks_of(run) if f.axis == axis)
    ways = sorted((face - float(main.start[axis])) * float(np.sign(main.along[axis])) for face in (faces[0], faces[-1]))
    return Standing(thing, run, main, ways[0], ways[1])


def spacers_of(pose: Posed) -> tuple[tuple[Set, ...], int, bool]:
    """From what each upright is set, how many lengths have to be cut, and whether fewer are proven impossible.

    An upright is set from an end of the straight it stands on, or from its neighbour. A bend is no end: nothing is
    measured from it. Exact by CP-SAT; equal cost goes to the shortest blocks.
    """
    all_ = _one_a_straight(standing(pose))
    options = {k: _options(all_, k) for k in range(len(all_))}
    options = {k: ways for k, ways in options.items() if ways}
    if not options:
        return (), 0, True
    return _fewest(all_, options)


def by_mark(pose: Posed, sets: Sequence[Set]) -> list[Standing]:
    """What stands and can be set from nothing by a block, since what it would be set from lies under it."""
    done = {one.what.thing for one in sets}
    return [one for one in _one_a_straight(standing(pose)) if one.thing not in done]


def ranks_of(sets: Sequence[Set]) -> dict[int, int]:
    """How many other things each standing thing waits for, by its number: what is set from an end comes first."""
    ranks: dict[int, int] = {}
    for _ in sets:
        for one in sets:
            waits = 0 if one.other is None else ranks.get(one.other.thing, 0) + 1
            ranks[one.what.thing] = max(ranks.get(one.what.thing, 0), waits)
    return ranks


def _one_a_straight(all_: Sequence[Standing]) -> list[Standing]:
    """The uprights of one thing on one straight as one, from the first to the last: the thing is stiff."""
    found: dict[tuple[int, int], Standing] = {}
    for one in all_:
        key = (one.thing, id(one.main))
        first = found.get(key)
        found[key] = one if first is None else replace(first, high=max(first.high, one.high))
    return list(found.values())


def _options(all_: Sequence[Standing], k: int) -> list[tuple[str, int | None, float]]:
    """What one upright can be set from: source, number of the other upright, gap."""
    here, main = all_[k], all_[k].main
    ends = [("start", None, here.low + main.tips[0]), ("end", None, main.length + main.tips[1] - here.high)]
    others = [j for j in (_next(all_, k, -1), _next(all_, k, 1)) if j is not None]
    ways: list[tuple[str, int | None, float]] = [
        e for e, there in zip(ends, (main.first, main.last), strict=True) if there
    ]
    ways = ways or ([] if others else list(ends))
    for j in others:
        ways.append(("upright", j, here.low - all_[j].high if j < k else all_[j].low - here.high))
    return [(source, j, gap if gap > FLUSH_MM else 0.0) for source, j, gap in ways if gap > -FLUSH_MM]


def _next(all_: Sequence[Standing], k: int, step: int) -> int | None:
    """The nearest upright of another thing before or after one on the same straight."""
    j = k + step
    while 0 <= j < len(all_) and all_[j].main is all_[k].main:
        if all_[j].thing != all_[k].thing:
            return j
        j += step
    return None


def _fewest(
    all_: Sequence[Standing], options: dict[int, list[tuple[str, int | None, float]]]
) -> tuple[tuple[Set, ...], int, bool]:
    from ortools.sat.python import cp_model

    cp: Any = cp_model.CpModel()
    lengths = _lengths([gap for ways in options.values() for *_, gap in ways if gap])
    cut = [cp.new_bool_var(f"cut{k}") for k in range(len(lengths))]
    chosen = {(k, w): cp.new_bool_var(f"set{k}_{w}") for k, ways in options.items() for w in range(len(ways))}
    for k, ways in options.items():
        cp.add_exactly_one([chosen[k, w] for w in range(len(ways))])
        for w, (_, j, gap) in enumerate(ways):
            if gap:
                cp.add_implication(chosen[k, w], cut[_which(lengths, gap)])
            for v, (_, back, _) in enumerate(options.get(j, []) if j is not None else []):
                if back == k and j is not None and k < j:
                    cp.add_bool_or([chosen[k, w].negated(), chosen[j, v].negated()])
    _rooted(cp, options, chosen)
    longest = int(sum(lengths)) + 1 if lengths else 1
    total = sum(int(gap) * chosen[k, w] for k, ways in options.items() for w, (*_, gap) in enumerate(ways))
    cp.minimize((longest * len(all_)) * sum(cut) + total)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers, solver.parameters.max_time_in_seconds = 1, SECONDS
    status = solver.solve(cp)
    sets = [
        Set(all_[k], ways[w][0], None if (j := ways[w][1]) is None else all_[j], ways[w][2])
        for k, ways in options.items()
        for w in range(len(ways))
        if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) and solver.value(chosen[k, w])
    ]
    return tuple(sets), sum(bool(solver.value(c)) for c in cut) if sets else 0, status == cp_model.OPTIMAL


def _rooted(
    cp: Any, options: dict[int, list[tuple[str, int | None, float]]], chosen: dict[tuple[int, int], Any]
) -> None:
    """Nobody is set from one that is set from him: each row hangs on an end, in order of placing."""
    order = {k: cp.new_int_var(0, len(options), f"order{k}") for k in options}
    for k, ways in options.items():
        for w, (_, j, _) in enumerate(ways):
            if j in order:
                cp.add(order[k] >= order[j] + 1).only_enforce_if(chosen[k, w])


def _lengths(gaps: list[float]) -> list[float]:
    kept: list[float] = []
    for gap in sorted(gaps):
        if not kept or gap - kept[-1] > SAME_MM:
            kept.append(gap)
    return kept


def _which(lengths: list[float], gap: float) -> int:
    return int(np.argmin(np.abs(np.array(lengths) - gap)))
