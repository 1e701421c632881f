from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from fitwright.checks.strength import governing_case, stresses
from fitwright.findings import Finding, Verdict
from fitwright.sheets.drawing import A4
from fitwright.sheets.packet.contents import head_of
from fitwright.sheets.packet.model import Page
from fitwright.sheets.packet.pages.arranging import arrangement_drawing
from fitwright.sheets.packet.pages.strength import MOST, nearest_to_limit, strength_page
from fitwright.sheets.packet.typesetting import typeset
from fitwright.sheets.wording import amount
from tests.demos import assessed
from tests.unit.sheets.packet.jobs import plain, texts

DAY = date(2027, 1, 5)
RAIL = "coat-rail"


@pytest.fixture(scope="module")
def page() -> Page:
    """That of the coat rail."""
    found = strength_page(assessed(RAIL), arrangement_drawing(assessed(RAIL), A4, DAY))
    assert found is not None
    return found


def _finding(check: str, verdict: Verdict, margin: float, area: str = "strength") -> Finding:
    return Finding(area, f"{check} {margin}", check, verdict, 10 - margin, 10.0, margin)


def test_it_tells_the_case_that_governs_and_its_numbers(page: Page) -> None:
    rail = assessed(RAIL)
    results = rail.frame
    assert results is not None
    case = governing_case(rail.job, results)
    assert page.content["case"].lower() == results.cases.cases[case].name.lower()
    worst = float(np.nanmax(stresses(results).values[:, :, case]))
    most = float(np.linalg.norm(results.framed.moved_ends(results.displacements[:, :, case]), axis=2).max())
    told = " ".join(page.content["told"])
    assert rail.job.style.stress(worst) in told
    assert f"by {most:.1f} mm" in told


def test_a_length_is_rounded_as_on_every_other_sheet(page: Page) -> None:
    rail = assessed(RAIL)
    sag = next(found for found in rail.findings if found.check == "sag" and found.unit == "mm")
    row = next(row for row in page.content["findings"]["rows"] if row[1][0].startswith("sag: "))
    assert row[2:] == [amount(value, "mm", rail.job.style) for value in (sag.value, sag.limit)]


def test_it_tells_the_loads_of_the_brief(page: Page) -> None:
    said = " ".join(page.content["assumed"])
    for part, force in assessed(RAIL).job.brief.loads.on.items():
        assert f"{part} {assessed(RAIL).job.style.force(force)}" in said


def test_the_printed_page_says_case_exaggeration_and_who_decides(page: Page) -> None:
    (said,) = texts(typeset(head_of(assessed(RAIL), A4, DAY), [page], DAY))
    assert page.content["case"] in said
    assert "times as far as it moves" in said
    assert "licensed practitioner decide" in said
    assert "sway" in said
    assert "sag" in said


def test_each_check_is_told_once_by_its_worst_subject() -> None:
    found = nearest_to_limit(
        [
            _finding("stress", Verdict.HOLDS, 6.0),
            _finding("stress", Verdict.HOLDS, 2.0),
            _finding("sag", Verdict.TIGHT, 4.0),
            _finding("sway", Verdict.FAILS, -1.0),
            _finding("gap", Verdict.FAILS, -9.0, area="space"),
        ]
    )
    assert [(one.check, one.margin) for one in found] == [("sway", -1.0), ("sag", 4.0), ("stress", 2.0)]


def test_no_more_checks_than_have_room() -> None:
    assert len(nearest_to_limit([_finding(f"check {k}", Verdict.HOLDS, 1.0) for k in range(20)])) == MOST


def test_a_piece_that_is_no_frame_has_no_page() -> None:
    assert strength_page(plain(), arrangement_drawing(plain(), A4, DAY)) is None
