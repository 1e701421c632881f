"""What is believed of the errors of making before anything is read."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from fitwright.making.bending import BendSheet
from fitwright.mechanics.model import Floats
from fitwright.mechanics.variation import Source, Variation
from fitwright.mechanics.variation.sources import bends_of

ROTATION_RAD = math.radians(0.3)
ROOM = 1.5
"""How much wider errors are believed than the virtual builds draw them, before a reading: their spreads are those of
a careful shop, and a day in another one is no wrong reading (common practice)."""
TAKE_UP = 0.015
"""Spread of the take-up of a die that nobody measured, as a share of the arc: its neutral line lies within a tenth of
the tube's depth of the middle (from memory, of tube-bending practice)."""
TAKE_UP_MEASURED = 0.002
ROTATION = "bend_rotation"
ROTATION_BASIS = "common practice: the plane of a second bend set by an angle finder on the tube, ±1°"
SETUP = "bend_angle_setup"


@dataclass(frozen=True, eq=False)
class Prior:
    """Errors before a reading: sources, (e, s) what one unit of each makes of elementary ones, (s,) their spreads."""

    setting: Variation
    sources: tuple[Source, ...]
    mix: Floats
    spreads: Floats


def prior(setting: Variation, sheets: Mapping[str, BendSheet]) -> Prior:
    """The errors of the virtual builds; what springback is not known by widens the angle of a bending set-up.

    sheets: bend sheets by mark; a springback learnt from trials has a small spread of its own. The planes of bends,
    and the take-up of their die, which the virtual builds take as good, are given a spread, for they can be read.
    """
    drawn = setting.drawn
    doubt = _springback(setting, sheets)
    sources = [
        replace(
            source, spread=math.hypot(ROOM * source.spread, doubt.get(source.name, 0.0) if source.kind == SETUP else 0)
        )
        for source in drawn.sources
    ]
    known = {source.name for source in sources if source.kind == SETUP}
    columns = [drawn.mix]
    for name, keys in _set_ups(setting).items():
        if name not in known and doubt.get(name):
            sources.append(Source(name, SETUP, doubt[name]))
            columns.append(_column(setting, keys))
    for name, (spread, weights) in _take_ups(setting, sheets).items():
        sources.append(Source(name, "bend_take_up", spread))
        columns.append(np.array([[weights.get(effect.key, 0.0)] for effect in setting.found]))
    for effect in setting.found:
        if effect.key.startswith("turn:"):
            sources.append(Source(effect.place, ROTATION, ROTATION_RAD))
            columns.append(_column(setting, [effect.key]))
    spreads = np.array([source.spread for source in sources], dtype=np.float64)
    return Prior(setting, tuple(sources), np.hstack(columns), spreads)


def plain(setting: Variation) -> Prior:
    """The errors just as the virtual builds draw them."""
    return Prior(setting, setting.drawn.sources, setting.drawn.mix, setting.sensitivity.spreads)


def _column(setting: Variation, keys: list[str]) -> Floats:
    wanted = set(keys)
    return np.array([[1.0 if effect.key in wanted else 0.0] for effect in setting.found])


def _set_ups(setting: Variation) -> dict[str, list[str]]:
    """The bends that share one setting of the machine, as the virtual builds call it."""
    found: dict[str, list[str]] = defaultdict(list)
    for k in setting.parts.nodes_of:
        member = setting.framed.piece.members[k]
        for number, arc in enumerate(bends_of(setting.framed, k), 1):
            found[f"{member.stock.label}, {np.degrees(arc.angle):.1f}° at {arc.radius:.0f} mm"].append(
                f"bend:{k}:{number}"
            )
    return found


def _springback(setting: Variation, sheets: Mapping[str, BendSheet]) -> dict[str, float]:
    """By set-up, how far the bend that remains may be off for want of knowing the springback [rad]."""
    found: dict[str, float] = {}
    for name, keys in _set_ups(setting).items():
        _, k, number = keys[0].split(":")
        member = setting.framed.piece.members[int(k)]
        sheet = sheets.get(setting.framed.piece.mark_of.get(member.name, ""))
        if sheet is None or not sheet.steps:
            continue
        step = sheet.steps[-int(number) if sheet.backwards else int(number) - 1]
        if step.springback is not None:
            found[name] = step.springback.spread * step.springback.kept
    return found


def _take_ups(setting: Variation, sheets: Mapping[str, BendSheet]) -> dict[str, tuple[float, dict[str, float]]]:
    """By die, the spread of what one of its bends takes up [mm], and what 1 mm more does: later bends move on."""
    found: dict[str, tuple[float, dict[str, float]]] = {}
    for k in setting.parts.nodes_of:
        member, arcs = setting.framed.piece.members[k], bends_of(setting.framed, k)
        sheet = sheets.get(setting.framed.piece.mark_of.get(member.name, ""))
        if sheet is None or not sheet.steps or member.path.closed:
            continue
        arc, step = arcs[0], sheet.steps[0]
        measured = abs(step.taken_up - step.radius * step.angle) > TAKE_UP_MEASURED * step.taken_up
        spread = (TAKE_UP_MEASURED if measured else TAKE_UP) * arc.length
        name = f"take-up of {step.die or member.stock.label}"
        weights = found.setdefault(name, (spread, {}))[1]
        for number in range(2, len(arcs) + 1):
            weights[f"place:{k}:{number}"] = float(number - 1)
        if not setting.making.trim_after_bending:
            weights[f"tip:{k}:1"] = float(len(arcs))
    return found
