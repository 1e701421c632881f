"""Tip-over: the slope and the push that a freestanding piece has to bear in every direction, and what would cure it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from fitwright.checks.carried import Bits, bits, carried, unplaced
from fitwright.checks.footprint import words
from fitwright.checks.held import anchor_findings, hanging_findings, leaning_findings, open_sides
from fitwright.checks.rounding import up, up_force, up_mass
from fitwright.checks.standing import AREA, Contact, anchors, contacts, floor_findings
from fitwright.checks.tipping_moment import Balance, balance, deficits, tip_moments, tip_slopes, widening
from fitwright.findings import Finding, Verdict, at_least, needs_input
from fitwright.job.model import Job
from fitwright.piece.model import Piece
from fitwright.units import GRAVITY, INCH, POUND, POUND_FORCE

Floats = NDArray[np.float64]

TILT_DEG = 10.0
TILT_BASIS = (
    "10° plane in the worst position: the tilt test of UL for equipment over 11 kg, as listed in an instrument manual; "
    "taken over for furniture, which has no one code"
)
TEST_PUSH = 10 * POUND_FORCE  # N
TEST_HEIGHT = 56 * INCH  # mm
TEST_TALL = 27 * INCH  # mm
TEST_HEAVY = 30 * POUND  # kg
TEST_BASIS = (
    "level push of ASTM F2057-23 (10 lb at up to 56 in; from memory), for want of brief: loads: push. That standard "
    "and "
    "16 CFR 1261 are for clothing storage units from 27 in and 30 lb; shelving, office and dining furniture lie outside"
)
WIDEST = 0.5  # of the height, that a base can grow on each side before nobody would build it; common practice
LOW_MM = 100.0  # ballast is laid no higher than this, or than half as much again as the casters


@dataclass(frozen=True)
class Push:
    """A level push [N] at a height [mm] and where it comes from."""

    force: float
    height: float
    basis: str


def push_of(job: Job, piece: Piece) -> Push:
    """The push of the brief, else that of a published furniture test."""
    loads = job.brief.loads
    if loads.push is not None and loads.push_height is not None:
        return Push(loads.push, loads.push_height, "statics; the push of the brief, from any side")
    return Push(TEST_PUSH, min(TEST_HEIGHT, float(piece.envelope.high[2])), TEST_BASIS)


def stability_findings(job: Job, piece: Piece) -> list[Finding]:
    """Tilt and push on the worst loading and the worst swivel; for pieces held by a wall, what the wall has to do."""
    on, loads = contacts(piece), bits(carried(job, piece))
    found = floor_findings(job, piece, on)
    found += [
        needs_input(AREA, name, "place of the load", f"a member or panel called {name}, or take it out of brief: loads")
        for name in unplaced(job, piece)
    ]
    if not on:
        return found + hanging_findings(job, piece)
    state = balance(on, piece.mass, piece.centre, loads)
    push, free = push_of(job, piece), open_sides(job, state)
    counted = push if _counts(job, piece) else replace(push, force=0.0)
    if anchors(piece):
        lacks = deficits(free, float(np.tan(np.radians(TILT_DEG))), counted.force, counted.height)
        return found + anchor_findings(job, piece, on, free, lacks)
    found += leaning_findings(job, piece, state)
    if len(free.toward) == 0:
        return found
    cure = _cure(job, piece, on, free, counted)
    tilt = _tilt(job, free, loads, any(contact.swing for contact in on), cure)
    return [*found, tilt, _in_scope(job, piece, _push(job, free, loads, push, cure))]


def _tilt(job: Job, state: Balance, loads: Bits, swivels: bool, cure: str) -> Finding:
    figure = job.style.figure
    slopes, there = tip_slopes(state)
    angles = np.degrees(np.arctan(slopes))
    worst = int(np.argmin(angles))
    base, height = _combined(state, there, worst)
    swung = ", swivel casters at their worst" if swivels else ""
    return at_least(
        AREA, "piece", f"slope at which it tips toward the {words(state.toward[worst])}", float(angles[worst]),
        TILT_DEG, "deg", tight=job.brief.rules.tight * TILT_DEG, basis=TILT_BASIS, advice=cure,
        formula=f"atan({figure(base, 0)} from the centre of mass to the edge / {figure(height, 0)} of height) = "
        f"{angles[worst]:.1f}°, {_loading(loads, there[worst])}{swung}; "
        f"toward each side: {_by_side(state, angles, '°')}",
    )  # fmt: skip


def _push(job: Job, state: Balance, loads: Bits, push: Push, cure: str) -> Finding:
    style = job.style
    moments, there = tip_moments(state)
    forces = moments / push.height
    worst = int(np.argmin(forces))
    total = state.weight + float(state.forces @ there[worst])
    force = float(forces[worst])
    return at_least(
        AREA, "piece", f"push that tips it toward the {words(state.toward[worst])}", force, push.force, "N",
        tight=job.brief.rules.tight * push.force, basis=push.basis, advice=cure,
        formula=f"{style.force(total)} x {style.figure(moments[worst] / total, 0)} / "
        f"{style.figure(push.height, 0)} = {style.force(force)}, "
        f"{_loading(loads, there[worst])}; below a friction of {max(force, 0.0) / total:.2f} on the floor it slides "
        f"instead",
    )  # fmt: skip


def _in_scope(job: Job, piece: Piece, found: Finding) -> Finding:
    """The published test push is for tall and heavy pieces: for others the brief has to say how hard one pushes."""
    if _counts(job, piece) or found.verdict is Verdict.HOLDS:
        return found
    asked = needs_input(AREA, found.subject, found.check, "brief: loads: push: {force, height}", basis=found.basis)
    why = (
        f"the published push of {job.style.force(found.limit or 0.0)} is for pieces from 27 in and 30 lb "
        "up, which this is not"
    )
    return replace(asked, value=found.value, unit=found.unit, formula=f"{found.formula}; {why}")


def _counts(job: Job, piece: Piece) -> bool:
    """Whether the push is the brief's own, or the piece tall and heavy enough for the published one."""
    low, light = float(piece.envelope.high[2]) < TEST_TALL, piece.mass < TEST_HEAVY
    return job.brief.loads.push is not None or not (low or light)


def _combined(state: Balance, there: NDArray[np.bool_], worst: int) -> tuple[float, float]:
    """Distance to the edge and height [mm] of the common centre of mass of the piece and the bits of load there."""
    on = state.forces * there[worst]
    total = state.weight + float(on.sum())
    base = (state.weight * state.base[worst] + float(on @ state.inside[worst])) / total
    return float(base), float((state.weight * state.height + on @ state.heights) / total)


def _loading(loads: Bits, there: NDArray[np.bool_]) -> str:
    """Which loads are there, in words."""
    shares = [(name, float(there[loads.owner == k].mean())) for k, name in enumerate(loads.names)]
    names = [name if share > 0.99 else f"part of {name}" for name, share in shares if share > 0]
    if not names:
        return "empty"
    return f"loaded on {', '.join(names)}" + ("" if len(names) == len(shares) else " alone")


def _by_side(state: Balance, values: Floats, unit: str) -> str:
    sides = {"left": (-1.0, 0.0), "right": (1.0, 0.0), "front": (0.0, -1.0), "back": (0.0, 1.0)}
    near = {side: int(np.argmax(state.toward @ np.array(way))) for side, way in sides.items()}
    return ", ".join(
        f"{side} {values[k]:.1f}{unit}"
        for side, k in near.items()
        if float(state.toward[k] @ np.array(sides[side])) > 0.99
    )


def _cure(job: Job, piece: Piece, on: Sequence[Contact], state: Balance, push: Push) -> str:
    """What would make both checks hold, with numbers."""
    spare = 1.0 + job.brief.rules.tight
    slope = float(np.tan(np.radians(TILT_DEG * spare)))
    more = widening(state, slope, push.force * spare, push.height)
    lacks = deficits(state, slope, push.force * spare, push.height)
    if more.max() <= 0:
        return ""
    style = job.style
    top = float(piece.envelope.high[2])
    choices = [f"set the {_noun(on)} {_apart(job, state, more)}"] if more.max() <= WIDEST * top else []
    weight, low = _ballast(state, on, slope, push.force * spare, push.height)
    if np.isfinite(weight):
        choices.append(f"lay {style.weight(up_mass(style, weight))} in the middle, no higher than {style.length(low)}")
    choices.append(
        f"hold the top, at {style.length(top)}, to the wall with a fixing good for at least "
        f"{style.force(up_force(style, float(lacks.max()) / top))}"
    )
    return ", or ".join(choices)


def _apart(job: Job, state: Balance, more: Floats) -> str:
    """How much further apart along each axis, in words."""
    said = []
    for axis, name in ((1, "front to back"), (0, "left to right")):
        part = np.abs(state.toward[:, axis])
        mine = (part >= np.sqrt(0.5) - 1e-9) & (more > 0)
        if mine.any():
            wider = 2 * float((more[mine] / part[mine]).max())
            said.append(f"{job.style.length(up(job.style, wider))} further apart {name}")
    return " and ".join(said)


def _ballast(state: Balance, on: Sequence[Contact], slope: float, push: float, height: float) -> tuple[float, float]:
    """Mass [kg] in the middle of the base, and how high it may lie [mm]; infinite where no mass would do."""
    drops = [contact.item.drop for contact in on if contact.item is not None]
    low = max(LOW_MM, 1.5 * max(drops, default=0.0))
    tilted, pushed = deficits(state, slope, 0.0, height), deficits(state, 0.0, push, height)
    arms = state.middle - low * slope
    with np.errstate(divide="ignore"):
        needs = np.maximum(_over(tilted, arms), _over(pushed, state.middle))
    return float(needs.max()) / GRAVITY, low


def _over(moments: Floats, arms: Floats) -> Floats:
    return np.where(moments <= 0, 0.0, np.where(arms > 1e-6, moments / np.maximum(arms, 1e-6), np.inf))


def _noun(on: Sequence[Contact]) -> str:
    kinds = {contact.item.kind for contact in on if contact.item is not None}
    if kinds == {"caster"}:
        return "casters"
    return "feet" if kinds <= {"foot"} else "casters and feet"
