"""What the page of readings shows of a state of the job, worked out in a moment; and what takes longer."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.assess import Assessment
from fitwright.job.readings import Of
from fitwright.sheets.drawing import to_svg
from fitwright.sheets.packet.corrections import corrections_picture
from fitwright.sheets.truing_told import ChangeTold, TruingTold, change_told, truing_told
from fitwright.truing import measured
from fitwright.truing.asking import Asking
from fitwright.truing.vocabulary import readable
from fitwright.units import Style
from fitwright.web.aside import Tell

ROOM = (150.0, 150.0)


@dataclass(frozen=True)
class Row:
    """One thing that can be read: its words, what is asked, what was read last."""

    of: str
    asked: str
    read: str


@dataclass(frozen=True)
class Moment:
    """What is read at one moment of the build. open: whether it is the next one."""

    title: str
    rows: tuple[Row, ...]
    open: bool


@dataclass(frozen=True)
class Kept:
    """A reading as the file has it, with its place in the list."""

    number: int
    of: str
    value: str
    when: str
    note: str


@dataclass(frozen=True)
class Shown:
    """The page: moments with their fields, everything kept, what follows, and the piece with corrections (SVG)."""

    moments: tuple[Moment, ...]
    kept: tuple[Kept, ...]
    told: TruingTold | None
    picture: str
    unit: str


def shown(assessment: Assessment) -> Shown:
    """What is shown at once: all but the numbers that change. A piece that is no frame has nothing to read."""
    job, making = assessment.job, assessment.making
    kept = tuple(
        Kept(n, str(r.of), measured(r.of, r.value, job.style), r.when.isoformat() if r.when else "", r.note)
        for n, r in enumerate(job.readings)
    )
    if making is None:
        return Shown((), kept, None, "", job.style.unit)
    truing = assessment.truing
    told = None if truing is None else truing_told(assessment, truing, ())
    places = [] if truing is None else [t for t in truing.touches if t.start is not None or t.kind == "bend"]
    drawn = to_svg(corrections_picture(assessment, truing.touches, ROOM)) if truing is not None and places else ""
    return Shown(_moments(assessment), kept, told, drawn, job.style.unit)


def _moments(assessment: Assessment) -> tuple[Moment, ...]:
    job, making = assessment.job, assessment.making
    assert making is not None
    last = {str(reading.of): measured(reading.of, reading.value, job.style) for reading in job.readings}
    found: list[Moment] = []
    asking = Asking(making, assessment.set_ups, assessment.bend_sheets, job.style)
    for one in readable(asking):
        rows = tuple(Row(str(of), _asked(of, drawn, job.style), last.get(str(of), "")) for of, drawn in one.things)
        begun = any(row.read for row in rows)
        found.append(Moment(one.title, rows, begun))
    if not any(moment.open for moment in found) and found:
        found[0] = Moment(found[0].title, found[0].rows, open=True)
    return tuple(found)


def _asked(of: Of, drawn: float, style: Style) -> str:
    if of.quantity.value in ("height of foot", "paint thickness", "gap"):
        return ""
    return measured(of, drawn, style)


def changes_told(assessment: Assessment, tell: Tell) -> tuple[ChangeTold, ...]:
    """The numbers that change, which takes two plans of the bench."""
    tell("the bench as drawn", 0.05)

    def told(done: int, of: int, name: str) -> None:
        tell(f"the bench as drawn: {name}", 0.45 * done / max(of, 1))

    assessment.set_up(told)
    tell("the bench as it follows", 0.5)
    return tuple(change_told(one, assessment.job.style) for one in assessment.changes)
