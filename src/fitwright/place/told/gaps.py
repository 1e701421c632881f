"""Gaps to walls and things, neighbours that must be matched, doors that open past, openings that parts keep clear."""

from __future__ import annotations

from math import degrees

from fitwright.findings import Finding, at_least, at_most, needs_input
from fitwright.job.model import Job, Neighbour
from fitwright.piece import Piece
from fitwright.place.model import Fit, Gap, Swing
from fitwright.place.survey.tape import BASIS

AREA = "space"
SURVEY = "the survey of the space and the clearance wanted in the job; walls straight between measured places"
PUSHED = "the survey of the space; the real parts moved straight in from the front"
ONE_DEGREE = 1.0


def gap_findings(job: Job, placed: Fit) -> list[Finding]:
    """The smallest gap on each side, in place and on the way in, to each thing, and how far doors open."""
    found = [_wall(job, gap) for gap in placed.gaps]
    found += [_passed(job, gap) for gap in placed.passed]
    found += [_thing(job, gap) for gap in placed.things]
    return found + [_door(job, swing) for swing in placed.swings]


def match_findings(job: Job) -> list[Finding]:
    """What has to agree with a neighbour."""
    return [finding for neighbour in job.space.neighbours for finding in _match(job, neighbour)]


def opening_findings(job: Job, piece: Piece) -> list[Finding]:
    """Boxes that parts must keep clear."""
    found = []
    for opening in piece.openings:
        worst = max(opening.intruders, key=lambda pair: pair[1], default=("", 0.0))
        found.append(
            at_most(
                AREA, opening.name, "parts inside the opening", worst[1], 0.0, "mm", tight=0.0,
                basis="the job's own opening",
                advice=f"move {worst[0]} out of {opening.name} by {job.style.length(worst[1])}",
            )
        )  # fmt: skip
    return found


def _wall(job: Job, gap: Gap) -> Finding:
    short, style = gap.wanted - gap.value, job.style
    against = "" if gap.against in ("wall", "top", "front line") else f" to the {gap.against}"
    return at_least(
        AREA, gap.side, f"gap on the {gap.side}" if gap.side != "top" else "gap above", gap.value, gap.wanted, "mm",
        tight=_tight(job, gap),
        basis=SURVEY if gap.chosen else f"{SURVEY}; ± by {BASIS if job.space.within is None else 'space: within'}",
        advice=f"smallest {style.length(gap.height)} above the floor{against}; "
        + (
            f"take {style.length(short)} off the piece or the clearance"
            if short > 0
            else "measure again at that height"
        ),
        formula=f"{_said(job, gap)} left at {style.length(gap.height)} above the floor{against}, "
        f"{style.length(gap.wanted)} wanted",
    )  # fmt: skip


def _passed(job: Job, gap: Gap) -> Finding:
    style = job.style
    return at_least(
        AREA, gap.side, f"gap on the {gap.side}, pushed in", gap.value, 0.0, "mm", tight=_tight(job, gap),
        basis=PUSHED,
        advice=f"it comes nearest {style.length(gap.before)} before its place, {style.length(gap.height)} above the "
        f"floor: push it in nearer to the other side, or make it {style.length(max(-gap.value, 0.0))} narrower",
        formula=f"{_said(job, gap)} left {style.length(gap.before)} before its place",
    )  # fmt: skip


def _thing(job: Job, gap: Gap) -> Finding:
    style, short = job.style, gap.wanted - gap.value
    when = f", {style.length(gap.before)} before its place" if gap.before > style.step_mm else ""
    if gap.value >= 0:
        do = f"move {gap.part} or the {gap.against} {style.length(max(short, 0.0))} apart"
    else:
        do = f"{gap.part} runs {style.length(-gap.value)} into the {gap.against}: cut it short, or make a notch for it"
    return at_least(
        AREA, gap.against, f"gap to the {gap.against}", gap.value, gap.wanted, "mm", tight=_tight(job, gap),
        basis=f"{PUSHED}; ± by {BASIS if job.space.within is None else 'space: within'}",
        advice=f"nearest is {gap.part}, {style.length(gap.height)} above the floor{when}; {do}",
        formula=f"{_said(job, gap)} between {gap.part} and the {gap.against}, {_where(gap.side)}, at "
        f"{style.length(gap.height)} above the floor{when}; {style.length(gap.wanted)} wanted",
    )  # fmt: skip


def _door(job: Job, swing: Swing) -> Finding:
    opens, wanted = degrees(swing.opens), degrees(swing.wanted)
    gap = "" if swing.touches else f", and {job.style.length(swing.gap)} past the piece at the least"
    return at_least(
        AREA, swing.name, f"{swing.name} opens", opens, wanted, "°",
        tight=ONE_DEGREE if not swing.touches and swing.gap < job.brief.rules.clear_tight else 0.0,
        basis="the survey of the space; the leaf turned about its hinge",
        advice=f"it strikes {swing.touches} {job.style.length(swing.height)} above the floor: stand the piece farther "
        "from the hinge, or let the door be hung on its other side"
        if swing.touches
        else f"the leaf passes {job.style.length(swing.gap)} from the piece: leave more",
        formula=f"opens {opens:.0f}° of {wanted:.0f}°{gap}",
    )  # fmt: skip


def _match(job: Job, neighbour: Neighbour) -> list[Finding]:
    found = []
    for what, value in neighbour.match.items():
        theirs = neighbour.height if what == "height" else neighbour.depth
        if theirs is None:
            found.append(
                needs_input(AREA, neighbour.name, f"match {what}", f"space: neighbours: {neighbour.name}: {what}")
            )
            continue
        off = abs(value - theirs)
        found.append(
            at_most(
                AREA, neighbour.name, f"match {what}", off, neighbour.within, "mm", tight=0.0,
                basis="the survey of the space",
                advice=f"make the piece's {what} {job.style.length(off)} {'more' if theirs > value else 'less'}",
                formula=f"piece {job.style.length(value)}, {neighbour.name} {job.style.length(theirs)}",
            )
        )  # fmt: skip
    return found


def _tight(job: Job, gap: Gap) -> float:
    """A gap that the survey leaves open by more than it has to spare is tight."""
    return 0.0 if gap.chosen else max(job.brief.rules.clear_tight, gap.spread)


def _said(job: Job, gap: Gap) -> str:
    spread = f" ± {job.style.length(gap.spread)}" if gap.spread else ""
    return f"{job.style.length(gap.value)}{spread}"


def _where(side: str) -> str:
    """Where a thing is from the piece."""
    return {"top": "above it", "below": "under it", "back": "behind it"}.get(side, f"on its {side}")
