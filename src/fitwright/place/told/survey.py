"""Whether the lengths of the survey agree with one another."""

from __future__ import annotations

from fitwright.findings import Finding, at_least, needs_input
from fitwright.job.model import Job
from fitwright.place.survey.closing import DOUBTED, WRONG, Closure, closures
from fitwright.place.survey.tape import BASIS

AREA = "space"
TEST = (
    "least squares; chi-squared test of the residuals, doubted under 5 %, wrong under 0.1 % (W. Baarda, A testing "
    "procedure for use in geodetic networks, 1968)"
)


def survey_findings(job: Job) -> list[Finding]:
    """One finding for every way in which the lengths check one another."""
    return [_closure(job, one) for one in closures(job.space)]


def _closure(job: Job, one: Closure) -> Finding:
    check = "the lengths close"
    if one.missing:
        return needs_input(AREA, one.name, check, one.missing)
    style = job.style
    return at_least(
        AREA, one.name, check, round(100 * one.chance, 3), 100 * WRONG, "%", tight=100 * (DOUBTED - WRONG),
        basis=f"{TEST}; {BASIS if job.space.within is None else 'space: within'}",
        advice=f"they miss by {style.length(one.miss)}, where {style.length(one.usual)} is usual: "
        f"{_suspected(job, one)}",
        formula=f"they miss by {style.length(one.miss)}, {style.length(one.usual)} is usual; careful measuring misses "
        f"by as much in {_often(one.chance)}",
    )  # fmt: skip


def _suspected(job: Job, one: Closure) -> str:
    if not one.suspects:
        return "measure them again"
    style = job.style
    said = [
        f"{_named(s.name)}, {style.length(s.measured)}, for which the others make {style.length(s.others)}"
        for s in one.suspects[:2]
    ]
    if len(one.suspects) > 2:
        return f"measure all again, first {said[0]}"
    return f"likeliest wrong is {' or '.join(said)}"


def _named(name: str) -> str:
    return f"the diagonal from {name}" if " to " in name else name if name.startswith("the ") else f"the {name}"


def _often(chance: float) -> str:
    return f"{100 * chance:.2g} of 100 places" if chance > WRONG / 10 else "fewer than 1 of 10 000 places"
