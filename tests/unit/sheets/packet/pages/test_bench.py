from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest

from fitwright.assess import Assessment
from fitwright.sheets.drawing import A4, LETTER, Paper
from fitwright.sheets.packet.contents import head_of
from fitwright.sheets.packet.model import Json, Page
from fitwright.sheets.packet.pages.bench import allowed, bench_pages
from fitwright.sheets.packet.typesetting import typeset
from fitwright.units import Style
from tests.unit.sheets.packet.jobs import plain, stand, texts

DAY = date(2027, 1, 5)


def _pages(assessment: Assessment) -> dict[str, Page]:
    return {page.title: page for page in bench_pages(assessment, lambda _: None)}


@pytest.fixture(scope="module")
def sheets() -> dict[str, Page]:
    """The boot stand: two hoops that are alike, then both on their sides with the ties between."""
    return _pages(stand())


def _table(page: Page, title: str) -> Json:
    return next(part for part in page.content["tables"] if part.get("title") == title)


def test_a_sheet_for_every_set_up_in_order(sheets: dict[str, Page]) -> None:
    assert list(sheets) == ["Bench set-ups", "Bench: hoop 1", "Bench: hoop 2", "Bench: the whole"]
    rows = sheets["Bench set-ups"].content["tables"][0]["rows"]
    assert [row[:3] for row in rows] == [
        ["1", "hoop 1", ""],
        ["2", "hoop 2", "made like “hoop 1”"],
        ["3", "the whole", "“hoop 1” and “hoop 2”"],
    ]


def test_one_part_by_itself_needs_no_set_up() -> None:
    assert plain().bench == ()
    assert _pages(plain()) == {}


def test_blocks_are_listed_once_for_all_with_a_box_for_each(sheets: dict[str, Page]) -> None:
    rows = _table(sheets["Bench set-ups"], "Blocks to cut")["rows"]
    # the hoops of 32 are 350 deep over all: 286 apart; the ties' middles are 220 from the hoops' ends, less half of 32
    assert [(row[0], row[1], row[4]) for row in rows] == [("S1", "204.0 mm", 2), ("U1", "286.0 mm", 4)]
    assert rows[1][3].endswith("upright")


def test_stops_are_told_by_their_holes_and_what_they_touch(sheets: dict[str, Page]) -> None:
    (plan, *_) = stand().bench
    stops = _table(sheets["Bench: hoop 1"], "Stops")
    assert [row[0] for row in stops["rows"]] == [stop.hole for stop in plan.stops]
    assert [row[3] for row in stops["rows"]] == [stop.face for stop in plan.stops]
    assert "block" not in [column["head"] for column in stops["columns"]]


def test_a_stop_without_a_hole_is_told_in_words() -> None:
    assessment = stand()
    plan = assessment.bench[0]
    off = replace(plan.stops[0], hole="off A1", kind="A1", gap=30.0, block="S9")
    bar = replace(plan.stops[1], hole="40.0 mm from the left edge", kind="bar")
    slid = replace(plan.stops[2], set_by_hand=True, reach=44.25)
    assessment.__dict__["bench"] = (replace(plan, stops=(off, bar, slid)),)
    (page,) = _pages(assessment).values()
    rows = _table(page, "Stops")["rows"]
    assert rows[0][:3] == ["", "no stop: the block bears off A1", "S9"]
    assert rows[1][:2] == ["", "bar, 40.0 mm from the left edge"]
    assert rows[2][1] == [plan.stops[2].kind, "set its face 44.3 mm from the hole"]


def test_spacers_and_clamps_are_told(sheets: dict[str, Page]) -> None:
    page = sheets["Bench: the whole"]
    spacers = _table(page, "What stands, and what sets it along")["rows"]
    assert [row[:5] for row in spacers] == [["B1", "A1", "S1", "204.0 mm", "the left end of A1"]]
    assert spacers[0][5] == 2  # two of them are set alike: a box for each
    ((part, _, holes, boxes),) = _table(page, "Clamps")["rows"]
    clamps = stand().bench[2].clamps
    assert (part, holes.split(", "), boxes) == ("A1", [clamp.hole for clamp in clamps], len(clamps))


def test_every_check_number_has_a_tolerance_and_room_for_the_reading(sheets: dict[str, Page]) -> None:
    checks = sheets["Bench: hoop 1"].content["checks"]
    assert [column["kind"] for column in checks["columns"]] == ["text", "number", "number", "field", "boxes"]
    # the hoop stands from 80 to 900 and is 600 wide
    off = {check.name: allowed(check.tolerance, Style.metric()) for check in stand().bench[0].checks}
    for name, length in (
        ("length along the front, outside to outside", "820.0 mm"),
        ("width along the right, outside to outside", "600.0 mm"),
    ):  # fmt: skip
        assert [name, length, off[name], "", 1] in checks["rows"]
    assert sheets["Bench: hoop 1"].content["reading"].startswith("The two diagonals read the same when it is square.")


def test_diagonals_that_differ_are_not_said_to_be_equal() -> None:
    assessment = stand()
    plan = assessment.bench[0]
    longer = replace(plan.checks[0], length=plan.checks[0].length + 5.0)
    assessment.__dict__["bench"] = (replace(plan, checks=(longer, *plan.checks[1:])),)
    (page,) = _pages(assessment).values()
    assert page.content["reading"] == "What each may be off: 19 of 20 virtual builds lie within it."


@pytest.mark.parametrize("style", [Style.inch(), Style.metric(), Style.inch(Fraction(1, 64)), Style("cm", Fraction(1))])
@pytest.mark.parametrize("tolerance", [1.0, 2.0, 3.0, 4.0, 6.0])
def test_a_tolerance_is_never_rounded_up(tolerance: float, style: Style) -> None:
    from fitwright.units import parse_length

    assert 0 < parse_length(allowed(tolerance, style)) <= tolerance + 1e-9


def test_equal_ones_are_set_up_once_and_matched(sheets: dict[str, Page]) -> None:
    page = sheets["Bench: hoop 2"]
    assert page.content["told"].startswith("Set up once, matched on the first.")
    assert "“Bench: hoop 1”" in page.content["told"]
    assert page.joins
    assert not page.pictures
    assert page.content["checks"] == sheets["Bench: hoop 1"].content["checks"]


def test_each_drawing_is_made_once_and_told() -> None:
    told: list[str] = []
    pages = list(bench_pages(stand(), told.append))
    assert told == ["hoop 1", "the whole"]
    assert sum("bench" in page.pictures for page in pages) == 2


def test_findings_of_a_set_up_are_among_all_and_once() -> None:
    assessment = stand()
    found = [one for one in assessment.all_findings if one.area == "bench"]
    assert {one.subject for one in found} == {"hoop 1", "the whole"}
    assert sorted(map(repr, found)) == sorted(
        repr(one) for plan in assessment.bench if not plan.subassembly.same_as for one in plan.findings
    )


def test_what_does_not_hold_is_told_on_its_sheet() -> None:
    from fitwright.findings import Finding, Verdict

    assessment = stand()
    plan = assessment.bench[0]
    tight = Finding("bench", plan.name, "clamps", Verdict.TIGHT, advice="use magnets")
    assessment.__dict__["bench"] = (replace(plan, findings=(*plan.findings, tight)),)
    (page,) = _pages(assessment).values()
    assert [row[1] for row in page.content["findings"]["rows"]] == [["bench, hoop 1: clamps", "use magnets"]]


def test_progress_is_told_by_set_up() -> None:
    assessment = stand()
    kept = assessment.__dict__.pop("bench")
    told: list[tuple[int, int, str]] = []
    plans = assessment.set_up(lambda done, total, name: told.append((done, total, name)))
    assert told == [(0, 3, "hoop 1"), (1, 3, "hoop 2"), (2, 3, "the whole"), (3, 3, "")]
    assert [plan.name for plan in plans] == [plan.name for plan in kept]
    assert assessment.set_up(lambda *_: pytest.fail("planned twice")) is plans


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_pages_are_printed_on_both_papers(sheets: dict[str, Page], paper: Paper) -> None:
    said = texts(typeset(head_of(stand(), paper, DAY), list(sheets.values()), DAY))
    whole = " ".join(said)
    for plan in stand().bench:
        assert f"Bench: {plan.name}" in whole
        assert all(" ".join(words.split()[:4]) in whole for words in plan.steps)
    assert "Read with a tape" in whole
    assert all(sheet.paper.width <= paper.width - 30 for page in sheets.values() for sheet in page.pictures.values())
