"""The words of a correction: what to do, by how much, how far beyond, and what then remains."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from fitwright.job.readings import Of, Quantity
from fitwright.mechanics.model import Floats
from fitwright.mechanics.variation import Variation
from fitwright.mechanics.variation.sources import bends_of
from fitwright.truing.correcting import Chosen
from fitwright.truing.model import Effect, Touch
from fitwright.truing.options import Option
from fitwright.truing.wanting import Wants
from fitwright.units import Style

SHOWN = 4
SHARE_SHOWN = 0.1
PLASTIC = 1.27
"""Plastic over elastic section modulus of a thin round tube, 4/pi: Timoshenko and Young, Theory of Structures (from
memory)."""
PULL_CAUTION = (
    "Clamp the piece down where it must not move, stand clear of the line of the pull, use a turnbuckle or a screw "
    "clamp and never a winch; look at the welds before and after. The force is worked out, not measured."
)
HEAT_CAUTION = "Wear gloves and eye protection; a tack ground through can spring open."


def touch_of(one: Chosen, setting: Variation, wants: Wants, off: Floats, spread: Floats, style: Style) -> Touch:
    """A correction told; off: (o,) before it [mm], spread: (o,) one deviation of what is known."""
    option, amount = one.option, one.amount
    after = off + amount * option.effect
    needed = option.due or bool(
        np.any((np.abs(wants.forms @ off) > 1) & (np.abs(wants.forms @ after) < 0.8 * np.abs(wants.forms @ off)))
    )
    beyond = _beyond(option, amount, setting)
    return Touch(
        kind=option.kind,
        subject=option.subject,
        words=_WORDS[option.kind](option, amount, beyond, setting, style),
        amount=amount,
        effort=option.effort,
        effects=tuple(_effects(setting, wants, off, after, spread)),
        needed=needed,
        beyond=beyond,
        force=option.force,
        start=_point(option.start),
        end=_point(option.end),
        caution={"pull": PULL_CAUTION, "tack": HEAT_CAUTION}.get(option.kind, ""),
        key=option.key,
    )


def _point(at: Floats | None) -> tuple[float, float, float] | None:
    return None if at is None else (float(at[0]), float(at[1]), float(at[2]))


def _beyond(option: Option, amount: float, setting: Variation) -> float:
    """How much springs back when it is let go: [mm] of a pull, [rad] of a bend; 0 else.

    Holds for a bend held close to both sides, elastic-perfectly plastic, unloading elastically along its whole arc.
    Source: beam theory, Mp L / (E I).
    """
    if option.kind == "pull":
        return option.elastic
    if option.kind != "bend":
        return 0.0
    _, k, number = option.key.split(":")
    arc = bends_of(setting.framed, int(k))[int(number) - 1]
    stock = setting.framed.stocks[int(k)]
    section, fy = stock.section, stock.material.fy
    if fy is None:
        return 0.0
    depth = max(section.extents[1], section.extents[3])
    return PLASTIC * fy / depth * arc.length / stock.material.e


def _effects(setting: Variation, wants: Wants, off: Floats, after: Floats, spread: Floats) -> list[Effect]:
    """What it changes most, of what matters."""
    share = np.abs((after - off)[list(wants.rows)]) / wants.off
    found = [
        Effect(setting.outcomes[row].name, float(off[row]), float(after[row]), float(spread[row]))
        for row, part in sorted(zip(wants.rows, share, strict=True), key=lambda pair: -pair[1])
        if part > SHARE_SHOWN
    ][:SHOWN]
    nominal = setting.sensitivity.nominal
    before, later = wants.rock(off + nominal), wants.rock(after + nominal)
    if abs(before - later) > SHARE_SHOWN * wants.limit:
        feet = float(np.mean([spread[row] for row in wants.feet])) if wants.feet else 0.0
        found.append(Effect("gap under the foot that hangs", before, later, 2 * feet))
    return found


def _shim(option: Option, amount: float, beyond: float, setting: Variation, style: Style) -> str:
    if setting.making.level:
        return f"screw {option.subject} out by {style.fine().length(amount)}"
    return f"pack {style.fine().length(amount)} under {option.subject}"


def _bend(option: Option, amount: float, beyond: float, setting: Variation, style: Style) -> str:
    way = "close" if amount > 0 else "open"
    member, _, number = option.subject.rpartition(", bend ")
    where = "" if option.before else ", the welds beside it watched"
    return (
        f"{way} bend {number} of {member} by {style.angle(abs(amount))}{_from_to(option, amount, setting, style)}: "
        f"go {style.angle(abs(amount) + beyond)} "
        f"from where it is, {style.angle(beyond)} of it springs back; then measure{where}"
    )


def _from_to(option: Option, amount: float, setting: Variation, style: Style) -> str:
    """From which angle to which, of a loose bend."""
    if not option.before:
        return ""
    _, k, number = option.key.split(":")
    angle = bends_of(setting.framed, int(k))[int(number) - 1].angle
    return f", from {style.angle(angle - amount)} to {style.angle(angle)}"


def _trim(option: Option, amount: float, beyond: float, setting: Variation, style: Style) -> str:
    member, _, end = option.subject.rpartition(", ")
    return f"trim the {end} of {member} by {style.length(abs(amount))}: that leg is too long"


def _tack(option: Option, amount: float, beyond: float, setting: Variation, style: Style) -> str:
    i = int(option.key.split(":")[1])
    meeting = setting.parts.meetings[i]
    names = [setting.framed.piece.members[k].name for k in meeting.members]
    axis = meeting.axes[1 if option.key.startswith("pull_run") else 2]
    return (
        f"cut the tacks of {names[0]} on {names[1]} first, turn {names[1]} against it by {style.angle(abs(amount))} "
        f"{axis_words(axis * amount)}, and tack again"
    )


def axis_words(axis: Floats) -> str:
    """Which way a turn about an axis (3,) goes, in words: which side goes where.

    >>> axis_words(np.array([0.0, 0.0, 1.0]))
    '(front goes right)'
    """
    main = int(np.argmax(np.abs(axis)))
    words = {0: ("top goes front", "top goes back"), 1: ("top goes right", "top goes left")}
    words[2] = ("front goes right", "front goes left")
    return f"({words[main][0 if axis[main] > 0 else 1]})"


def _pull(option: Option, amount: float, beyond: float, setting: Variation, style: Style) -> str:
    way = "draw together" if amount > 0 else "push apart"
    one, _, other = option.subject.partition(" to ")
    return (
        f"{way} {one} and {other}: until they have moved by {style.length(abs(amount) + beyond)}, of which "
        f"{style.length(beyond)} springs back and {style.length(abs(amount))} stays; about "
        f"{style.force(option.force)}. It gives at {listed(option.places)}. "
        "Go in small steps, let go and measure each time"
    )


_WORDS = {"shim": _shim, "bend": _bend, "trim": _trim, "tack": _tack, "pull": _pull}


def listed(names: Sequence[str]) -> str:
    """Names in a row, the last with "and"; many are cut short."""
    if len(names) > SHOWN:
        return f"{', '.join(names[:SHOWN])} and {len(names) - SHOWN} more"
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def measured(of: Of, value: float, style: Style) -> str:
    """A reading's value as the shop writes it."""
    if of.angle:
        return style.angle(value)
    if of.quantity is Quantity.PAINT:
        return f"{value / 0.0254:.1f} mil" if style.unit == "inch" else f"{value * 1000:.0f} µm"
    fine = of.quantity in (Quantity.FOOT_HEIGHT, Quantity.FOOT_GAP, Quantity.TWIST, Quantity.JOINT_GAP)
    return (style.fine() if fine else style).length(value)


def degrees(rad: float) -> float:
    """[deg]."""
    return math.degrees(rad)
