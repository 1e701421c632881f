"""Which pages a packet has, in their order."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date

from fitwright.assess import Assessment
from fitwright.sheets.drawing import Drawing, Paper
from fitwright.sheets.packet.cautioning import cautions_of, unchecked
from fitwright.sheets.packet.model import Head, Page
from fitwright.sheets.packet.pages.arranging import UNITS, arrangement_page
from fitwright.sheets.packet.pages.bench import bench_pages
from fitwright.sheets.packet.pages.bending import bend_pages
from fitwright.sheets.packet.pages.buying import buying_page, hardware_page
from fitwright.sheets.packet.pages.cautions import cautions_page
from fitwright.sheets.packet.pages.chance import chance_page
from fitwright.sheets.packet.pages.coping import cope_pages
from fitwright.sheets.packet.pages.cover import checks_page, cover_page
from fitwright.sheets.packet.pages.cutting import cutting_pages
from fitwright.sheets.packet.pages.finishing import finish_page
from fitwright.sheets.packet.pages.parts import parts_page
from fitwright.sheets.packet.pages.photo import photo_page
from fitwright.sheets.packet.pages.place import place_page
from fitwright.sheets.packet.pages.schedule import begun, schedule_page
from fitwright.sheets.packet.pages.steps import steps_page
from fitwright.sheets.packet.pages.strength import strength_page
from fitwright.sheets.packet.pages.timber import timber_pages
from fitwright.sheets.packet.pages.truing import truing_page
from fitwright.sheets.packet.pages.way_in import way_in_page
from fitwright.sheets.packet.pages.welding import welding_pages
from fitwright.sheets.packet.reprinting import reprinted

Step = Callable[[str], None]
LONGEST_FOOT = 90  # letters of the line at the foot of a page


def head_of(assessment: Assessment, paper: Paper, made_on: date) -> Head:
    """What stands at the foot of every page."""
    job = assessment.job
    return Head(
        title=f"Shop packet: {job.name}",
        job=_short(f"{job.name}, {job.client}" if job.client else job.name),
        said=f"lengths in {UNITS[job.style.unit]}; where safety is concerned, local codes decide",
        made=made_on.isoformat(),
        paper="us-letter" if paper.name == "Letter" else "a4",
    )


def _short(text: str) -> str:
    return text if len(text) <= LONGEST_FOOT else text[: LONGEST_FOOT - 1].rstrip() + "…"


def pages_of(assessment: Assessment, whole: Drawing, step: Step) -> tuple[Page, ...]:
    """Every page that has something to say; whole: the general arrangement; step is told what is under way."""
    return tuple(page for page in _pages(assessment, whole, step) if page is not None)


def _pages(assessment: Assessment, whole: Drawing, step: Step) -> Iterator[Page | None]:
    cautions = cautions_of(assessment)
    step("cover and lists")
    yield cover_page(assessment, whole, cautions)
    yield truing_page(assessment)
    yield arrangement_page(whole)
    yield parts_page(assessment)
    yield buying_page(assessment)
    step("cutting sheets")
    trued = assessment.trued
    yield from reprinted(assessment, cutting_pages(trued))
    step("bend sheets")
    yield from reprinted(assessment, (page for _, page in bend_pages(trued)))
    yield from cope_pages(trued, whole.paper)
    yield from reprinted(assessment, bench_pages(trued, lambda name: step(f"bench sheet: {name}")))
    step("welding, timber, place")
    yield from welding_pages(assessment, whole, cautions)
    yield from reprinted(assessment, timber_pages(trued))
    yield finish_page(assessment)
    yield hardware_page(assessment)
    yield photo_page(assessment)
    yield place_page(assessment, whole)
    yield way_in_page(assessment)
    schedule = begun(assessment, whole)
    yield schedule_page(schedule)
    yield from reprinted(assessment, (page for page in [steps_page(assessment, whole, schedule)] if page is not None))
    yield strength_page(assessment, whole)
    yield chance_page(assessment)
    yield checks_page(assessment)
    yield cautions_page(cautions, unchecked(assessment))
