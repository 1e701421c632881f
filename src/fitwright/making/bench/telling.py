"""A settled set-up in the bench's own terms: holes by name, blocks by letter, places from the front left corner."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from fitwright.job.model import Job
from fitwright.making.bench.bars import BAR
from fitwright.making.bench.blocks import Letters, Wanted, gathered
from fitwright.making.bench.clamping import Held, clamps_of
from fitwright.making.bench.devices import hole_name, hole_places
from fitwright.making.bench.findings import Facts, findings_of
from fitwright.making.bench.flanks import SIDES, Flank, Slot
from fitwright.making.bench.model import (
    BenchPlan,
    Clamp,
    Point,
    Spacer,
    Stop,
    Subassembly,
    Support,
)
from fitwright.making.bench.outlines import outlines_of
from fitwright.making.bench.pose import ON_BENCH_MM, Posed, Run
from fitwright.making.bench.room import Obstacles
from fitwright.making.bench.search import Found
from fitwright.making.bench.setting import Bearing, Setting
from fitwright.making.bench.spacers import Set, by_mark, ranks_of, spacers_of
from fitwright.making.bench.squaring import set_by_mark, squares_of
from fitwright.making.bench.steps import steps_of
from fitwright.making.bench.supports import Standing, supports_of
from fitwright.making.bench.tape import Tolerance, checks_of
from fitwright.shop import Bench, Shop
from fitwright.units import Style

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Settled:
    """One way round of a set-up: how it lies, what is in the way, its slots, and the setting; found: None with bars."""

    pose: Posed
    turn: int
    beside: Obstacles
    slots: tuple[Slot, ...]
    setting: Setting
    found: Found | None
    overhang: float

    @property
    def made(self) -> int:
        """How many blocks lie between stops and parts."""
        return sum(b is not None and b.block > 0 for b in self.setting.bearings)


def told(
    settled: Settled,
    subassembly: Subassembly,
    job: Job,
    shop: Shop,
    letters: Letters,
    with_bars: str,
    tolerance: Tolerance | None,
) -> BenchPlan:
    """The plan of a settled set-up, with its blocks, supports, spacers, squares, clamps, checks, steps and findings."""
    pose, setting, bench, style = settled.pose, settled.setting, shop.bench, job.style
    edge = setting.edge
    bearings = [b for b in setting.bearings if b is not None]
    holes = hole_places(bench) + edge
    stands = supports_of(pose, settled.beside, bearings, edge, edge + np.array([bench.length, bench.width]))
    sets, _, fewest = spacers_of(pose)
    held, missed = clamps_of(bench, holes, edge, bearings, stands, settled.beside)
    wanted = _wanted(settled, stands, sets, letters)
    blocks = gathered(wanted, letters, shop, pose.piece.members[pose.base.members[0]].stock)
    stops = _stops(settled, bench, letters, style)
    supports = tuple(_support(s, edge, letters) for s in stands)
    spacers = tuple(_spacer(s, edge, letters) for s in sets)
    marked = by_mark(pose, sets)
    stopped = frozenset(b.flank.run.member for b in bearings)
    placed = frozenset([one.what.thing for one in sets] + [one.thing for one in marked])
    squares, unsquared = squares_of(pose, stopped, placed, bench, edge, style)
    squares += tuple(set_by_mark(pose, one, edge, style) for one in marked)
    clamps = tuple(_clamp(h, bench, edge, style) for h in held)
    bound = settled.found.bound if settled.found else 0
    # the least over all ways; that which was taken may need more, where the others cannot be clamped or reached
    proven = settled.found is not None and settled.found.proven and fewest and settled.made <= bound
    checks = checks_of(pose, style, tolerance)
    ranks = {**off_one_another(settled), **ranks_of(sets)}
    facts = Facts(
        subassembly.name, settled.made, bound, proven, settled.overhang, missed,
        _unsupported(pose, stands), unsquared, with_bars, tuple(dict.fromkeys(one.run.mark for one in marked)),
    )  # fmt: skip
    return BenchPlan(
        subassembly=subassembly,
        bench=bench.name,
        corner=bench.corner,
        size=(bench.length, bench.width),
        holes=tuple(_pair(p) for p in hole_places(bench).reshape(-1, 2)),
        hole_names=tuple(hole_name(bench, c, r) for c in range(bench.holes[0]) for r in range(bench.holes[1])),
        hole_diameter=bench.hole_diameter,
        turn=settled.turn,
        stops=stops,
        blocks=blocks,
        supports=supports,
        spacers=spacers,
        squares=squares,
        clamps=clamps,
        steps=steps_of(
            subassembly, pose, style, stops, blocks, supports, spacers, squares, clamps, ranks, bool(checks)
        ),
        checks=tuple(
            replace(c, start=_pair(np.array(c.start) - edge), end=_pair(np.array(c.end) - edge)) for c in checks
        ),
        outlines=outlines_of(pose, edge),
        made=settled.made,
        bound=bound,
        proven=proven,
        conditioning=setting.conditioning,
        overhang=settled.overhang,
        findings=findings_of(facts, pose, setting, bench, style),
    )


def off_one_another(settled: Settled) -> dict[int, int]:
    """How many others each thing waits for, by its number, where blocks bear off parts and not off stops."""
    pairs = {(settled.slots[b.slot].laid, b.off) for b in settled.setting.bearings if b is not None and b.off >= 0}
    pairs = {(one, other) for one, other in pairs if one != other}
    ranks: dict[int, int] = {}
    for _ in pairs:
        for one, other in pairs:
            ranks[one] = max(ranks.get(one, 0), ranks.get(other, 0) + 1)
    return ranks


def _wanted(settled: Settled, stands: Sequence[Standing], sets: Sequence[Set], letters: Letters) -> list[Wanted]:
    """Every block of a set-up; a spacer is used again along one straight."""
    found = [_of_bearing(b) for b in settled.setting.bearings if b is not None and b.block > 0]
    found += [_of_support(s) for s in stands]
    for one in found:
        letters.of(one)
    once: dict[tuple[int, str], Wanted] = {}
    for one_set in sets:
        if one_set.length:
            wanted = _of_spacer(one_set)
            once.setdefault((id(one_set.what.main), letters.of(wanted)), wanted)
    return found + list(once.values())


def _of_bearing(bearing: Bearing) -> Wanted:
    return Wanted(bearing.block, False, f"between a stop and {bearing.flank.run.mark}")


def _of_support(stand: Standing) -> Wanted:
    return Wanted(stand.height, True, f"under {stand.run.mark}")


def _of_spacer(one: Set) -> Wanted:
    return Wanted(one.length, False, f"sets {one.what.run.mark} along {one.what.main.mark}")


def _stops(settled: Settled, bench: Bench, letters: Letters, style: Style) -> tuple[Stop, ...]:
    edge, found = settled.setting.edge, []
    for slot, bearing in zip(settled.slots, settled.setting.bearings, strict=True):
        if bearing is None:
            continue
        gap = bearing.block
        found.append(
            Stop(
                kind=bearing.device.name,
                hole=_place(bench, bearing, edge, style, settled.found is not None),
                at=_pair(bearing.hole - edge),
                towards=_pair(-bearing.flank.normal),
                reach=bearing.device.face + bearing.slid,
                part=bearing.flank.run.mark,
                member=bearing.flank.run.member,
                face=face_words(settled.pose, bearing.flank),
                gap=gap,
                block=letters.of(_of_bearing(bearing)) if gap else "",
                role=slot.role,
                round=bearing.device.round,
                width=bearing.device.width,
                set_by_hand=bearing.slid > 0,
            )
        )
    return tuple(found)


def face_words(pose: Posed, flank: Flank) -> str:
    """The face as the maker finds it: its mark, inside or outside of the set-up, and where on the bench it looks."""
    run, axis = flank.run, flank.axis
    bent = pose.piece.members[run.member].path.bent
    if flank.end:
        return f"{flank.words} of {run.mark}"
    low, high = pose.low[axis], pose.high[axis]
    at = (float(run.start[axis]) - low) / max(high - low, 1e-9)
    where = "middle" if 0.35 < at < 0.65 else SIDES[axis, 1 if at > 0.5 else -1]
    side = "outside" if flank.sign * (flank.at - (low + high) / 2) > 0 else "inside"
    return f"{side} of the {where} leg of {run.mark}" if bent else f"{side} of {run.mark} at the {where}"


def _place(bench: Bench, bearing: Bearing, edge_at: Floats, style: Style, in_holes: bool) -> str:
    """The name of a stop's hole; of a bar, how far in its face stands; else the part that a block bears off."""
    at, flank, kind = bearing.hole - edge_at, bearing.flank, bearing.device.name
    if in_holes:
        return hole_name(bench, *_nearest_hole(bench, at))
    side = at[flank.axis]
    edge = "left" if flank.axis == 0 else "front"
    return f"{style.length(float(side))} from the {edge} edge" if kind.startswith(BAR) else f"off {kind}"


def _support(stand: Standing, edge: Floats, letters: Letters) -> Support:
    letter = letters.of(_of_support(stand))
    return Support(_pair(stand.at - edge), stand.run.mark, stand.run.member, stand.height, letter)


def _spacer(one: Set, edge: Floats, letters: Letters) -> Spacer:
    main, what = one.what.main, one.what
    source = _end_words(main, one.source) if one.other is None else f"the {one.other.run.mark} beside it"
    from_low = one.source == "start" or (one.other is not None and one.other.low < what.low)
    near = what.low if from_low else what.high
    far = near - one.length if from_low else near + one.length
    ends = [_pair((main.start + s * main.along)[:2] - edge) for s in (far, near)]
    letter = letters.of(_of_spacer(one)) if one.length else ""
    return Spacer(what.run.mark, what.run.member, main.mark, source, one.length, letter, ends[0], ends[1])


def _end_words(main: Run, source: str) -> str:
    """An end of a straight by where it lies on the bench."""
    way = main.along if source == "end" else -main.along
    axis = int(np.argmax(np.abs(way[:2])))
    return f"the {SIDES[axis, int(np.sign(way[axis]))]} end of {main.mark}"


def _unsupported(pose: Posed, stands: Sequence[Standing]) -> int:
    """How many things above the bench lie on nothing."""
    from fitwright.making.bench.supports import CARRIED, carriers

    held = {s.run.member for s in stands}
    above = [t for t in pose.laid if t.lies and t.bottom > ON_BENCH_MM and carriers(pose, t) < CARRIED]
    return sum(not held & set(thing.members) for thing in above)


def _clamp(held: Held, bench: Bench, edge: Floats, style: Style) -> Clamp:
    run = held.bearing.flank.run
    at = held.at - edge
    place = hole_name(bench, *held.place) if held.place is not None else edge_words(bench, at, style)
    return Clamp(held.clamp.name, place, _pair(at), _pair(held.pad - edge), run.mark, run.member)


def edge_words(bench: Bench, at: Floats, style: Style) -> str:
    """Where on an edge of the bench a point (2,) is: by the row or column of holes beside it, else by its distance.

    >>> bench = Bench("table", 1500, 1000, 900, 50, 16, first_hole=(25, 25))
    >>> edge_words(bench, np.array([0.0, 140.0]), Style.metric())
    'the left edge at row 3'
    """
    from_edges = np.array([at[0], bench.length - at[0], at[1], bench.width - at[1]])
    axis, side = divmod(int(np.argmin(from_edges)), 2)
    edge, along = SIDES[axis, 2 * side - 1], 1 - axis
    if not hole_places(bench).size:
        return f"the {edge} edge, {style.length(float(at[along]))} from the {SIDES[along, -1]}"
    column, row = hole_name(bench, *_nearest_hole(bench, at)).split("-")
    return f"the {edge} edge at {f'row {row}' if along else f'column {column}'}"


def _nearest_hole(bench: Bench, at: Floats) -> tuple[int, int]:
    """Column and row among `hole_places` of the hole nearest to a point (2,)."""
    away = np.linalg.norm(hole_places(bench) - at, axis=2)
    column, row = np.unravel_index(int(np.argmin(away)), away.shape)
    return int(column), int(row)


def _pair(point: Floats) -> Point:
    return (round(float(point[0]), 6), round(float(point[1]), 6))
