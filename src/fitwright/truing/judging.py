"""Findings from readings: what is off and has to be put right, what is questioned, what means nothing."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.findings import Finding, Verdict, at_least, at_most
from fitwright.job.model import Job
from fitwright.truing.model import Truing
from fitwright.truing.telling import measured
from fitwright.truing.wanting import BASIS

AREA = "readings"
RULE = "a reading more than 4 deviations from what the others and the shop's usual errors make of it is not believed"


def truing_findings(truing: Truing | None, job: Job) -> list[Finding]:
    """What the readings say, as findings; none without readings."""
    if truing is None:
        return []
    return [*_lost(truing), *_doubted(truing, job), *_shape(truing, job), *_chances(truing)]


def _lost(truing: Truing) -> Iterator[Finding]:
    for one in truing.lost:
        where = f"line {one.reading.line}: " if one.reading.line else ""
        yield Finding(AREA, str(one.reading.of), "reading", Verdict.NEEDS_INPUT, advice=f"{where}{one.why}")


def _doubted(truing: Truing, job: Job) -> Iterator[Finding]:
    for doubt in truing.doubts:
        taken = truing.taken[doubt.number]
        of = taken.reading.of
        said, near = measured(of, taken.reading.value, job.style), measured(of, doubt.expected, job.style)
        yield Finding(
            AREA,
            str(of),
            "reading",
            Verdict.NEEDS_INPUT,
            value=doubt.deviations,
            limit=4.0,
            unit="deviations",
            advice=f"{said} is not believed: near {near} is expected; {doubt.slip}",
            basis="normal distribution of the shop's errors and of the tape's",
            formula=RULE,
        )


def _shape(truing: Truing, job: Job) -> Iterator[Finding]:
    if not truing.anything:
        return
    advice = "; ".join(touch.words for touch in truing.touches if touch.needed) or "see the sheet of readings"
    yield at_most(
        AREA, "the piece", "off its sizes, by what is allowed", truing.misfit, 1.0, "",
        tight=job.brief.rules.tight, basis=BASIS, advice=advice,
        formula="root of the mean square of (off / allowed) over widths, depths, heights, diagonals, twist",
    )  # fmt: skip


def _chances(truing: Truing) -> Iterator[Finding]:
    """Demands that the piece now meets less surely than the job wants, though as drawn it would."""
    for one in truing.chances:
        if one.now < one.wanted <= one.before:
            subject = f"{one.name}, {one.subject}" if one.name.startswith("fits") else one.name
            yield at_least(
                AREA, subject, "chance, with what was read", one.now, one.wanted, "", tight=0.0,
                basis="virtual builds, with the errors that the readings tell of",
                advice="put right what is made before what follows from it is cut, or change the size of what follows",
            )  # fmt: skip
