"""The packets of the shipped demo jobs: every page is there, says what was computed, and keeps its margins clear."""

from __future__ import annotations

import io
from collections.abc import Callable
from datetime import date
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from fitwright.assess import Assessment, assess
from fitwright.findings import Verdict
from fitwright.job import load_job
from fitwright.sheets.drawing import A4, LETTER, Paper
from fitwright.sheets.packet.contents import head_of, pages_of
from fitwright.sheets.packet.model import Page
from fitwright.sheets.packet.pages.arranging import arrangement_drawing
from fitwright.sheets.packet.typesetting import sources_of, typeset
from fitwright.shop import default_shop
from tests.unit.sheets.packet.jobs import texts

EXAMPLES = Path(__file__).parents[2] / "examples"
JOBS = sorted(file.parent.name for file in EXAMPLES.glob("*/job.yaml"))
DAY = date(2027, 1, 5)
PAPERS = {"letter": LETTER, "a4": A4}
SIDES_MM = 14.0  # the packet's own margins of 15 mm, less the width of a line
FOOT_MM = 6.0  # under the foot: what the usual printer cannot print, common practice
BODY_MM, LINE_MM = 18.0, 14.2  # above the edge: where the body ends, and where the foot begins
DOTS_PER_INCH = 50
RUN_ON = ("Bench", "Timber", "Finish", "Steps", "Checks", "The way in")  # sheets that are as long as the job needs

pytestmark = pytest.mark.parametrize("name", JOBS)


@cache
def _assessed(name: str) -> Assessment:
    job = load_job(EXAMPLES / name / "job.yaml")
    return assess(job, default_shop(job.style.unit))


def _own(name: str) -> Paper:
    return LETTER if _assessed(name).job.style.unit == "inch" else A4


@cache
def _pages(name: str, paper: Paper) -> tuple[Page, ...]:
    assessment = _assessed(name)
    return pages_of(assessment, arrangement_drawing(assessment, paper, DAY), lambda _: None)


@cache
def _said(name: str) -> list[str]:
    paper = _own(name)
    return texts(typeset(head_of(_assessed(name), paper, DAY), _pages(name, paper), DAY))


def _drawing(name: str) -> int:
    """Where the general arrangement is, which follows the cover."""
    return next(k for k, page in enumerate(_said(name)) if "isometric, not to scale" in page)


def _cover(name: str) -> str:
    return " ".join(_said(name)[: _drawing(name)])


def _on(name: str, title: str) -> str:
    """The page that carries a title, the cover's list of sheets aside."""
    return next(page for page in _said(name)[_drawing(name) :] if title in page)


def test_every_sheet_is_there_once_and_numbered(name: str) -> None:
    said = _said(name)
    for sheet in _pages(name, _own(name))[1:]:
        assert sheet.title in _cover(name), "listed on the cover"
        assert sheet.title in _on(name, sheet.title)
    assert [f"page {k} of {len(said)}" in page for k, page in enumerate(said, 1)] == [True] * len(said)


def test_the_demo_packets_are_not_padded(name: str) -> None:
    """No more pages than sheets, but for those whose length goes with the job, which run on."""
    paper = _own(name)
    kept = tuple(sheet for sheet in _pages(name, paper) if not sheet.title.startswith(RUN_ON))
    assert len(texts(typeset(head_of(_assessed(name), paper, DAY), kept, DAY))) <= len(kept)


def test_the_cover_is_one_page(name: str) -> None:
    assert _drawing(name) == 1


def test_the_cover_says_size_weight_and_verdicts(name: str) -> None:
    assessment, cover = _assessed(name), _cover(name)
    style = assessment.job.style
    for side in assessment.piece.envelope.size:
        assert style.length(float(side)) in cover
    assert style.weight(assessment.piece.mass) in cover
    for found in assessment.findings:
        assert found.verdict is Verdict.HOLDS or found.verdict.value in cover


def test_parts_have_their_mark_and_length(name: str) -> None:
    assessment, page = _assessed(name), _on(name, "Parts list")
    for mark, member in assessment.made.items():
        sheet = assessment.bend_sheets.get(mark)
        assert f"{mark} " in page
        assert assessment.job.style.length(sheet.blank if sheet else member.cut_length) in page


def test_bend_sheets_say_blank_marks_and_angles(name: str) -> None:
    assessment = _assessed(name)
    style = assessment.job.style
    for mark, sheet in assessment.bend_sheets.items():
        page = _on(name, f"Bend sheet: {assessment.made[mark].part}")
        assert style.length(sheet.blank) in page
        for step in sheet.steps:
            assert style.length(step.mark) in page
            assert style.angle(step.command_angle) in page
            assert f"bend {step.number}" in page, "in the picture"


def test_cutting_says_settings_and_cost(name: str) -> None:
    assessment = _assessed(name)
    for label, plan in assessment.cutting_plans.items():
        page = _on(name, f"Cutting: {label}")
        assert f"{plan.cost:.2f} {assessment.shop.currency}" in page
        for group in assessment.cut_groups:
            assert group.stock != label or assessment.job.style.length(group.setting_mm) in page


def test_the_arrangement_says_overall_sizes(name: str) -> None:
    assessment, page = _assessed(name), _said(name)[_drawing(name)]
    assert assessment.job.style.bare(float(assessment.piece.envelope.size[2])) in page
    assert "isometric" in page


@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS)
def test_margins_are_clear_and_nothing_runs_out_of_them(name: str, paper: Paper) -> None:
    """No ink outside the margins on three sides, under the foot, or between the foot and what stands over it.

    The frame of the drawing, which stands lower, may reach into that last strip.
    """
    clear = (SIDES_MM, FOOT_MM, BODY_MM, LINE_MM)
    side, foot, body, line = (int(mm / 25.4 * DOTS_PER_INCH) for mm in clear)
    for number, ink in enumerate(_inked(name, paper), 1):
        inside = np.zeros_like(ink)
        inside[side:-foot, side:-side] = True
        if number != _drawing(name) + 1:
            inside[-body:-line] = False
        assert not (ink & ~inside).any(), f"page {number}"
        assert (ink & inside).any(), f"page {number}"


def _inked(name: str, paper: Paper) -> list[np.ndarray[tuple[int, ...], np.dtype[np.bool_]]]:
    """Which dots (rows, columns) of each page are dark."""
    import typst
    from PIL import Image

    setter: Callable[..., bytes | list[bytes]] = typst.compile
    sources = sources_of(head_of(_assessed(name), paper, DAY), _pages(name, paper))
    made = setter(sources, format="png", ppi=DOTS_PER_INCH, ignore_system_fonts=True)
    pictures = made if isinstance(made, list) else [made]
    return [np.asarray(Image.open(io.BytesIO(picture)).convert("L")) < 200 for picture in pictures]
