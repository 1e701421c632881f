"""What the maker has to know of a set-up: what hangs over, what has no stop, what is held by hand."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fitwright.findings import Finding, Verdict, at_least
from fitwright.making.bench.flanks import SIDES, askew
from fitwright.making.bench.outlines import outlines_of
from fitwright.making.bench.pose import Posed
from fitwright.making.bench.setting import Setting
from fitwright.shop import Bench
from fitwright.units import Style

AREA = "bench"
OVERHANG_MM = 1.0
FIRM, FIRM_TIGHT = 0.05, 0.25
LOCATING = "Asada and By 1985, deterministic location"


@dataclass(frozen=True)
class Facts:
    """What the findings of one set-up are told from."""

    name: str
    made: int
    bound: int
    proven: bool
    overhang: float
    clamps_missed: int
    unsupported: int
    unsquared: tuple[str, ...]
    with_bars: str
    marked: tuple[str, ...] = ()


def findings_of(facts: Facts, pose: Posed, setting: Setting, bench: Bench, style: Style) -> tuple[Finding, ...]:
    """Every finding of one set-up."""
    found = [_blocks(facts)]
    if facts.with_bars:
        found.append(_noted(facts, "stops in holes", facts.with_bars))
    found += _over(facts, pose, setting, bench, style)
    if setting.conditioning > 0:
        found.append(
            at_least(AREA, facts.name, "how firmly the base is located", setting.conditioning, FIRM, "",
                     tight=FIRM_TIGHT - FIRM, basis=LOCATING, advice="set the two stops of one side farther apart")
        )  # fmt: skip
    else:
        found.append(
            _noted(
                facts,
                "location of the base",
                "the stops leave it free to move: clamp it where it belongs before tacking",
            )
        )
    found += _bearings(facts, pose, setting)
    return tuple(found)


def _blocks(facts: Facts) -> Finding:
    verdict = Verdict.HOLDS if facts.proven else Verdict.TIGHT
    advice = "" if facts.proven else "fewer may be possible; the search did not prove these the fewest"
    formula = f"{facts.made} made, at least {facts.bound} needed" if facts.proven else f"{facts.made} made"
    return Finding(
        AREA, facts.name, "blocks made between stops and parts", verdict, float(facts.made),
        float(facts.bound) if facts.proven else None, None, "blocks", "exact search over the holes", advice, formula,
    )  # fmt: skip


def _over(facts: Facts, pose: Posed, setting: Setting, bench: Bench, style: Style) -> list[Finding]:
    """Parts larger than the bench, and whether they stay on it."""
    if facts.overhang <= OVERHANG_MM:
        return []
    edges = _edges(pose, setting, bench, style)
    told = f"{edges} hangs over: hold it up with a stand set to the bench's height"
    found = [_noted(facts, "overhang", told)] if edges else []
    centre = pose.centre[:2] - setting.edge
    inside = min(*centre, bench.length - centre[0], bench.width - centre[1])
    found.append(
        at_least(AREA, facts.name, "centre of mass on the bench", float(inside), 0.0, "mm", tight=50.0,
                 basis="statics", advice="clamp it down before letting go: it tips off the bench")
    )  # fmt: skip
    return found


def _edges(pose: Posed, setting: Setting, bench: Bench, style: Style) -> str:
    """How far parts hang over each edge of the bench, as they are drawn on it."""
    outlines = outlines_of(pose, setting.edge)
    points = np.array([p for outline in outlines for line in outline.lines for p in line])
    low, high = -points.min(axis=0), points.max(axis=0) - np.array([bench.length, bench.width])
    told = [
        f"{style.length(float(by[axis]))} at the {SIDES[axis, sign]}"
        for sign, by in ((-1, low), (1, high))
        for axis in (0, 1)
        if by[axis] > OVERHANG_MM
    ]
    return " and ".join(told)


def _bearings(facts: Facts, pose: Posed, setting: Setting) -> list[Finding]:
    found = []
    if setting.missing:
        found.append(
            _noted(
                facts,
                "bearings without a hole",
                f"{_counted(setting.missing, 'has', 'have')} none: hold these parts by hand or by a clamp, and check "
                "them with the tape",
            )
        )
    hot = [b for b in setting.bearings if b is not None and b.hot]
    if hot:
        found.append(
            _noted(
                facts,
                "stops close to a weld",
                f"{_counted(len(hot), 'stands', 'stand')} within 50 mm of a weld: out of the way once it is tacked",
            )
        )
    skew = sorted({run.mark for run in pose.runs if askew(run)})
    if skew:
        found.append(
            _noted(
                facts,
                "parts that run askew",
                f"{', '.join(skew)} {'runs' if len(skew) == 1 else 'run'} along no row of holes: cut a block to that "
                "angle, and check with the tape",
            )
        )
    if facts.clamps_missed:
        found.append(
            _noted(
                facts,
                "clamps",
                f"{_counted(facts.clamps_missed, 'place is', 'places are')} out of reach of the clamps: use magnets or "
                "a weight there",
            )
        )
    if facts.unsupported:
        found.append(
            _noted(
                facts,
                "parts above the bench",
                f"no room for a block under {facts.unsupported} of them: hold by hand while tacking",
            )
        )
    if facts.marked:
        told = f"{', '.join(facts.marked)}: what a block would bear on lies under it, so mark its place with the tape"
        found.append(_noted(facts, "parts set by a mark", told))
    if facts.unsquared:
        found.append(
            _noted(
                facts, "squares", f"no square is tall enough for {', '.join(facts.unsquared)}: plumb them with a level"
            )
        )
    return found


def left_out_finding(name: str, joints: tuple[str, ...]) -> Finding:
    """Joints that the subassemblies asked for leave open; the first three by name."""
    told = ", ".join(joints[:3]) + (f" and {len(joints) - 3} more" if len(joints) > 3 else "")
    advice = f"{told}: name these parts in a subassembly, or add one of everything at the end"
    return Finding(
        AREA, name, "joints that no subassembly holds", Verdict.TIGHT, float(len(joints)), 0.0, None, "joints",
        "the job's subassemblies", advice,
    )  # fmt: skip


def _counted(count: int, one: str, many: str) -> str:
    return f"{count} {one if count == 1 else many}"


def _noted(facts: Facts, check: str, advice: str) -> Finding:
    return Finding(AREA, facts.name, check, Verdict.TIGHT, advice=advice)
