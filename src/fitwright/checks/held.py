"""Pieces that a wall holds: hung from anchors, anchored while standing, or leaning."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from fitwright.checks.carried import carried
from fitwright.checks.rounding import up, up_force
from fitwright.checks.standing import AREA, FLOOR_MM, anchors
from fitwright.checks.tipping_moment import Balance
from fitwright.findings import Finding, Verdict, at_most, needs_input
from fitwright.job.model import Job
from fitwright.piece.model import Hardware, Piece
from fitwright.units import GRAVITY

Floats = NDArray[np.float64]

OUTWARD = {"left": np.array([-1.0, 0.0]), "right": np.array([1.0, 0.0]), "back": np.array([0.0, 1.0])}
BLOCKED = 0.05  # a piece that would have to move into the wall by more than this share does not tip that way
RUBBER = 0.5
RUBBER_BASIS = "statics, the wall taken as smooth; friction of rubber feet on a dry floor 0.5, from memory"


def open_sides(job: Job, state: Balance) -> Balance:
    """The balance without the directions in which a wall stands that the piece touches."""
    free = np.ones(len(state.toward), dtype=bool)
    for side in job.space.walls:
        free &= state.toward @ OUTWARD[side] <= BLOCKED
    return replace(
        state, toward=state.toward[free], base=state.base[free], middle=state.middle[free], inside=state.inside[free]
    )


def leaning_findings(job: Job, piece: Piece, state: Balance) -> list[Finding]:
    """For each wall that the piece touches: what it does for the piece, and the friction that a leaning one needs."""
    return [_leaning(job, piece, state, side, at) for side, at in job.space.walls.items()]


def anchor_findings(job: Job, piece: Piece, state: Balance, lacks: Floats) -> list[Finding]:
    """What the anchors of a standing piece have to pull so that it cannot tip; lacks: missing moment (d,) [N mm]."""
    held = anchors(piece)
    height = float(np.mean([item.at[2] for item in held]))
    pull = max(0.0, float(lacks.max())) / max(height, 1.0) / len(held)
    formula = (
        f"{job.style.moment(max(0.0, float(lacks.max())))} / {job.style.figure(height, 0)} / "
        f"{len(held)} = {job.style.force(pull)} each"
    )
    note = "statics; the slope of 10° and the push, what the base does not take, shared evenly"
    return [_rated(job, held, "pull on each anchor against tipping", pull, formula, note)]


def hanging_findings(job: Job, piece: Piece) -> list[Finding]:
    """Pull and shear on the anchors of a piece that hangs on a wall, with all its loads."""
    held = anchors(piece)
    if not held:
        return []
    pull, shear, formula = hanging_pull(job, piece)
    both = float(np.hypot(pull, shear))
    note = "statics, a rigid piece turning about its lowest edge; pull and shear added as a vector"
    return [_rated(job, held, "pull and shear on each anchor of the hanging piece", both, formula, note)]


def hanging_pull(job: Job, piece: Piece) -> tuple[float, float, str]:
    """Pull and shear on each anchor [N] of a piece hung on a wall, and the arithmetic.

    Holds for anchors at one height over a lower edge that bears on the wall, all alike. Source: statics.
    """
    style = job.style
    held = anchors(piece)
    at = np.mean([item.at for item in held], axis=0)
    loads = [(piece.mass * GRAVITY, piece.centre)] + [(c.force, c.points.mean(axis=0)) for c in carried(job, piece)]
    total = sum(force for force, _ in loads)
    moment = float(np.hypot(*sum(force * (place - at)[:2] for force, place in loads)))
    lever = max(float(at[2] - piece.envelope.low[2]), 1.0)
    pull, shear = moment / lever / len(held), total / len(held)
    return (
        pull,
        shear,
        f"pull {job.style.moment(moment)} / {job.style.figure(lever, 0)} / {len(held)} = "
        f"{style.force(pull)}, shear {style.force(total)} / "
        f"{len(held)} "
        f"= {style.force(shear)}",
    )


def _rated(job: Job, held: tuple[Hardware, ...], check: str, value: float, formula: str, basis: str) -> Finding:
    style = job.style
    part = held[0].part
    rated = [float(item.properties["rated"]) for item in held if "rated" in item.properties]
    if len(rated) < len(held):
        asked = needs_input(AREA, part, check, f"parts: {part}: anchor: rated (it has to take {style.force(value)})")
        return replace(asked, value=value, unit="N", formula=formula)
    limit = min(rated)
    return at_most(
        AREA, part, check, value, limit, "N", tight=job.brief.rules.tight * limit, basis=basis, formula=formula,
        advice=f"take anchors rated for {style.force(up_force(job.style, value / (1 - job.brief.rules.tight)))} "
        f"each, "
        f"or {int(np.ceil(value * len(held) / (1 - job.brief.rules.tight) / limit))} of them",
    )  # fmt: skip


def _leaning(job: Job, piece: Piece, state: Balance, side: str, at: float) -> Finding:
    figure = job.style.figure
    outward = OUTWARD[side]
    toward = int(np.argmax(state.toward @ outward))
    short = -float(state.base[toward])
    if short <= 0:
        return Finding(
            AREA, f"{side} wall", "held against tipping", Verdict.HOLDS, basis="statics; space: walls",
            formula=f"touches the {side} wall at {figure(at, 0)} and cannot tip that way; it stands by itself",
        )  # fmt: skip
    height = _touching_height(piece, side, at)
    need = short / height
    return at_most(
        AREA, "piece", f"friction at the feet, leaning on the {side} wall", need, RUBBER, "",
        tight=job.brief.rules.tight * RUBBER, basis=RUBBER_BASIS,
        advice=f"set the feet {job.style.length(up(job.style, short - RUBBER * (1 - job.brief.rules.tight) * height))} "
        "nearer to the "
        "wall, or fix the top to it",
        formula=f"{figure(short, 0)} of centre of mass beyond the feet / {figure(height, 0)} of height at the wall = "
        f"{need:.2f}",
    )  # fmt: skip


def _touching_height(piece: Piece, side: str, at: float) -> float:
    """The height at which the piece touches a wall [mm]: of its highest member point there, else of its top."""
    axis = 1 if side == "back" else 0
    near = [
        float(point[2])
        for member in piece.members
        for point in member.path.vertices
        if abs(float(point[axis]) - at) <= member.body.reach + FLOOR_MM
    ]
    return max(near, default=float(piece.envelope.high[2]))
