"""Sheets printed again after readings: new numbers in their places, and the old ones struck through at the top."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import replace

from fitwright.assess import Assessment
from fitwright.sheets.packet.model import Page
from fitwright.sheets.truing_told import ChangeTold, change_told

STEPS = "steps"
LATEST = "Where a step below says the number that is struck through, take the new one."
SHEET_OF = {"cutting": "cutting", "bending": "bend sheet", "bench": "bench", "timber": "timber"}


def reprinted(assessment: Assessment, pages: Iterable[Page]) -> Iterator[Page]:
    """Pages made of the piece as it follows from the readings, each with the numbers of its own that changed.

    The steps keep the numbers as drawn, and have all that changed on top.
    """
    told = [change_told(one, assessment.job.style) for one in assessment.changes]
    for page in pages:
        mine = [one for one in told if _belongs(one, page)]
        rows = [[one.mark, one.what, one.old, one.new] for one in mine]
        more = {"changed-lead": "Changed by readings.", "changed-rest": LATEST} if page.kind == STEPS else {}
        yield replace(page, content={**page.content, "changed": rows, **more}) if rows else page


def _belongs(one: ChangeTold, page: Page) -> bool:
    if page.kind == STEPS:
        return True
    if SHEET_OF.get(page.kind) != one.sheet:
        return False
    if page.kind == "bench":
        return page.title.removeprefix("Bench: ") in one.what
    return bool(one.mark) and f'"{one.mark}' in json.dumps(page.content, ensure_ascii=False)
