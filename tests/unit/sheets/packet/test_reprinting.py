"""Sheets printed again: each gets the numbers that changed on it, and no others."""

from __future__ import annotations

from fitwright.sheets.packet.model import Page
from fitwright.sheets.packet.reprinting import reprinted
from tests.unit.truing.samples import rack, read

WIDE = ("bend 1 of hoop 1: 90", "bend 2 of hoop 1: 90", "width at the top of hoop 1: 604")


def test_each_sheet_has_its_own() -> None:
    pages = [
        Page("cutting", "Cutting: tube", {"rows": [["D1"], ["C1"]]}),
        Page("bending", "Bend sheet: hoop", {"mark": "A1"}),
        Page("coping", "Cope template", {"mark": "D1"}),
        Page("steps", "Steps", {}),
    ]
    cutting, bending, coping, steps = reprinted(read(*WIDE), pages)
    assert [row[0] for row in cutting.content["changed"]] == ["D1"]
    assert {row[0] for row in bending.content["changed"]} == {"A1"}
    assert "changed" not in coping.content
    assert len(steps.content["changed"]) > len(cutting.content["changed"])
    old, new = cutting.content["changed"][0][2:]
    assert old
    assert new
    assert old != new


def test_without_readings_pages_stay_as_they_are() -> None:
    page = Page("cutting", "Cutting", {"rows": ["D1"]})
    assert list(reprinted(rack(), [page])) == [page]
