"""How far the piece leans when somebody leans on it, and how stiff it is against racking."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.checks.cases import SIDES
from fitwright.checks.frame_results import FrameResults
from fitwright.findings import Finding, Verdict, at_most
from fitwright.job.model import Job

AREA = "strength"
COMFORT = 100.0
BASIS = "height / 100: a comfort target, common practice; furniture has no code for it"
WAYS = ((("left", "right"), "sideways"), (("front", "back"), "front to back"))


@dataclass(frozen=True)
class Sway:
    """Movement [mm] of the pushed points along the push of a case, and racking stiffness [N/mm]."""

    case: int
    movement: float
    stiffness: float


def sways(results: FrameResults) -> dict[str, Sway]:
    """The sway toward each side; a side to which the piece goes over first is left out.

    The movement is what the push adds to that under all loads. Holds for feet that grip, and wheels with brakes on or
    chocked; the lift of a foot is in it.
    """
    pushes, held = results.cases.of_kind("push"), int(results.cases.of_kind("held")[0])
    found = {}
    for (_, _, word), case in zip(SIDES, pushes.tolist(), strict=True):
        toward = results.cases.cases[case].toward
        if toward is not None and not results.tips[case] and not results.tips[held]:
            touch = results.cases.touches[word]
            more = results.displacements[:, :, case] - results.displacements[:, :, held]
            movement = float((touch.moved(results.framed, more) @ toward).mean())
            push = results.cases.push.force
            found[word] = Sway(case, movement, push / movement if movement > 0 else float("inf"))
    return found


def sway_findings(job: Job, results: FrameResults) -> list[Finding]:
    """One finding sideways and one front to back, each for the softer side."""
    found = sways(results)
    return [_finding(job, results, words, way, found) for words, way in WAYS]


def _finding(job: Job, results: FrameResults, words: tuple[str, str], way: str, found: dict[str, Sway]) -> Finding:
    style = job.style
    push, tight = results.cases.push, job.brief.rules.tight
    check = f"sway {way}"
    there = [word for word in words if word in found]
    if not there:
        return Finding(
            AREA, "piece", check, Verdict.FAILS, basis=push.basis, unit="mm",
            advice="it goes over before it sways: widen its stand, or fix it to a wall (see stability)",
            formula=f"{style.force(push.force)} at {style.figure(push.height, 0)} tips it with all loads on",
        )  # fmt: skip
    word = max(there, key=lambda side: found[side].movement)
    sway, limit = found[word], push.height / COMFORT
    return at_most(
        AREA, "piece", check, sway.movement, limit, "mm", tight=tight * limit, basis=f"{BASIS}; {push.basis}",
        formula=f"{style.force(push.force)} to the {word} at {style.figure(push.height, 0)} moves it "
        f"{style.figure(sway.movement, 1)} there: "
        f"racking stiffness {job.style.line_load(sway.stiffness)}; limit {style.figure(push.height, 0)} / "
        f"{COMFORT:g} = {style.figure(limit, 1)}",
    )  # fmt: skip
