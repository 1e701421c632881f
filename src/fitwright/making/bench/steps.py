"""The order of placing, in words that can be followed at the bench."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

import numpy as np

from fitwright.making.bench.flanks import SIDES
from fitwright.making.bench.model import Block, Clamp, Spacer, SquareUp, Stop, Subassembly, Support
from fitwright.making.bench.pose import Laid, Posed
from fitwright.units import Style

MOVED = "; moved on from one to the next"
CORRECT = "Read the check numbers; correct the bends, mark the trim at the ends, until all stops touch."


def steps_of(
    subassembly: Subassembly,
    pose: Posed,
    style: Style,
    stops: Sequence[Stop],
    blocks: Sequence[Block],
    supports: Sequence[Support],
    spacers: Sequence[Spacer],
    squares: Sequence[SquareUp],
    clamps: Sequence[Clamp],
    ranks: Mapping[int, int],
    checked: bool = True,
) -> tuple[str, ...]:
    """What to do, one thing a step: stops, blocks, parts in order, squares, clamps, tacks, the flip.

    ranks: how many others each thing waits for, by its number; checked: whether there are numbers to read.
    """
    steps = [_stops([stop for stop in stops if not stop.hole.startswith("off ")], style)] if stops else []
    uses = [*(s.block for s in stops), *(s.block for s in supports), *(s.block for s in spacers)]
    steps += [_block(block, style, uses.count(block.letter) > block.quantity) for block in blocks]
    steps += _laying(pose, ranks, stops, supports, spacers, squares)
    if clamps:
        steps.append(f"Clamp opposite the stops: {_clamping(clamps)}.")
    if len(pose.welds):
        steps.append(
            "Read the check numbers, then tack; read them again before the clamps come off."
            if checked
            else "Tack; look it over again before the clamps come off."
        )
    else:
        steps.append(CORRECT)
    return (*steps, *subassembly.flips)


def matched_steps(subassembly: Subassembly, pose: Posed) -> tuple[str, ...]:
    """The second of two equal ones: on the stops of the first, and matched on it."""
    names = _list(thing.name for thing in pose.laid)
    return (
        f"Leave the stops and blocks of {subassembly.same_as} where they are.",
        f"Lay {names} as the first was laid, against the same stops, and clamp.",
        "Read the same check numbers and tack." if len(pose.welds) else CORRECT.replace("the", "the same", 1),
        f"Lay it on {subassembly.same_as}: ends, outsides and joints must lie over one another; match it to the first "
        "before welding.",
        *subassembly.flips,
    )


def _stops(stops: Sequence[Stop], style: Style) -> str:
    by_kind: dict[str, list[str]] = {}
    for stop in stops:
        way = "" if stop.round else f" facing {SIDES[_axis(stop), int(np.sign(stop.towards[_axis(stop)]))]}"
        face = f", its face {style.fine().length(stop.reach)} from the hole," if stop.set_by_hand else ""
        by_kind.setdefault(f"{stop.kind}{way}{face}", []).append(stop.hole)
    told = [(kind, _list(dict.fromkeys(holes))) for kind, holes in by_kind.items()]
    return "Set " + "; ".join(f"{kind} {'' if ' edge' in where else 'in '}{where}" for kind, where in told) + "."


def _axis(stop: Stop) -> int:
    return int(np.argmax(np.abs(stop.towards)))


def _block(block: Block, style: Style, moved: bool = False) -> str:
    """moved: there are more places than blocks."""
    many = "piece" if block.quantity == 1 else "pieces"
    length = style.fine().length(block.length)  # as the list of blocks and the cutting sheet have it
    on = MOVED if moved else ""
    return f"Block {block.letter}: {block.quantity} {many} of {length}, {block.stock}: {block.why}{on}."


def _clamping(clamps: Sequence[Clamp]) -> str:
    """Each kind of clamp with the places where it is held."""
    by_kind: dict[str, list[str]] = {}
    for clamp in clamps:
        by_kind.setdefault(clamp.kind, []).append(clamp.hole)
    told = []
    for kind, holes in by_kind.items():
        at_edge = [hole for hole in holes if hole.startswith("the ")]
        inside = [hole for hole in holes if hole not in at_edge]
        where = ([f"in {_list(inside)}"] if inside else []) + (
            [f"on {_list(dict.fromkeys(at_edge))}"] if at_edge else []
        )
        told.append(f"{f'{len(holes)} × ' if len(holes) > 1 else ''}{kind} {' and '.join(where)}")
    return "; ".join(told)


def _laying(
    pose: Posed,
    ranks: Mapping[int, int],
    stops: Sequence[Stop],
    supports: Sequence[Support],
    spacers: Sequence[Spacer],
    squares: Sequence[SquareUp],
) -> list[str]:
    """One step for each thing; things that are laid in the same way share one."""

    held = {stop.member for stop in stops}

    def turn(thing: Laid) -> tuple[object, ...]:
        rank = ranks.get(thing.number, 0)
        bears = thing.lies and (thing.on_bench or not held.isdisjoint(thing.members))
        return (
            thing is not pose.base or rank > 0,
            not bears,
            rank if bears else 0,
            not thing.on_bench,
            thing.lies,
            rank,
            thing.bottom,
            thing.number,
        )

    order = sorted(pose.laid, key=turn)
    alike: dict[tuple[str, str], list[Laid]] = {}
    for thing in order:
        how = _how(thing, pose, stops, supports, spacers, squares)
        alike.setdefault(("Lay" if thing.lies else "Stand", how), []).append(thing)
    return [
        f"{verb} {_list(_named(t, pose) for t in things)}{how}{_held(things, pose)}."
        for (verb, how), things in alike.items()
    ]


def _held(things: Sequence[Laid], pose: Posed) -> str:
    """What stands falls over until it is tacked, where it is welded here at all."""
    if any(thing.lies or not _welded(thing, pose) for thing in things):
        return ""
    return f"; hold {'each' if len(things) > 1 else 'it'} with one tack at its foot"


def _welded(thing: Laid, pose: Posed) -> bool:
    own = set(thing.members)
    return any(pair & own and pair - own for pair in pose.weld_members)


def _named(thing: Laid, pose: Posed) -> str:
    marks = _list(dict.fromkeys(pose.piece.mark_of[pose.piece.members[k].name] for k in thing.members))
    return f"{thing.name} ({marks})"


def _how(
    thing: Laid,
    pose: Posed,
    stops: Sequence[Stop],
    supports: Sequence[Support],
    spacers: Sequence[Spacer],
    squares: Sequence[SquareUp],
) -> str:
    mine, words = set(thing.members), [*_sleeves(thing, pose), *_ends(thing)]
    against = [s for s in stops if s.member in mine]
    if against:
        words.append("against " + _list(_at(s) for s in against))
    under = [s for s in supports if s.member in mine]
    if under:
        words.append(f"on {_counted('block ' + s.block for s in under)}")
    for spacer in (s for s in spacers if s.member in mine):
        gap = f"block {spacer.block} between it and {spacer.source}" if spacer.length else f"flush with {spacer.source}"
        words.append(f"on {spacer.on}, {gap}")
    words += [s.words for s in squares if s.member in mine]
    return "".join(f", {word}" for word in dict.fromkeys(words))


def _sleeves(thing: Laid, pose: Posed) -> list[str]:
    """The sleeves of a loose part's butts: once it is tacked none can be put in."""
    sleeves = [j.sleeve for j in pose.piece.joints if j.sleeve is not None and j.first in thing.members]
    marks = dict.fromkeys(pose.piece.mark_of[pose.piece.members[k].name] for k in sleeves)
    return [] if thing.frame else [f"sleeve {mark} half in each end of its butt" for mark in marks]


def _ends(thing: Laid) -> list[str]:
    """Which way the open ends of a bent part point."""
    tips = [p for run in thing.runs for p, is_end in ((run.start, run.first), (run.end, run.last)) if is_end]
    if not thing.bent or len(tips) < 2 or not thing.lies:
        return []
    points = np.array([p[:2] for run in thing.runs for p in (run.start, run.end)])
    off = np.mean([tip[:2] for tip in tips], axis=0) - (points.min(axis=0) + points.max(axis=0)) / 2
    axis = int(np.argmax(np.abs(off)))
    return [f"its ends to the {SIDES[axis, int(np.sign(off[axis]))]}"] if abs(off[axis]) > 1.0 else []


def _at(stop: Stop) -> str:
    if stop.hole.startswith("off "):
        return f"block {stop.block} {stop.hole} ({stop.face})"
    through = f" with block {stop.block}" if stop.block else ""
    return f"{stop.hole}{through} ({stop.face})"


def _counted(words: Iterable[str]) -> str:
    found: dict[str, int] = {}
    for word in words:
        found[word] = found.get(word, 0) + 1
    return _list(f"{count} × {word}" if count > 1 else word for word, count in found.items())


def _list(words: Iterable[str]) -> str:
    told = list(words)
    return told[0] if len(told) == 1 else ", ".join(told[:-1]) + f" and {told[-1]}" if told else ""
