"""Step sheets: one card for each step, to follow at the bench and tick off."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from fitwright.assess import Assessment
from fitwright.making.decking import panel_title
from fitwright.making.plan import After, Number, Schedule, Scheduled, Step
from fitwright.sheets.drawing import Drawing
from fitwright.sheets.packet.bentshape import bent_picture
from fitwright.sheets.packet.model import Json, Page
from fitwright.sheets.packet.pages.timber import panel_picture
from fitwright.sheets.packet.pictures import alone

TITLE = "Steps"
ROOM = (62.0, 44.0)
SHOWN_WHOLE = ("weld", "assemble", "deliver")
SHOWN_PANEL = ("glue", "screw")
MOST_TICKS = 12
LONG = 34  # letters of a number that stands by itself; longer ones are words and go on their own line
HOUR = 60


def steps_page(assessment: Assessment, whole: Drawing, schedule: Schedule) -> Page:
    """Every step as a card with its numbers, set-up, checks, fields and cautions."""
    pictures: dict[str, Drawing] = {}
    cards = []
    for timed in schedule.steps:
        picture = picture_of(assessment, whole, timed.step)
        name = f"step-{timed.step.number}"
        if picture is not None:
            pictures[name] = picture
        cards.append(_card(timed, schedule, name if picture is not None else None))
    content: Json = {"intro": _intro(schedule), "steps": cards}
    return Page("steps", TITLE, content, pictures)


def _intro(schedule: Schedule) -> str:
    return (
        f"{len(schedule.steps)} steps, {duration(schedule.work_minutes)} of work. Tick each box when it is done, write "
        "each reading down; a black bar beside a step says that the finish date hangs on it."
    )


def _card(timed: Scheduled, schedule: Schedule, picture: str | None) -> Json:
    step = timed.step
    return {
        "number": str(step.number),
        "title": step.title,
        "when": str(timed.start) if timed.start.at is not None else f"day {timed.start.day + 1}",
        "time": duration(step.minutes) + (", two people" if step.hands > 1 else ""),
        "after": after_words(step.after, {one.step.number: one.step for one in schedule.steps}),
        "critical": timed.critical,
        "numbers": [_number(one) for one in step.numbers],
        "setup": list(step.setup),
        "checks": list(step.checks),
        "readings": [{"what": one.what, "wanted": one.wanted} for one in step.readings],
        "cautions": [one.words for one in step.cautions],
        "sheet": step.sheet,
        "meanwhile": _meanwhile(timed),
        "picture": picture,
    }


def _number(one: Number) -> Json:
    return {"what": one.what, "value": one.value, "ticks": min(one.ticks, MOST_TICKS), "more": one.ticks > MOST_TICKS}


def _meanwhile(timed: Scheduled) -> str:
    if not timed.meanwhile:
        return ""
    return f"While it dries or cools: step {', '.join(map(str, timed.meanwhile))}."


def after_words(after: tuple[After, ...], steps: Mapping[int, Step]) -> str:
    """What a step waits for.

    >>> after_words((After(3), After(5, 960, "primer to dry")), {})
    'after step 3; 16 h after step 5 (primer to dry)'
    """
    plain = [str(one.number) for one in after if not one.wait]
    said = [f"after step {', '.join(plain)}"] if plain else []
    said += [f"{duration(one.wait)} after step {one.number} ({one.why})" for one in after if one.wait]
    return "; ".join(said)


def duration(minutes: int) -> str:
    """Minutes in words.

    >>> duration(45), duration(130), duration(960)
    ('45 min', '2 h 10', '16 h')
    """
    hours, rest = divmod(minutes, HOUR)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest:02d}" if rest else f"{hours} h"


def picture_of(assessment: Assessment, whole: Drawing, step: Step) -> Drawing | None:
    """A small picture of what a step is about: the bent part, the panel, or the whole; None for others."""
    if step.kind in ("bend", "trim") and step.marks:
        mark = next(mark for mark in assessment.member_marks if mark.mark == step.marks[0])
        return alone(bent_picture(assessment, mark, assessment.bend_sheets[mark.mark]).views[0], ROOM)
    if step.kind in SHOWN_PANEL:
        return next(_panels(assessment, step), None)
    if step.kind in SHOWN_WHOLE:
        return alone(next(view for view in whole.views if view.name == "isometric"), ROOM)
    return None


def _panels(assessment: Assessment, step: Step) -> Iterator[Drawing]:
    for panel in assessment.piece.panels:
        if step.sheet == panel_title(panel):
            names = (f"{panel.name} {board.role} {k + 1}" for k, board in enumerate(panel.boards))
            marks = [assessment.piece.mark_of[name] for name in names]
            yield alone(panel_picture(panel, marks, assessment).views[0], ROOM)
