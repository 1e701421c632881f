"""The bench plans of a job: every set-up in its order, settled and told."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from fitwright.job.model import Job
from fitwright.making.bench.bars import BAR_HEIGHT_MM, bar_setting
from fitwright.making.bench.bearing import Grid
from fitwright.making.bench.blocks import Letters
from fitwright.making.bench.devices import devices_of
from fitwright.making.bench.errors import BenchStopped
from fitwright.making.bench.findings import left_out_finding
from fitwright.making.bench.flanks import Slot, slots_of
from fitwright.making.bench.groups import Group, groups_of, joints_left_out
from fitwright.making.bench.model import BenchPlan, GroupWish, Subassembly
from fitwright.making.bench.pose import Posed, posed, up_words
from fitwright.making.bench.room import Obstacles, obstacles
from fitwright.making.bench.search import Case, Found, lines_for, search
from fitwright.making.bench.setting import Setting, best_setting
from fitwright.making.bench.steps import matched_steps
from fitwright.making.bench.tape import Tolerance
from fitwright.making.bench.telling import Settled, told
from fitwright.piece import Piece
from fitwright.shop import Bench, Shop

Floats = NDArray[np.float64]
Progress = Callable[[int, int, str], None]

NO_HOLES = "the bench has no holes: bars clamped along its edges and blocks stand in for stops; set the bars by square"
NO_STOPS = "the shop lists no pins and no stops: bars clamped along the bench's edges and blocks stand in for them"


def bench_plans(
    piece: Piece,
    job: Job,
    shop: Shop,
    groups: Sequence[GroupWish] | None = None,
    progress: Progress | None = None,
    stop: Callable[[], bool] | None = None,
    tolerance: Tolerance | None = None,
) -> tuple[BenchPlan, ...]:
    """Every set-up of a job on the shop's bench, in the order in which they are made.

    groups: the set-ups that the maker asks for, None to have them found. progress: told (done, of how many, name).
    stop: asked between set-ups; True ends the planning. tolerance: how far off a check number may be by its kind and
    length [mm], ISO 13920 class B when None.

    Raises BenchError for a set-up that names what is not there, BenchStopped when stopped.
    Holds for benches with holes of one square pitch; parts that run askew to it are told as findings.
    """
    order = groups_of(piece, groups)
    plans: list[BenchPlan] = []
    seen: dict[tuple[object, ...], int] = {}
    letters = Letters()
    for number, group in enumerate(order):
        if stop and stop():
            raise BenchStopped(f"stopped before {group.name}: {number} of {len(order)} set-ups were planned")
        if progress:
            progress(number, len(order), group.name)
        pose = posed(piece, order, number)
        key = signature(pose)
        if key in seen:
            plans.append(_matched(plans[seen[key]], order, number, pose))
        else:
            seen[key] = number
            plans.append(_planned(piece, job, shop, order, number, pose, letters, stop, tolerance))
    if progress:
        progress(len(order), len(order), "")
    return tuple(_with_left_out(plans, joints_left_out(piece, order)))


def _with_left_out(plans: list[BenchPlan], joints: tuple[str, ...]) -> list[BenchPlan]:
    """The plans, the last one saying which joints none of them holds."""
    if not plans or not joints:
        return plans
    told = left_out_finding(plans[-1].name, joints)
    return [*plans[:-1], replace(plans[-1], findings=(*plans[-1].findings, told))]


def signature(pose: Posed) -> tuple[object, ...]:
    """What two set-ups have in common when they are equal: marks and straights, in the pose's own axes."""
    rows = [(run.mark, *sorted(tuple(np.round(p, 1).tolist()) for p in (run.start, run.end))) for run in pose.runs]
    welds = sorted(tuple(np.round(p, 1).tolist()) for p in pose.welds)
    return (tuple(sorted(rows)), tuple(welds), len(pose.laid))


def subassembly_of(order: Sequence[Group], number: int, pose: Posed, same_as: str = "") -> Subassembly:
    """The set-up told as a subassembly: what is up, what is turned over and when."""
    group, up = order[number], pose.rotation[2]
    return Subassembly(
        group.name,
        group.members,
        (float(up[0]), float(up[1]), float(up[2])),
        f"{up_words(up)} up",
        _flips(group, pose),
        tuple(order[k].name for k in group.of),
        same_as,
    )


FLIPS = {
    "when tacked": "When this side is tacked, turn it over, set it down flat, and tack the other side.",
    "when welded": "Weld what can be reached from this side; then turn it over for the other.",
    "never": "Leave it as it lies: everything is tacked and welded from this side.",
}


def _flips(group: Group, pose: Posed) -> tuple[str, ...]:
    if not len(pose.welds):
        return ()
    if group.flip:
        return (FLIPS[group.flip],)
    if not group.of:
        return (
            "When this side is tacked, turn it over about its long side, set it down flat, and tack the other side.",
        )
    if float(pose.rotation[2, 2]) > 1 - 1e-6:
        return ("It stands as it will stand; weld what can be reached, then lay it over for the undersides.",)
    return ("When everything is tacked, take it off the stops and stand it on its feet to check it before welding.",)


def _matched(first: BenchPlan, order: Sequence[Group], number: int, pose: Posed) -> BenchPlan:
    """The second of two equal set-ups: the first's plan, matched on it."""
    subassembly = subassembly_of(order, number, pose, first.subassembly.same_as or first.name)
    renamed = tuple(replace(finding, subject=subassembly.name) for finding in first.findings)
    return replace(first, subassembly=subassembly, steps=matched_steps(subassembly, pose), findings=renamed)


def _planned(
    piece: Piece,
    job: Job,
    shop: Shop,
    order: Sequence[Group],
    number: int,
    pose: Posed,
    letters: Letters,
    stop: Callable[[], bool] | None,
    tolerance: Tolerance | None,
) -> BenchPlan:
    bench, devices = shop.bench, devices_of(shop.bench)
    tried: list[Settled] = []
    for turn in _turns(bench, pose):
        # less hangs over this way round; nothing is gained by another when nothing is missing and nothing made
        if not tried or tried[-1].setting.missing or tried[-1].made:
            tried.append(_settled(bench, posed(piece, order, number, turn), turn, stop))
    best = min(tried, key=_badness)
    bars = "" if devices else NO_STOPS if bench.hole_pitch > 0 else NO_HOLES
    subassembly = subassembly_of(order, number, best.pose)
    return told(best, subassembly, job, shop, letters, bars, tolerance)


def _turns(bench: Bench, pose: Posed) -> tuple[int, ...]:
    """Quarter turns worth trying: by the holes' symmetry a half turn changes nothing; where the parts fit with room to
    spare one way, no way needs fewer blocks."""
    spare = 4 * bench.hole_pitch
    sizes = np.array([bench.length, bench.width])
    for turn, extent in ((0, pose.high[:2]), (1, pose.high[1::-1])):
        if (extent + spare <= sizes).all():
            return (turn,)
    over = [float(np.maximum(extent - sizes, 0).sum()) for extent in (pose.high[:2], pose.high[1::-1])]
    return (0, 1) if over[0] <= over[1] else (1, 0)


def _badness(settled: Settled) -> tuple[float, ...]:
    setting = settled.setting
    return (
        setting.missing,
        settled.made,
        round(settled.overhang),
        -round(setting.conditioning, 3),
        len(setting.lengths),
    )


def _settled(bench: Bench, pose: Posed, turn: int, stop: Callable[[], bool] | None) -> Settled:
    """One way round, searched and settled."""
    beside, devices = obstacles(pose), devices_of(bench)
    slots = _reachable(slots_of(pose), max((d.height for d in devices), default=BAR_HEIGHT_MM))
    if not devices:
        return _as_settled(bench, pose, turn, beside, slots, bar_setting(pose, slots, bench, beside), None)
    sizes = (bench.length, bench.width)
    grid = Grid(bench.hole_pitch, bench.holes, _first(bench), sizes)
    x, y = (lines_for(grid, axis, float(pose.high[axis]), float(pose.centre[axis])) for axis in (0, 1))
    case = Case(tuple(slots), devices, grid, beside, (x, y), (float(pose.high[0]), float(pose.high[1])))
    found = search(case, stop)
    setting = best_setting(pose, case, found, (bench.corner.endswith("left"), bench.corner.startswith("front")))
    if setting is None:
        return _as_settled(bench, pose, turn, beside, slots, bar_setting(pose, slots, bench, beside), None)
    return _as_settled(bench, pose, turn, beside, slots, setting, found)


def _as_settled(
    bench: Bench, pose: Posed, turn: int, beside: Obstacles, slots: list[Slot], setting: Setting, found: Found | None
) -> Settled:
    low, high = setting.edge, setting.edge + np.array([bench.length, bench.width])
    over = float(np.maximum(low, 0).sum() + np.maximum(pose.high[:2] - high, 0).sum())
    return Settled(pose, turn, beside, tuple(slots), setting, found, over)


def _first(bench: Bench) -> tuple[float, float]:
    """The first hole from the front left corner, wherever holes are counted from [mm]."""
    spare = [
        side - first - bench.hole_pitch * (count - 1)
        for side, first, count in zip((bench.length, bench.width), bench.first_hole, bench.holes, strict=True)
    ]
    near = (bench.corner.endswith("left"), bench.corner.startswith("front"))
    x, y = (first if is_near else left for first, left, is_near in zip(bench.first_hole, spare, near, strict=True))
    return (x, y)


def _reachable(slots: list[Slot], tallest: float) -> list[Slot]:
    """The slots that some stop is tall enough for; the rest is brought over by squares."""
    from fitwright.making.bench.bearing import BEARS_MM

    kept = [k for k, s in enumerate(slots) if any(f.run.bottom + BEARS_MM <= tallest for f in s.options)]
    return [
        replace(slots[k], pair=kept.index(p) if (p := slots[k].pair) in kept and p is not None else None) for k in kept
    ]
