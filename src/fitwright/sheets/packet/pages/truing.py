"""Readings and what follows: what was read, what to put right, which numbers change."""

from __future__ import annotations

from fitwright.assess import Assessment
from fitwright.sheets.packet.corrections import corrections_picture
from fitwright.sheets.packet.model import Json, Page
from fitwright.sheets.packet.tables import ColumnTold, table
from fitwright.sheets.truing_told import TruingTold, truing_told

TITLE = "Readings and what follows"
ROOM = (110.0, 105.0)


def truing_page(assessment: Assessment) -> Page | None:
    """The sheet; None without readings."""
    truing = assessment.truing
    if truing is None:
        return None
    told = truing_told(assessment, truing, assessment.changes)
    shown = [touch for touch in truing.touches if touch.start is not None or touch.kind == "bend"]
    pictures = {"piece": corrections_picture(assessment, truing.touches, ROOM)} if shown else {}
    content: Json = {
        "lead": list(told.lead),
        "picture": "piece" if shown else None,
        "readings": _readings(told),
        "doubts": [*told.doubts, *told.lost],
        "touches": [
            {
                "number": str(one.number),
                "words": one.words,
                "need": "Needed." if one.needed else "Within what is allowed: it may be left.",
                "effects": list(one.effects),
                "caution": one.caution,
            }
            for one in told.touches
        ],
        "changes": [[one.sheet, one.mark, one.what, one.old, one.new, one.why] for one in told.changes],
        "chances": [f"{what}: {before} before, {now} now" for what, before, now in told.chances],
        "notes": list(told.notes),
    }
    return Page("truing", TITLE, content, pictures)


def _readings(told: TruingTold) -> Json:
    columns: list[ColumnTold] = [
        ("reading", "text", 4), ("asked", "number", None), ("read", "number", None), ("off", "number", None),
        ("probably", "number", None), ("", "text", 2),
    ]  # fmt: skip
    rows = [(one.what, one.asked, one.read, one.off, one.now, one.word) for one in told.readings]
    return table(columns, rows)
