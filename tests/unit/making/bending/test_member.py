"""A bend sheet straight from a member of the piece."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.making.bending import EndNeed, bend_sheet_of
from fitwright.piece.body import Body
from fitwright.piece.model import CutKind, EndCut, Member
from fitwright.piece.path import Path
from fitwright.shop import default_shop
from fitwright.stock import parse_stock

TUBE = parse_stock("round tube 32 x 2")


def member(*ends: EndCut) -> Member:
    path = Path(np.array([[0, 0, 0], [0, 0, 700], [500, 0, 700]], float), np.array([0, 100.0, 0]))
    body = Body(path, np.array([[1.0, 0, 0], [0, 1.0, 0]]), TUBE.section)
    first, last = ends
    return Member(0, "hoop 1", "hoop", TUBE, body, (first, last), False, "welded", path.length, 1.0, np.zeros(3))


def test_its_cuts_become_trims() -> None:
    cope = EndCut(CutKind.COPE, copes=(1,), longest=-14.0, shortest=-16.0)
    sheet = bend_sheet_of(member(EndCut(CutKind.SQUARE), cope), "A1", default_shop("mm"))
    assert sheet.subject == "A1"
    assert sheet.stock == TUBE.label
    assert [trim.allowance for trim in sheet.trims] == [0, 25]
    assert sheet.trims[1].keep == pytest.approx(400 - 14)
    assert sheet.blank == pytest.approx(sheet.developed - 14 + 25)


@pytest.mark.parametrize(
    ("kind", "after"),
    [(CutKind.SQUARE, False), (CutKind.FLATTENED, False), (CutKind.MITRE, True), (CutKind.COPE, True)],
)
def test_which_ends_are_cut_after_bending(kind: CutKind, after: bool) -> None:
    assert EndNeed.of(EndCut(kind, longest=2, shortest=-3)) == EndNeed(2, -3, after)
