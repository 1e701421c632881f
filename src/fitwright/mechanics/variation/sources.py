"""Errors of making as a shop has them: which elementary errors stray together, and how far."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from fitwright.mechanics.framing import Framed
from fitwright.mechanics.model import Floats
from fitwright.mechanics.variation.effects import Effect
from fitwright.mechanics.variation.loose import Loose
from fitwright.mechanics.variation.model import Source
from fitwright.mechanics.variation.spreads import Spreads
from fitwright.mechanics.variation.stops import Stage
from fitwright.piece.path import Arc

SAME_CUT_MM = 0.5
Weights = Mapping[str, float]
Drawn = tuple[Source, Weights]


@dataclass(frozen=True)
class Making:
    """How the shop goes about it.

    stop_reach: longest piece that the saw's stop can set [mm]; 0 where there is no stop.
    trim_after_bending: legs are cut to length once bent. one_stop: all pieces of a length against one stop setting,
    also beyond its reach (a clamped batten). match_frames: a bent member made more than once is matched to the first.
    shim: the gap under a foot is measured and packed. level: feet that screw are set on the spot.
    fit_shelves: shelves are cut to the frame as it came out.
    check_bends: each bend is laid against a square and touched up.
    """

    stop_reach: float = 0.0
    trim_after_bending: bool = False
    one_stop: bool = False
    match_frames: bool = False
    shim: bool = False
    level: bool = False
    fit_shelves: bool = False
    check_bends: bool = False


@dataclass(frozen=True, eq=False)
class Drawing:
    """The errors that are drawn: sources, and (e, s) how much of each elementary error one unit of each makes."""

    sources: tuple[Source, ...]
    mix: Floats


def drawing(
    framed: Framed, parts: Loose, stages: Sequence[Stage], found: Sequence[Effect], spreads: Spreads, making: Making
) -> Drawing:
    """The errors of making, each with its spread and what it moves; what does not stray at all is left out."""
    rows = {effect.key: i for i, effect in enumerate(found)}
    if making.check_bends:
        spreads = replace(spreads, bend_angle_setup=0.0, bend_angle=min(spreads.bend_angle, spreads.match))
    drawn = [*_bends(framed, parts, spreads, making), *_cuts(framed, parts, spreads, making)]
    drawn += [*_joints(parts, spreads), *_stops(stages, spreads)]
    for effect in found:
        kind = DIRECT.get(effect.key.split(":")[0])
        if kind is not None and (kind != MEASURED or making.fit_shelves):
            drawn.append((Source(effect.place, kind, getattr(spreads, kind)), {effect.key: 1.0}))
    drawn = [pair for pair in drawn if pair[0].spread > 0]
    mix = np.zeros((len(found), len(drawn)))
    for column, (_, weights) in enumerate(drawn):
        for key, amount in weights.items():
            mix[rows[key], column] += amount
    return Drawing(tuple(source for source, _ in drawn), mix)


MEASURED = "tape"
DIRECT = {"foot": "caster_height", "survey": "survey", "shelf": "shelf_size", "measured": MEASURED}
"""Elementary errors drawn one by one, by how their keys begin; those of measuring only where shelves are fitted."""


def bends_of(framed: Framed, k: int) -> list[Arc]:
    """The bends of a member in order."""
    return [segment for segment in framed.lines[k].segments if isinstance(segment, Arc)]


def copies(framed: Framed, parts: Loose) -> list[tuple[int, ...]]:
    """Bent members that are the same thing made more than once, the first made first."""
    by_mark: dict[str, list[int]] = defaultdict(list)
    for k in parts.nodes_of:
        member = framed.piece.members[k]
        if member.path.bent:
            by_mark[framed.piece.mark_of.get(member.name, member.name)].append(k)
    return [tuple(group) for group in by_mark.values() if len(group) > 1]


def _bends(framed: Framed, parts: Loose, spreads: Spreads, making: Making) -> Iterator[Drawn]:
    """Bends share the set-up of their stock, radius and angle; each strays by itself in angle and place."""
    setups: dict[str, dict[str, float]] = defaultdict(dict)
    for k in parts.nodes_of:
        member = framed.piece.members[k]
        for number, arc in enumerate(bends_of(framed, k), 1):
            setting = f"{member.stock.label}, {np.degrees(arc.angle):.1f}° at {arc.radius:.0f} mm"
            setups[setting][f"bend:{k}:{number}"] = 1.0
    for setting, weights in setups.items():
        yield Source(setting, "bend_angle_setup", spreads.bend_angle_setup), weights
    for group in _made_together(framed, parts, making):
        for number in range(1, len(bends_of(framed, group[0])) + 1):
            place = f"{framed.piece.members[group[0]].name}, bend {number}"
            yield Source(place, "bend_angle", spreads.bend_angle), {f"bend:{k}:{number}": 1.0 for k in group}
            yield Source(place, "bend_position", spreads.bend_position), _moved(framed, group, number, making)
            for k in group[1:]:
                yield (
                    Source(f"{framed.piece.members[k].name}, bend {number}", "match", spreads.match),
                    {f"bend:{k}:{number}": 1.0},
                )


def _made_together(framed: Framed, parts: Loose, making: Making) -> Iterator[tuple[int, ...]]:
    """Members whose bends stray as one: copies when matched to the first, else each by itself."""
    matched = copies(framed, parts) if making.match_frames else []
    tied = {k for group in matched for k in group}
    yield from matched
    yield from ((k,) for k in parts.nodes_of if k not in tied)


def _moved(framed: Framed, group: Sequence[int], number: int, making: Making) -> dict[str, float]:
    """A bend made 1 mm too far along; where legs are trimmed afterwards, the end legs keep their length."""
    weights = {f"place:{k}:{number}": 1.0 for k in group}
    if making.trim_after_bending:
        weights |= {f"tip:{k}:0": -1.0 for k in group if number == 1}
        weights |= {f"tip:{k}:1": 1.0 for k in group if number == len(bends_of(framed, k))}
    return weights


def _cuts(framed: Framed, parts: Loose, spreads: Spreads, making: Making) -> Iterator[Drawn]:
    """Lengths: of pieces cut against one stop, of pieces cut to a mark, of legs trimmed after bending."""
    stops: dict[str, list[int]] = defaultdict(list)
    for k in parts.nodes_of:
        member = framed.piece.members[k]
        if making.trim_after_bending and member.path.bent and not member.path.closed:
            continue
        if making.one_stop or member.cut_length <= making.stop_reach:
            stops[f"{member.stock.label}, {round(member.cut_length / SAME_CUT_MM) * SAME_CUT_MM:.1f} mm"].append(k)
        else:
            yield Source(member.name, "tape", spreads.tape), _longer(framed, k)
    for name, group in stops.items():
        together: dict[str, float] = {}
        for k in group:
            together |= _longer(framed, k)
            yield Source(framed.piece.members[k].name, "saw_repeat", spreads.saw_repeat), _longer(framed, k)
        yield Source(name, "saw_stop", spreads.saw_stop), together
    if making.trim_after_bending:
        yield from _trims(framed, parts, spreads, making)


def _trims(framed: Framed, parts: Loose, spreads: Spreads, making: Making) -> Iterator[Drawn]:
    for group in _made_together(framed, parts, making):
        member = framed.piece.members[group[0]]
        if member.path.bent and not member.path.closed:
            for end in (0, 1):
                yield (
                    Source(f"{member.name}, end {end + 1}", "trim", spreads.trim),
                    {f"tip:{k}:{end}": 1.0 for k in group},
                )


def _longer(framed: Framed, k: int) -> dict[str, float]:
    """A blank 1 mm too long: the bends are marked from its first end; a straight piece is halved over its ends."""
    if framed.piece.members[k].path.bent:
        return {f"tip:{k}:1": 1.0}
    return {f"tip:{k}:0": 0.5, f"tip:{k}:1": 0.5}


def _joints(parts: Loose, spreads: Spreads) -> Iterator[Drawn]:
    for i, meeting in enumerate(parts.meetings):
        name = f"{parts.model.node_labels[meeting.nodes[0]]} on {parts.model.node_labels[meeting.nodes[1]]}"
        yield Source(name, "joint_gap", spreads.joint_gap), {f"gap:{i}": 1.0}
        if meeting.seat.kind == "bolted":
            for way in ("run", "across"):
                yield Source(name, "bolt_play", spreads.bolt_play), {f"play_{way}:{i}": 1.0}
            continue
        yield Source(name, "weld_shrinkage", spreads.weld_shrinkage), {f"shrink:{i}": 1.0}
        if meeting.seat.kind == "sleeved":
            yield Source(name, "joint_gap", spreads.joint_gap), {f"play_run:{i}": 1.0}
            yield Source(name, "joint_gap", spreads.joint_gap), {f"play_across:{i}": 1.0}
        for turn in ("run", "across"):
            yield Source(name, "weld_angle", spreads.weld_angle), {f"pull_{turn}:{i}": 1.0}
            if meeting.end is not None:
                yield Source(name, "saw_square", spreads.saw_square), {f"square_{turn}:{i}": 1.0}


def _stops(stages: Sequence[Stage], spreads: Spreads) -> Iterator[Drawn]:
    shared: dict[tuple[str, str], dict[str, float]] = defaultdict(dict)
    for number, stage in enumerate(stages):
        for row, stop in enumerate(stage.stops):
            key = f"stop:{number}:{row}"
            if stop.shared:
                shared[f"{stage.name}: {stop.shared}", stop.kind][key] = 1.0
            else:
                yield Source(f"{stage.name}, stop {row + 1}", stop.kind, getattr(spreads, stop.kind)), {key: 1.0}
    for (name, kind), weights in shared.items():
        yield Source(name, kind, getattr(spreads, kind)), weights
