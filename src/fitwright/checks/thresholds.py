"""Thresholds and gaps that casters have to cross: the push it takes, and whether the piece tips first."""

from __future__ import annotations

from dataclasses import replace
from math import inf

import numpy as np
from numpy.typing import NDArray

from fitwright.checks.carried import Bits, loadings
from fitwright.checks.climbing import Rolling, climb_ratio, gap_drop, push_to_climb, push_to_tip
from fitwright.checks.footprint import reach
from fitwright.checks.rounding import down, up
from fitwright.checks.standing import Contact
from fitwright.checks.tipping import push_of
from fitwright.findings import Finding, at_least, at_most, needs_input
from fitwright.job.model import Job
from fitwright.piece.model import Hardware, Piece
from fitwright.units import GRAVITY, POUND_FORCE

Floats = NDArray[np.float64]

AREA = "casters"
HAND_PUSH = 50 * POUND_FORCE  # N
HAND_BASIS = "statics of a rigid free wheel; 50 lb is about what one person pushes to start a cart, from memory"
TIP_BASIS = "statics, leading wheels held by the step, casters at their worst, every way of loading each side"
AXES = {"front or back": np.array([0.0, 1.0]), "left or right": np.array([1.0, 0.0])}
LARGEST_WHEEL = 500.0  # mm
MOST_OVER = 10.0  # more than this over the push that climbs is told as this


def crossing_findings(job: Job, piece: Piece, on: list[Contact], loads: Bits) -> list[Finding]:
    """What the casters have to cross, as brief: rolls_over says it."""
    return [*_thresholds(job, piece, on, loads), *_gaps(job, piece, on, loads)]


def _thresholds(job: Job, piece: Piece, on: list[Contact], loads: Bits) -> list[Finding]:
    step = job.brief.rolls_over.threshold
    if step is None:
        missing = "brief: rolls_over: {threshold: 1/2 in}, or {threshold: 0} where there is none"
        return [needs_input(AREA, "threshold", "push that climbs it", missing, basis=HAND_BASIS)]
    return _climbs(job, piece, on, loads, step, "threshold")


def _gaps(job: Job, piece: Piece, on: list[Contact], loads: Bits) -> list[Finding]:
    figure = job.style.figure
    gap = job.brief.rolls_over.gap
    radius, item = _smallest_wheel(on)
    if gap is None or radius is None:
        return []
    width = float(item.properties.get("width", 0.0))
    along = at_least(
        AREA, item.part, "tread over a gap along its way", width, gap, "mm", tight=0.1 * gap, basis="common practice",
        advice=f"take wheels wider than {job.style.length(gap)}, or bridge the gap",
        formula=f"wheel {figure(width, 0)} wide, gap {figure(gap, 0)}",
    )  # fmt: skip
    return [along, *_climbs(job, piece, on, loads, gap_drop(radius, gap), "gap")]


def _smallest_wheel(on: list[Contact]) -> tuple[float | None, Hardware]:
    items = [c.item for c in on if c.item is not None and c.item.kind == "caster"]
    known = [item for item in items if "wheel" in item.properties]
    if len(known) < len(items):
        return None, items[0]
    small = min(known, key=lambda item: float(item.properties["wheel"]))
    return float(small.properties["wheel"]) / 2, small


def _climbs(job: Job, piece: Piece, on: list[Contact], loads: Bits, step: float, what: str) -> list[Finding]:
    radius, item = _smallest_wheel(on)
    if radius is None:
        return [needs_input(AREA, what, "push that climbs it", f"parts: {item.part}: caster: wheel")]
    found = []
    for way, axis in AXES.items():
        ways = [_rolling(job, piece, on, loads, there, axis, radius) for there in loadings(loads)]
        found += [_climb(job, what, way, ways, step), _tips(job, what, way, ways, step)]
    return found


def _rolling(
    job: Job, piece: Piece, on: list[Contact], loads: Bits, there: Floats, axis: Floats, radius: float
) -> Rolling:
    """The piece pushed along an axis whichever way it tips more easily, casters at their worst.

    there: (k,) the share of each bit of load that is on it.
    """
    forces = loads.forces * there
    force = piece.mass * GRAVITY + float(forces.sum())
    centre = (piece.mass * GRAVITY * piece.centre[:2] + forces @ loads.points[:, :2]) / force
    both = np.array([axis, -axis])
    ahead = float((reach(on, both) - both @ centre).min())
    points = np.array([contact.point[:2] for contact in on]) @ axis
    return Rolling(force, max(float(np.ptp(points)), 1.0), ahead, radius, push_of(job, piece).height)


def _tip_over_climb(rolling: Rolling, step: float) -> float:
    """The push that tips it over the one that climbs; nothing where it tips without climbing, at most ten."""
    climb, tip = push_to_climb(rolling, step), push_to_tip(rolling)
    return MOST_OVER if climb == 0 else min(tip / climb if climb != inf else 0.0, MOST_OVER)


def _climb(job: Job, what: str, way: str, ways: list[Rolling], step: float) -> Finding:
    rolling = max(ways, key=lambda one: push_to_climb(one, step))
    figure, push = job.style.figure, push_to_climb(rolling, step)
    found = at_most(
        AREA, what, f"push that rolls it over toward the {way}", push, HAND_PUSH, "N",
        tight=job.brief.rules.tight * HAND_PUSH, basis=HAND_BASIS,
        advice=_wheel_advice(job, ways, step),
        formula=f"wheel radius {figure(rolling.radius, 0)}, step {figure(step, 1)}: "
        f"{climb_ratio(rolling.radius, step):.2f} "
        f"x the "
        f"weight on the leading wheels, pushed at {figure(rolling.push_height, 0)}: "
        + ("it tips before it climbs" if push == inf else f"{job.style.force(push)}"),
    )  # fmt: skip
    return found if push < inf else replace(found, value=None, margin=None)


def _tips(job: Job, what: str, way: str, ways: list[Rolling], step: float) -> Finding:
    style = job.style
    rolling = min(ways, key=lambda one: _tip_over_climb(one, step))
    climb, tip, value = push_to_climb(rolling, step), push_to_tip(rolling), _tip_over_climb(rolling, step)
    low = down(style, min(_low_push(one, step, job.brief.rules.tight) for one in ways))
    return at_least(
        AREA, what, f"push that tips it over that which climbs, toward the {way}", value, 1.0, "",
        tight=job.brief.rules.tight, basis=TIP_BASIS,
        advice=f"push lower, below {style.length(low)}, or " + _wheel_advice(job, ways, step, upright=True),
        formula=f"{style.force(rolling.weight)} x {style.figure(rolling.ahead, 0)} / "
        f"({style.figure(rolling.push_height, 0)} - "
        f"{style.figure(rolling.radius, 0)}) = "
        f"{style.force(min(tip, 1e6))} tips it; "
        + ("it does not climb" if climb == inf else f"{style.force(climb)} climbs"),
    )  # fmt: skip


def _low_push(rolling: Rolling, step: float, tight: float) -> float:
    """The height [mm] below which the push climbs before it tips, with the margin wanted.

    Tip over climb is ahead (base - ratio x) / (ratio x (base - ahead)) with x the lever over the axles: solved for x.
    """
    ratio = climb_ratio(rolling.radius, step)
    if ratio in (0.0, inf):
        return rolling.radius
    wanted = 1 + tight
    lever = rolling.ahead * rolling.base / (ratio * (wanted * (rolling.base - rolling.ahead) + rolling.ahead))
    return rolling.radius + max(0.0, lever)


def _wheel_advice(job: Job, ways: list[Rolling], step: float, upright: bool = False) -> str:
    """The smallest wheel that climbs with the margin wanted however it is loaded; upright: and that it does not tip."""
    tight = job.brief.rules.tight
    wanted, over = HAND_PUSH * (1 - tight), (1 + tight if upright else 0.0)
    for radius in np.arange(np.ceil(ways[0].radius), LARGEST_WHEEL / 2).tolist():
        larger = [replace(one, radius=radius) for one in ways]
        if all(push_to_climb(one, step) <= wanted and _tip_over_climb(one, step) >= over for one in larger):
            return f"take wheels of {job.style.length(up(job.style, 2 * radius))} or more, or lay a ramp"
    return "lay a ramp over it, or lift the piece across"
