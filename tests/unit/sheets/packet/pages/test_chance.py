from __future__ import annotations

from datetime import date

import pytest

from fitwright.checks.fit_chance import WORTH
from fitwright.mechanics.variation import VirtualBuilds
from fitwright.sheets.drawing import A4
from fitwright.sheets.packet.contents import head_of
from fitwright.sheets.packet.model import Page
from fitwright.sheets.packet.pages.chance import chance_page
from fitwright.sheets.packet.typesetting import typeset
from fitwright.sheets.wording import percent
from tests.demos import assessed
from tests.unit.sheets.packet.jobs import plain, stand, texts

DAY = date(2027, 1, 5)


@pytest.fixture(scope="module")
def page() -> Page:
    """That of the boot stand, which is likely to rock."""
    found = chance_page(stand())
    assert found is not None
    return found


def _builds() -> VirtualBuilds:
    builds = stand().builds
    assert builds is not None
    return builds


def test_the_most_doubtful_comes_first_with_its_verdict(page: Page) -> None:
    governing = _builds().governing
    assert governing is not None
    (verdict, (what, decided), chance), *_ = page.content["chances"]["rows"]
    assert verdict["word"] == "fails"
    assert what == "chance that it stands without rocking"
    assert chance == percent(governing.value)
    for share in governing.deciders:
        assert f"{share.words} {share.share:.0%}" in decided


def test_the_three_that_decide_have_their_basis(page: Page) -> None:
    governing = _builds().governing
    assert governing is not None
    rows = page.content["deciding"]["rows"]
    assert [row[0] for row in rows] == [share.words for share in governing.deciders]
    assert all(row[2] for row in rows)


def test_changes_that_help_are_told_with_the_chance_they_leave(page: Page) -> None:
    builds = _builds()
    governing = builds.governing
    assert governing is not None
    now, *rows = page.content["changes"]["rows"]
    assert now[1:] == [percent(governing.value), percent(builds.overall)]
    told = {row[0]: row[1] for row in rows}
    for change in builds.changes:
        left = change.chances[governing.name]
        if left - governing.value >= WORTH:
            assert told[change.words] == percent(left)
    assert any("shim" in words for words in told)


def test_changes_that_do_not_help_are_told_in_a_line() -> None:
    found = chance_page(assessed("coat-rail"))
    assert found is not None
    assert not found.content["changes"]["rows"]
    assert any("not worth a hundredth" in said for said in found.content["advice"])


def test_going_in_is_left_out_where_the_gaps_wanted_are_as_sure(page: Page) -> None:
    whats = [row[1][0] for row in page.content["chances"]["rows"]]
    assert "chance of the gaps wanted, across" in whats
    assert "chance that it goes in, across" not in whats
    assert "chance that it goes in, above" in whats


def test_the_printed_page_shows_both_pictures(page: Page) -> None:
    assert list(page.pictures) == ["p0", "p1"]
    said = " ".join(texts(typeset(head_of(stand(), A4, DAY), [page], DAY)))
    assert "stands flat: at most 1.0 mm" in said
    assert "fits as wanted: at least" in said
    assert "hatched: it misses the limit" in said
    assert page.pictures["p0"].views[0].hatches


def test_a_piece_that_is_no_frame_has_no_page() -> None:
    assert chance_page(plain()) is None
