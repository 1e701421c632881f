"""What has to stay possible with the piece in its place: shelves out, brakes, things in reach, cleaning."""

from __future__ import annotations

from fitwright.findings import Finding, Verdict, at_least, at_most, needs_input
from fitwright.job.model import Job
from fitwright.piece import Piece
from fitwright.place.model import Brake, Fit, Reach, WayOut
from fitwright.place.using import ARM_MM, LEG_MM

AREA = "space"
ARM_BASIS = "an arm's reach, ISO 15534-3:2000, 5th percentile; from memory"
LOCKED = 2  # brakes that hold a piece on casters where it stands: common practice


def use_findings(job: Job, piece: Piece, placed: Fit) -> list[Finding]:
    """Shelves, brakes, reach and cleaning."""
    found = [_way_out(job, way) for way in placed.ways_out]
    found += _aisle(job, piece, placed)
    found += [_reach(job, reach) for reach in placed.reaches]
    if placed.brakes:
        found.append(_brakes(job, placed.brakes))
    return found + _clean(job, piece, placed)


def _way_out(job: Job, way: WayOut) -> Finding:
    blocked = ", ".join(way.in_way)
    return Finding(
        AREA, way.name, "comes out", Verdict.FAILS if way.in_way else Verdict.HOLDS,
        value=None if way.in_way else way.gap, limit=None if way.in_way else 0.0,
        margin=None if way.in_way else way.gap, unit="" if way.in_way else "mm",
        basis="the real parts, the shelf moved straight or turned about an edge",
        advice=f"{blocked} is in the way, and it passes neither lifted nor tilted: make it smaller, or move {blocked}"
        if way.in_way
        else "",
        formula="" if way.in_way else f"{', '.join(way.moves)}; {job.style.length(way.gap)} beside it at the least",
    )  # fmt: skip


def _aisle(job: Job, piece: Piece, placed: Fit) -> list[Finding]:
    """Free floor for what comes out to the front."""
    outward = [way.room for way in placed.ways_out if not way.in_way and "to the front" in way.moves[-1]]
    rolls = [float(piece.envelope.size[1])] if any(item.kind == "caster" for item in piece.hardware) else []
    needed = max([*outward, *rolls], default=0.0)
    if not needed:
        return []
    what = "room to roll it out" if rolls and needed == rolls[0] else "room to take a shelf out"
    if job.space.aisle is None:
        return [needs_input(AREA, "aisle", what, "space: aisle: the free floor before the opening")]
    return [
        at_least(
            AREA, "aisle", what, job.space.aisle, needed, "mm", tight=job.brief.rules.clear_tight,
            basis="the survey of the space",
            advice="keep the floor before it free, or roll it in and out askew",
            formula=f"{job.style.length(job.space.aisle)} free before it, {job.style.length(needed)} needed",
        )
    ]  # fmt: skip


def _reach(job: Job, reach: Reach) -> Finding:
    found = at_most(
        AREA, reach.name, "stays in reach", reach.far, ARM_MM, "mm", tight=0.0, basis=ARM_BASIS,
        advice=f"it is {job.style.length(reach.far)} in from the {reach.side}: move it, or the piece",
        formula=f"{job.style.length(reach.far)} in from the {reach.side}, an arm reaches {job.style.length(ARM_MM)}; "
        "room for a hand all the way",
    )  # fmt: skip
    if not reach.in_way:
        return found
    what = ", ".join(reach.in_way)
    verdict = Verdict.TIGHT if reach.loose and found.verdict is Verdict.HOLDS else Verdict.FAILS
    return Finding(
        AREA, reach.name, found.check, verdict, reach.far, ARM_MM, found.margin, "mm", ARM_BASIS,
        f"take out {what} first" if reach.loose else f"{what} is in the way of a hand: leave room there",
        f"from the {reach.side} {what} is in the way",
    )  # fmt: skip


def _brakes(job: Job, brakes: tuple[Brake, ...]) -> Finding:
    free = [brake for brake in brakes if not brake.in_way and brake.far <= LEG_MM]
    hidden = [brake for brake in brakes if brake.in_way and brake.far <= LEG_MM]
    needed = min(LOCKED, len(brakes))
    why = "; ".join(f"{', '.join(brake.in_way)} is before {brake.name}" for brake in hidden)
    return at_least(
        AREA, "brakes", "a foot gets to", float(len(free)), float(needed), "", tight=0.0,
        basis="a shoe's tip 110 mm wide and 90 mm high, 300 mm in from the front; two brakes hold it; common practice",
        advice=why or "put casters with brakes on the front",
        formula=f"{', '.join(brake.name for brake in free) or 'none'} from the front",
    )  # fmt: skip


def _clean(job: Job, piece: Piece, placed: Fit) -> list[Finding]:
    rolls = any(item.kind == "caster" for item in piece.hardware)
    out = "; or roll it out" if rolls else ""
    behind = next((gap for gap in placed.gaps if gap.side == "back"), None)
    values = {"below": placed.below, "behind": None if behind is None else behind.value}
    found = []
    for what, wanted in job.space.clean.items():
        value = values[what]
        if value is None:
            found.append(needs_input(AREA, "cleaning", f"room {what}", "space: opening: depth"))
            continue
        found.append(
            at_least(
                AREA, "cleaning", f"room {what}", value, wanted, "mm", tight=0.0, basis="wanted in the job",
                advice=f"raise it by {job.style.length(wanted - value)}{out}"
                if what == "below"
                else f"stand it {job.style.length(wanted - value)} farther from the wall{out}",
                formula=f"{job.style.length(value)} free {what} it, {job.style.length(wanted)} wanted",
            )
        )  # fmt: skip
    return found
