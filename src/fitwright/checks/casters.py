"""Casters and feet: the load on each with one off the floor, brakes, and what they have to cross."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.checks.carried import Bits, bits, carried, loadings
from fitwright.checks.rounding import up_force, up_mass
from fitwright.checks.shares import by_number, one_lifted
from fitwright.checks.standing import Contact, contacts
from fitwright.checks.thresholds import crossing_findings
from fitwright.findings import Finding, at_least, at_most, needs_input
from fitwright.job.model import Job
from fitwright.piece.model import Hardware, Piece
from fitwright.units import GRAVITY

Floats = NDArray[np.float64]

AREA = "casters"
BRAKES = 2
RULE_BASIS = "selection rules of two caster makers: total over one less than the number of casters"
STANCE_BASIS = (
    "statics of a rigid piece on hard ground, every one in turn off the floor, every way of loading each side"
)


@dataclass(frozen=True, eq=False)
class Borne:
    """The largest load on any of the casters or feet [N]: by their number, by position, and which one bears it."""

    number: float
    position: float
    name: str
    total: float


def caster_findings(job: Job, piece: Piece) -> list[Finding]:
    """Loads for casters and feet; brakes, thresholds and gaps for casters."""
    on = [contact for contact in contacts(piece) if contact.item is not None]
    if not on:
        return []
    loads = bits(carried(job, piece))
    found = _load_findings(job, piece, on, loads)
    rolling = [contact.item for contact in on if contact.item is not None and contact.item.kind == "caster"]
    if rolling:
        found += [_brakes(rolling), *crossing_findings(job, piece, on, loads)]
    return found


def borne(piece: Piece, on: list[Contact], loads: Bits) -> Borne:
    """The worst load on one caster or foot, full and with only one half of each load there, one off the floor."""
    points = np.array([contact.point[:2] for contact in on])
    own, worst, name = piece.mass * GRAVITY, 0.0, on[0].name
    for there in loadings(loads):
        forces = loads.forces * there
        total = own + float(forces.sum())
        at = (own * piece.centre[:2] + forces @ loads.points[:, :2]) / total
        stances = one_lifted(points, at, total)
        if stances.size and stances.max() > worst:
            worst, name = float(stances.max()), on[int(np.argmax(stances.max(axis=0)))].name
    full = own + float(loads.forces.sum())
    return Borne(by_number(full, len(on)), worst, name, full)


def _load_findings(job: Job, piece: Piece, on: list[Contact], loads: Bits) -> list[Finding]:
    found = []
    load = borne(piece, on, loads)
    for part in sorted({c.item.part for c in on if c.item is not None}):
        item = next(c.item for c in on if c.item is not None and c.item.part == part)
        found += _rated(job, item, load, len(on))
    return found


def _rated(job: Job, item: Hardware, load: Borne, count: int) -> list[Finding]:
    style = job.style
    checks = (
        (f"load on each, total over {count - 1}", load.number, RULE_BASIS,
         f"{style.force(load.total)} / ({count} - 1) = {style.force(load.number)}"),
        ("load on the worst one, one off the floor", load.position, STANCE_BASIS,
         f"{style.force(load.total)} in all; {load.name} bears {style.force(load.position)} when the piece "
         "stands on the others"),
    )  # fmt: skip
    if "rated" not in item.properties:
        needed = style.force(up_force(job.style, max(load.number, load.position)))
        asked = f"parts: {item.part}: {item.kind}: rated (it has to bear {needed})"
        return [needs_input(AREA, item.part, check, asked, basis=basis) for check, _, basis, _ in checks]
    limit = float(item.properties["rated"])
    use = 1 - job.brief.rules.tight
    return [
        at_most(
            AREA, item.part, check, value, limit, "N", tight=job.brief.rules.tight * limit, basis=basis,
            formula=formula,
            advice=f"take ones rated for {style.force(up_force(job.style, value / use))}, or keep "
            f"{job.style.weight(up_mass(job.style, load.total * (1 - limit * use / value) / GRAVITY))} off it",
        )
        for check, value, basis, formula in checks
    ]  # fmt: skip


def _brakes(rolling: list[Hardware]) -> Finding:
    part = rolling[0].part
    if not any("brake" in item.properties for item in rolling):
        return needs_input(AREA, part, "casters with a brake", f"parts: {part}: caster: brake: true or false")
    count = sum(bool(item.properties.get("brake", False)) for item in rolling)
    return at_least(
        AREA, part, "casters with a brake", count, BRAKES, "", tight=0.0, basis="common practice",
        advice=f"take a brake on {BRAKES - count} more, both on one side",
        formula=f"{count} of {len(rolling)} have a brake",
    )  # fmt: skip
