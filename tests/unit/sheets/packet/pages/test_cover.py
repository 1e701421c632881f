from __future__ import annotations

from datetime import date

import pytest

from fitwright.findings import Finding, Verdict
from fitwright.sheets.drawing import A4
from fitwright.sheets.packet.model import Page
from fitwright.sheets.packet.pages.arranging import arrangement_drawing
from fitwright.sheets.packet.pages.cover import checks_page, cover_page, shortened, urgent_table
from fitwright.units import Style
from tests.unit.sheets.packet.jobs import stand


@pytest.fixture(scope="module")
def cover() -> Page:
    """The boot stand's."""
    assessment = stand()
    return cover_page(assessment, arrangement_drawing(assessment, A4, date(2027, 1, 5)), ())


def test_facts_are_the_assessments(cover: Page) -> None:
    facts, piece = dict(cover.content["facts"]), stand().piece
    assert facts["client"] == "A rowing club"
    assert facts["due"] == "2027-01-05"
    assert facts["weight"] == Style.metric().weight(piece.mass)
    assert facts["height"] == Style.metric().length(float(piece.envelope.size[2])) == "900.0 mm"
    assert facts[""] == "over all, casters turned any way"


def test_what_does_not_hold_is_told_in_full_and_the_rest_counted(cover: Page) -> None:
    findings = stand().all_findings
    urgent = [found for found in findings if found.verdict is not Verdict.HOLDS]
    assert len(cover.content["findings"]["rows"]) == len(urgent)
    assert f"{len(findings) - len(urgent)} checks hold" in cover.content["more"]


def test_each_finding_has_sign_word_and_advice() -> None:
    found = Finding("space", "left", "gap on the left", Verdict.FAILS, 3.0, 10.0, -7.0, "mm", advice="move it")
    (row,) = urgent_table([found], Style.metric())["rows"]
    assert row == [{"sign": "✗", "word": "fails"}, ["space, left: gap on the left", "move it"], "3.0 mm", "10.0 mm"]


@pytest.mark.parametrize("most", range(60, 140, 7))
def test_advice_cut_short_ends_with_a_whole_phrase(most: int) -> None:
    advice = "spread the feet, or hold the top to the wall, or weld in a plug; " + "x" * most + " and so on" * 20
    assert shortened(advice) == "spread the feet, or hold the top to the wall, or weld in a plug; more in findings.csv"
    assert shortened(advice.replace("; ", ", or ")).endswith("a plug; more in findings.csv")


def test_the_picture_is_the_piece_without_marks(cover: Page) -> None:
    view = cover.pictures["piece"].views[0]
    assert view.marks == ()
    assert len(view.strokes) > 10


def test_checks_that_hold_are_on_a_page_of_their_own() -> None:
    page = checks_page(stand())
    assert page is not None
    rows = page.content["tables"][-1]["rows"]
    checks = {found.check for found in stand().all_findings if found.verdict is Verdict.HOLDS}
    assert {row[1][0].split(" [")[0] for row in rows} == checks


@pytest.mark.parametrize(("many", "on_cover"), [(8, True), (9, False)])
def test_a_crowded_cover_leaves_what_to_do_to_the_checks(many: int, on_cover: bool) -> None:
    assessment = stand()
    tight = [Finding("space", f"gap {k}", "gap", Verdict.TIGHT, advice="measure again") for k in range(many - 1)]
    fails = Finding("space", "door", "gap", Verdict.FAILS, advice="move the door")
    held = Finding("space", "top", "gap", Verdict.HOLDS, 30.0, 10.0, 20.0, "mm", "a source")
    assessment.__dict__["all_findings"] = (fails, *tight, held)
    cover = cover_page(assessment, arrangement_drawing(assessment, A4, date(2027, 1, 5)), ())
    told, checks = str(cover.content["findings"]), checks_page(assessment)
    assert checks is not None
    assert "move the door" in told
    assert ("measure again" in told) == on_cover
    assert ("measure again" in str(checks.content["tables"])) != on_cover


def test_a_unit_that_is_a_phrase_stands_with_its_check() -> None:
    assessment = stand()
    found = Finding("threads", "foot", "full threads", Verdict.HOLDS, 12.0, 3.0, 9.0, "threads", "a source")
    assessment.__dict__["all_findings"] = (found,)
    page = checks_page(assessment)
    assert page is not None
    (row,) = page.content["tables"][0]["rows"]
    assert row[1:] == [["full threads [threads]", "a source"], "12", "3"]


def test_one_line_stands_for_parts_checked_alike_and_tells_the_worst() -> None:
    assessment = stand()
    told = tuple(
        Finding("bending", mark, "straight", Verdict.HOLDS, value, 10.0, value - 10.0, "mm", "a source")
        for mark, value in (("A1", 30.0), ("B1", 12.0), ("C1", 20.0))
    )
    assessment.__dict__["all_findings"] = told
    page = checks_page(assessment)
    assert page is not None
    assert page.content["tables"][0]["rows"] == [
        ["bending: A1, B1, C1", ["straight", "a source"], "12.0 mm", "10.0 mm"]
    ]
