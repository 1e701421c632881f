"""Pieces that a wall holds: hung from anchors, anchored while standing, or leaning."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from fitwright.checks.footprint import reach
from fitwright.checks.hung import Hung, hung
from fitwright.checks.rounding import up, up_force
from fitwright.checks.standing import AREA, FLOOR_MM, Contact, anchors
from fitwright.checks.tipping_moment import Balance
from fitwright.findings import Finding, Verdict, at_most, needs_input
from fitwright.job.model import Job
from fitwright.piece.model import Hardware, Piece

Floats = NDArray[np.float64]

OUTWARD = {"left": np.array([-1.0, 0.0]), "right": np.array([1.0, 0.0]), "back": np.array([0.0, 1.0])}
BLOCKED = 0.05  # a piece that would have to move into the wall by more than this share does not tip that way
IN_FLOOR_MM = 50.0  # an anchor no higher than this goes into the floor, not into a wall
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


def anchor_findings(job: Job, piece: Piece, on: Sequence[Contact], state: Balance, lacks: Floats) -> list[Finding]:
    """What the anchors of a standing piece have to pull so that it cannot tip; lacks: missing moment (d,) [N mm].

    Anchors in a wall pull level at their height; a piece that has them only in the floor is held down by them, each in
    proportion to its distance from the edge about which the piece turns.
    """
    held = anchors(piece)
    in_floor = all(float(item.at[2]) <= IN_FLOOR_MM for item in held)
    pull, formula = _held_down(job, on, held, state, lacks) if in_floor else _held_back(job, held, lacks)
    how = "a rigid piece turning about its edge" if in_floor else "shared evenly"
    note = f"statics; the slope of 10° and the push, what the base does not take, {how}"
    return [_rated(job, held, "pull on each anchor against tipping", pull, formula, note)]


def _held_back(job: Job, held: tuple[Hardware, ...], lacks: Floats) -> tuple[float, str]:
    count = sum(item.each for item in held)
    height = float(np.average([item.at[2] for item in held], weights=[item.each for item in held]))
    moment = max(0.0, float(lacks.max(initial=0.0)))
    pull = moment / max(height, 1.0) / count
    style = job.style
    return pull, f"{style.moment(moment)} / {style.figure(height, 0)} / {count} = {style.force(pull)} each"


def _held_down(
    job: Job, on: Sequence[Contact], held: tuple[Hardware, ...], state: Balance, lacks: Floats
) -> tuple[float, str]:
    style = job.style
    at = np.repeat([item.at[:2] for item in held], [item.each for item in held], axis=0)
    arms = np.maximum(reach(on, state.toward)[:, None] - state.toward @ at.T, 0.0)
    moments = np.maximum(lacks, 0.0)
    pulls = moments[:, None] * arms / np.maximum((arms**2).sum(axis=1), 1.0)[:, None]
    d, k = np.unravel_index(int(np.argmax(pulls)), pulls.shape)
    pull = float(pulls[d, k])
    return pull, (
        f"{style.moment(float(moments[d]))} x {style.figure(float(arms[d, k]), 0)} / the sum of the squares of the "
        f"anchors' distances from the tipping edge = {style.force(pull)} on the farthest"
    )


def hanging_findings(job: Job, piece: Piece) -> list[Finding]:
    """Pull and shear on the anchors of a piece that hangs on a wall, with all its loads."""
    held = anchors(piece)
    if not held:
        return []
    worst, style = hung(job, piece), job.style
    formula = (
        f"{style.force(worst.weight)} that stand out by {style.figure(worst.moment / worst.weight, 0)} pull "
        f"{style.force(worst.pull)} on an anchor {style.figure(worst.lever, 0)} over the lowest edge that bears on the "
        f"wall, and shear {style.force(worst.shear)}; {worst.count} anchors"
    )
    note = "statics, a rigid piece turning about the lowest edge that bears on the wall; pull and shear as a vector"
    check = "pull and shear on each anchor of the hanging piece"
    return [_rated(job, held, check, worst.both, formula, note, _lower_edge(job, held, worst))]


def _lower_edge(job: Job, held: tuple[Hardware, ...], worst: Hung) -> str:
    """How far under a row of anchors the piece has to bear on the wall for their rating to do."""
    rated = [float(item.properties.get("rated", 0.0)) for item in held]
    room = (min(rated) * (1 - job.brief.rules.tight)) ** 2 - worst.shear**2
    if not worst.level or room <= 0:
        return ""
    lever = worst.moment / worst.count / float(np.sqrt(room))
    return f", or let it bear on the wall {job.style.length(up(job.style, lever))} under the anchors"


def _rated(
    job: Job, held: tuple[Hardware, ...], check: str, value: float, formula: str, basis: str, more: str = ""
) -> Finding:
    style = job.style
    part = held[0].part
    rated = [float(item.properties["rated"]) for item in held if "rated" in item.properties]
    if len(rated) < len(held):
        asked = needs_input(AREA, part, check, f"parts: {part}: anchor: rated (it has to take {style.force(value)})")
        return replace(asked, value=value, unit="N", formula=formula)
    limit, count = min(rated), sum(item.each for item in held)
    return at_most(
        AREA, part, check, value, limit, "N", tight=job.brief.rules.tight * limit, basis=basis, formula=formula,
        advice=f"take anchors rated for {style.force(up_force(job.style, value / (1 - job.brief.rules.tight)))} "
        f"each, "
        f"or {int(np.ceil(value * count / (1 - job.brief.rules.tight) / limit))} of them{more}",
    )  # fmt: skip


def _leaning(job: Job, piece: Piece, state: Balance, side: str, at: float) -> Finding:
    figure = job.style.figure
    toward = int(np.argmax(state.toward @ OUTWARD[side]))
    short, total = _farthest_out(state, toward)
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
        formula=f"{figure(short, 0)} that {job.style.force(total)}, loaded at its worst, stands beyond the feet / "
        f"{figure(height, 0)} of height at the wall = {need:.2f}",
    )  # fmt: skip


def _farthest_out(state: Balance, toward: int) -> tuple[float, float]:
    """How far beyond the feet the weight lies [mm] with those bits of load that bring it farthest, and all of it [N].

    Source: statics; the largest ratio by taking the bits in order of their distance as long as they raise it.
    """
    moment, total = -state.weight * float(state.base[toward]), state.weight
    for k in np.argsort(state.inside[toward]).tolist():
        out = -float(state.inside[toward, k])
        if out <= moment / total:
            break
        moment, total = moment + float(state.forces[k]) * out, total + float(state.forces[k])
    return moment / total, total


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
