"""Load cases from the brief: what the frame has to stand, one after another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fitwright.checks.climbing import climb_ratio
from fitwright.checks.thresholds import HAND_PUSH
from fitwright.checks.tipping import Push, push_of
from fitwright.job.model import Job
from fitwright.mechanics.framing import Framed
from fitwright.mechanics.framing.loading import (
    Pattern,
    Payload,
    Touch,
    half,
    mass_pattern,
    nothing,
    payload_patterns,
    push_pattern,
)
from fitwright.mechanics.model import Floats, Ints
from fitwright.units import INCH

SIDES = ((0, -1.0, "left"), (0, 1.0, "right"), (1, -1.0, "front"), (1, 1.0, "back"))
HOLLOW_MM = 6.0
"""How far the floor falls away under one foot (common practice: a quarter of an inch is a poor floor)."""
USUAL_STEP_MM = 0.125 * INCH
USUAL_STEP = "a floor joint or cable of 1/8 in, for want of a threshold in the brief (common practice)"
STOPS_DEAD = 1.0
ALL_BUT_TIPS = 0.95
RARE = 0.75
"""Share of the stress that counts in a jolt: AISC Specification 1989 (ASD), A5.2, allows a third more for loads that
pass quickly (from memory)."""
AHEAD_MM = 20.0
DOWNWARD = ("weight", "full", "single", "side")


@dataclass(frozen=True, eq=False)
class LoadCase:
    """One case. kind: weight, full, single, side, held, push, threshold or foot.

    grips: feet and braked casters hold sideways by friction; otherwise the piece is free to spread and roll.
    hollow: index of the foot under which the floor falls away. toward: direction (3,) of a push or a jolt.
    """

    name: str
    kind: str
    pattern: Pattern
    grips: bool = False
    hollow: int | None = None
    toward: Floats | None = None
    basis: str = "the loads of the brief"

    @property
    def counts(self) -> float:
        """Share of the stress that is held against the limit."""
        return RARE if self.kind == "threshold" else 1.0

    @property
    def is_downward(self) -> bool:
        """Whether only weight acts on a level floor, so that sag is looked at."""
        return self.kind in DOWNWARD


@dataclass(frozen=True, eq=False)
class Cases:
    """All cases; push: that of the brief or of a published test; touches: where it meets the piece, by side."""

    cases: tuple[LoadCase, ...]
    push: Push
    touches: dict[str, Touch]

    @property
    def counts(self) -> Floats:
        """(k,) share of each case's stress that is held against the limit."""
        return np.array([case.counts for case in self.cases])

    def of_kind(self, *kinds: str) -> Ints:
        """The numbers of the cases of some kinds."""
        return np.flatnonzero([case.kind in kinds for case in self.cases])


def load_cases(framed: Framed, job: Job) -> Cases:
    """Every case that follows from the brief.

    Own weight; all loads; each load by itself (so the worst single shelf and the top one alone are among them); the
    loads on one half of the piece, four ways; somebody leaning against it from four sides with all loads on; on
    casters, wheels that meet a threshold, four ways; on four feet or more, the floor hollow under each foot in turn.
    A load alone on top and one-sided loads use the full force of the brief on what they load.
    Source: the brief; push of ASTM F2057-23 where it has none; threshold by statics of a wheel at a step.
    """
    loads = [(part, force) for part, force in job.brief.loads.on.items() if force > 0]
    weight = mass_pattern(framed)
    payloads = payload_patterns(framed, loads)
    full = sum((pattern for _, pattern in payloads), weight)
    push = push_of(job, framed.piece)
    cases = [LoadCase("own weight", "weight", weight)]
    cases += [LoadCase(full_name(payloads), "full", full)] if payloads else []
    cases += _singles(weight, payloads) if len(payloads) > 1 else []
    cases += _sides(framed, weight, loads)
    leaning, touches = _pushes(framed, full, push)
    cases += [*leaning, *_thresholds(framed, job, full), *_hollows(framed, full)]
    return Cases(tuple(cases), push, touches)


def full_name(payloads: Sequence[tuple[Payload, Pattern]]) -> str:
    """What the case with all loads is called."""
    return "all loads on" if len(payloads) > 1 else f"{payloads[0][0].name} loaded"


def _singles(weight: Pattern, payloads: Sequence[tuple[Payload, Pattern]]) -> list[LoadCase]:
    top = max(payload.height for payload, _ in payloads)
    found = []
    for payload, pattern in payloads:
        where = ", the top one," if payload.height == top else ""
        found.append(LoadCase(f"only {payload.name}{where} loaded", "single", weight + pattern))
    return found


def _sides(framed: Framed, weight: Pattern, loads: Sequence[tuple[str, float]]) -> list[LoadCase]:
    found = []
    for axis, sign, word in SIDES:
        pattern = half(framed, loads, axis, sign)
        if not pattern.is_empty and not half(framed, loads, axis, -sign).is_empty:
            found.append(LoadCase(f"loads on the {word} half only", "side", weight + pattern))
    return found


def _pushes(framed: Framed, full: Pattern, push: Push) -> tuple[list[LoadCase], dict[str, Touch]]:
    found, touches = [LoadCase("all loads on, feet gripping", "held", full, grips=True)], {}
    for axis, sign, word in SIDES:
        toward = sign * np.eye(3)[axis]
        pattern, touches[word] = push_pattern(framed, toward, push.force, push.height)
        name = f"leaning, pushed to the {word}"
        found.append(LoadCase(name, "push", full + pattern, grips=True, toward=toward, basis=push.basis))
    return found, touches


def _thresholds(framed: Framed, job: Job, full: Pattern) -> list[LoadCase]:
    """Rolling over a threshold: the leading wheels meet it and the rest of the piece, and its loads, run on.

    The force is what it takes to lift the leading wheels over, but no more than one person pushes and no more than what
    all but lifts the trailing wheels; everything is slowed by it alike. It passes at once, and is held to yield with
    three quarters of its stress: see `RARE`.
    """
    casters = [foot for foot in framed.feet if foot.kind == "caster"]
    if len(casters) < 3 or len(casters) < len(framed.feet):
        return []
    said = job.brief.rolls_over.threshold
    step = USUAL_STEP_MM if said is None else said
    radius = min(float(c.hardware.properties.get("wheel", 0.0)) for c in casters if c.hardware) / 2
    ratio = min(climb_ratio(radius, step), STOPS_DEAD) if radius > 0 else STOPS_DEAD
    basis = "statics of a wheel at a step; " + (USUAL_STEP if said is None else "the threshold of the brief")
    return [
        LoadCase(
            f"wheels meet a threshold rolling to the {word}",
            "threshold",
            full + _jolt(framed, full, sign * np.eye(3)[axis], ratio),
            toward=sign * np.eye(3)[axis],
            basis=basis,
        )
        for axis, sign, word in (SIDES if ratio > 0 else ())
    ]


def _jolt(framed: Framed, full: Pattern, toward: Floats, ratio: float) -> Pattern:
    """Everything driven on toward (3,), and held back at the leading wheels where they touch."""
    nodes = np.array([foot.node for foot in framed.feet])
    along = framed.model.nodes[nodes] @ toward
    leading = nodes[along > along.max() - AHEAD_MM]
    centre, height = _centre(framed, full, toward)
    rear, front = float(along.min()), float(along.max())
    slow = ratio * float(np.clip((centre - rear) / max(front - rear, 1.0), 0.0, 1.0))
    slow = min(slow, HAND_PUSH / _weight(framed, full))
    slow = min(slow, ALL_BUT_TIPS * max(front - centre, 0.0) / max(height, 1.0))
    pattern = nothing(framed)
    pattern.nodal[:, :3] -= slow * full.nodal[:, 2:3] * toward
    pattern.line[:] -= slow * full.line[:, 2:3] * toward
    total = float(pattern.nodal[:, :3].sum(axis=0) @ toward + framed.lengths @ (pattern.line @ toward))
    pattern.nodal[leading, :3] -= total / len(leading) * toward
    return pattern


def _weight(framed: Framed, pattern: Pattern) -> float:
    return float(-pattern.line[:, 2] @ framed.lengths - pattern.nodal[:, 2].sum())


def _centre(framed: Framed, full: Pattern, toward: Floats) -> tuple[float, float]:
    """Where the weight acts, along a direction and above the floor [mm]."""
    at_elements, at_nodes = -full.line[:, 2] * framed.lengths, -full.nodal[:, 2]
    moment = at_elements @ framed.middles + at_nodes @ framed.model.nodes
    centre = moment / (at_elements.sum() + at_nodes.sum())
    return float(centre @ toward), float(centre[2])


def _hollows(framed: Framed, full: Pattern) -> list[LoadCase]:
    if len(framed.feet) < 4 or framed.held:
        return []
    hollow = f"over a hollow of {HOLLOW_MM:g} mm (1/4 in)"
    return [
        LoadCase(f"{foot.name} {hollow}", "foot", full, hollow=i, basis="common practice")
        for i, foot in enumerate(framed.feet)
    ]
