"""Everything that could be done to what is made, each with what it does to the finished piece for one unit of it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from fitwright.mechanics.model import Floats
from fitwright.mechanics.variation import Variation
from fitwright.mechanics.variation.pulling import pulls
from fitwright.mechanics.variation.setting import pulls_ends
from fitwright.mechanics.variation.sources import bends_of
from fitwright.truing.progress import Made

# Effort, in parts of one outcome that is as far off as it may be, squared: a correction is worth making when it takes
# off more than this. Common practice: packing a foot is nothing, a bend on a loose part little, a pull some minutes, a
# tack a quarter of an hour.
EFFORT = {"shim": 0.002, "bend": 0.01, "tack": 0.3, "pull": 0.015, "welded bend": 0.08}
STRONGEST_N = 2500.0
"""A turnbuckle or a screw clamp and one person; beyond it the frame or the clamp gives first: common practice."""
SHIM_INCH, SHIM_METRIC = 25.4 / 128, 0.2
"""Thinnest packing, or the least that a threaded stem is turned, an eighth of a turn: common practice."""


@dataclass(frozen=True, eq=False)
class Option:
    """Something that can be done.

    key: of the correction in the mechanics: an elementary error, or "pull:" and its number. effect: (o,) on the
    outcomes for one unit [mm or rad]. step, most: by which it can be done, and how far at most, in the unit; one_way:
    only upward (packing is put in, not taken out). only: the one amount that is any good, None for any; due: it is done
    in any case. before: on a loose part, before anything is joined.
    """

    kind: str
    key: str
    subject: str
    effect: Floats
    step: float
    most: float
    effort: float
    before: bool = False
    one_way: bool = False
    force: float = 0.0
    elastic: float = 0.0
    start: Floats | None = None
    end: Floats | None = None
    places: tuple[str, ...] = ()
    only: float | None = None
    due: bool = False


BEND_LEAST = math.radians(0.3)
"""A loose bend that is off by more is touched up: what a square shows at arm's length (common practice)."""
TRIM_LEAST, TRIM_STEP = 0.5, 0.1
BEND_STEP, BEND_MOST = math.radians(0.1), math.radians(6.0)
PULL_STEP, PULL_MOST = 0.5, 25.0
TACK_STEP, TACK_MOST = math.radians(0.05), math.radians(2.0)


def options(setting: Variation, made: Made, errors: Floats, inch: bool) -> Iterator[Option]:
    """Everything that this piece allows as far as it is made; errors: (e,) elementary ones as they probably are."""
    column = {effect.key: i for i, effect in enumerate(setting.found)}
    yield from _bends(setting, made, column, errors)
    yield from _trims(setting, made, column, errors)
    yield from _tacks(setting, made, column)
    if made.stages == len(setting.stages) and made.stages > 0:
        yield from _shims(setting, column, inch)
        yield from _pulls(setting)


def _bends(setting: Variation, made: Made, column: dict[str, int], errors: Floats) -> Iterator[Option]:
    """Bends touched up: on a loose part to the angle asked for; on a joined one what it does to the finished piece."""
    finished = {a.name: i for i, a in enumerate(setting.actions) if a.kind == "bend"}
    for key, i in column.items():
        kind, _, rest = key.partition(":")
        if kind != "bend" or int(rest.split(":")[0]) not in made.members:
            continue
        loose = int(rest.split(":")[0]) in made.loose
        place = setting.found[i].place
        effect = setting.felt[:, i] if loose else setting.corrections[:, finished[place]]
        effort = EFFORT["bend"] if loose else EFFORT["welded bend"]
        only = round(-float(errors[i]) / BEND_STEP) * BEND_STEP if loose else None
        due = only is not None and abs(only) > BEND_LEAST
        if loose and not due:
            continue
        yield Option("bend", key, place, effect, BEND_STEP, BEND_MOST, effort, before=loose, only=only, due=due)


def _trims(setting: Variation, made: Made, column: dict[str, int], errors: Floats) -> Iterator[Option]:
    """End legs that were measured and are too long, while the part is loose."""
    for k, end in sorted(made.legs):
        longer = leg_error(setting, k, end, errors)
        if k in made.loose and longer > TRIM_LEAST:
            i = column[f"tip:{k}:{end}"]
            yield Option(
                "trim", f"tip:{k}:{end}", setting.found[i].place, setting.felt[:, i], TRIM_STEP, longer, EFFORT["bend"],
                before=True, only=-longer, due=True,
            )  # fmt: skip


def leg_error(setting: Variation, k: int, end: int, errors: Floats) -> float:
    """How much longer an end leg of a bent part is than drawn, from its bend [mm]."""
    at = {effect.key: float(errors[i]) for i, effect in enumerate(setting.found)}
    last = len(bends_of(setting.framed, k))
    moved = at.get(f"place:{k}:1", 0.0) if end == 0 else -at.get(f"place:{k}:{last}", 0.0)
    return at.get(f"tip:{k}:{end}", 0.0) + moved


def _tacks(setting: Variation, made: Made, column: dict[str, int]) -> Iterator[Option]:
    """A tacked joint cut, its branch turned a little or set off, and tacked again."""
    for i, meeting in enumerate(setting.parts.meetings if not made.welded else ()):
        if not any(set(meeting.members) <= set(group) for group in made.tacked) or meeting.seat.kind == "bolted":
            continue
        for turn in ("pull_run", "pull_across"):
            at = column[f"{turn}:{i}"]
            point = setting.parts.model.nodes[meeting.nodes[0]]
            yield Option(
                "tack", f"{turn}:{i}", setting.found[at].place, setting.felt[:, at], TACK_STEP, TACK_MOST,
                EFFORT["tack"], start=point, end=point + 80.0 * meeting.axes[1 if turn == "pull_run" else 2],
            )  # fmt: skip


def _shims(setting: Variation, column: dict[str, int], inch: bool) -> Iterator[Option]:
    step = SHIM_INCH if inch else SHIM_METRIC
    for f, foot in enumerate(setting.parts.feet):
        at = column[f"foot:{f}"]
        yield Option(
            "shim", f"foot:{f}", foot.name, setting.felt[:, at], step, 12.0, EFFORT["shim"], one_way=True,
            start=foot.point, end=foot.point - np.array([0.0, 0.0, 60.0]),
        )  # fmt: skip


def _pulls(setting: Variation) -> Iterator[Option]:
    """Pulls that one person can make; one unit is 1 mm nearer for good."""
    ends = pulls_ends(setting)
    for pull in pulls(setting):
        if pull.force > STRONGEST_N or pull.own < 1.0:
            continue
        start, end = ends[pull.name]
        effort = EFFORT["pull"] * (1 + pull.force / STRONGEST_N)
        yield Option(
            "pull", f"pull:{pull.name}", pull.name, pull.set / pull.own, PULL_STEP, PULL_MOST, effort,
            force=pull.force, elastic=pull.elastic, start=start, end=end, places=pull.places,
        )  # fmt: skip
