"""The sheets of each trade, set aside from the others so that each can be had by itself."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from fitwright.assess import Assessment
from fitwright.sheets.drawing import A4, LETTER, Paper
from fitwright.sheets.packet.model import Page
from fitwright.web.aside import Task, Tell
from fitwright.web.leaves import Leaf, leaves_of

Pages = Callable[[Assessment, Paper], Iterable[Page | None]]


@dataclass(frozen=True)
class Trade:
    """One trade: its word on the page, what it has in a few words, the task that sets its sheets, and what is said
    where a job has none."""

    word: str
    about: str
    task: Task
    none: str


def bench_sheets(assessment: Assessment, tell: Tell) -> tuple[Leaf, ...]:
    """Every set-up on the bench."""

    def set_up(done: int, of: int, name: str) -> None:
        tell(f"bench: {name}" if name else "drawing", 0.8 * done / max(of, 1))

    def drawing(name: str) -> None:
        tell(f"drawing {name}", 0.85)

    def pages(found: Assessment, _: Paper) -> Iterable[Page | None]:
        from fitwright.sheets.packet.pages.bench import bench_pages

        return bench_pages(found, drawing)

    assessment.set_up(set_up)
    return _set(assessment, pages)


def template_sheets(assessment: Assessment, tell: Tell) -> tuple[Leaf, ...]:
    """Every template, at 1:1."""
    tell("templates", 0.2)

    def pages(found: Assessment, paper: Paper) -> Iterable[Page | None]:
        from fitwright.sheets.packet.pages.coping import cope_pages

        return cope_pages(found, paper)

    return _set(assessment, pages)


def timber_sheets(assessment: Assessment, tell: Tell) -> tuple[Leaf, ...]:
    """Boards, gaps, screws and order of work of every panel."""
    tell("timber", 0.3)

    def pages(found: Assessment, _: Paper) -> Iterable[Page | None]:
        from fitwright.sheets.packet.pages.timber import timber_pages

        return timber_pages(found)

    return _set(assessment, pages)


def finish_sheets(assessment: Assessment, tell: Tell) -> tuple[Leaf, ...]:
    """Areas, grits, coats, tins and waits."""
    tell("finish", 0.3)

    def pages(found: Assessment, _: Paper) -> Iterable[Page | None]:
        from fitwright.sheets.packet.pages.finishing import finish_page

        return [finish_page(found)]

    return _set(assessment, pages)


def _set(assessment: Assessment, pages: Pages) -> tuple[Leaf, ...]:
    paper = LETTER if assessment.job.style.unit == "inch" else A4
    found = [page for page in pages(assessment, paper) if page is not None]
    return leaves_of(assessment, found, paper, date.today()) if found else ()


TRADES: Mapping[str, Trade] = {
    "bench": Trade("Bench", "set-ups, blocks, check numbers", bench_sheets, "One part by itself needs no set-up."),
    "templates": Trade("Templates", "to wrap round ends, at true size", template_sheets, "No end is coped or mitred."),
    "timber": Trade("Timber", "boards, gaps, screws", timber_sheets, "There is no timber in this piece."),
    "finish": Trade("Finish", "areas, coats, tins, waits", finish_sheets, "There is nothing to finish."),
}
