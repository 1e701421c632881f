"""Sheets as pictures: the same pages as the packet's PDF, each title on its page."""

from __future__ import annotations

from datetime import date

from fitwright.web.leaves import leaves
from tests.demos import assessed

DAY = date(2027, 1, 5)


def test_every_sheet_is_found_on_its_page() -> None:
    found = leaves(assessed("coat-rail"), DAY)
    titles = [title for leaf in found for title in leaf.titles]
    assert titles[0] == "Cover"
    assert any(title.startswith("Bend sheet") for title in titles)
    assert all(b"<svg" in leaf.svg[:200] for leaf in found)
    assert any("C1" in leaf.marks for leaf in found)


def test_the_paper_is_that_of_the_jobs_unit() -> None:
    """A4 is 210 by 297 mm (ISO 216): 595 by 842 points."""
    assert leaves(assessed("coat-rail"), DAY)[0].size == (595, 842)
