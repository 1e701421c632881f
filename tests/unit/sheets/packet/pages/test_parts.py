from __future__ import annotations

import numpy as np
import pytest

from fitwright.piece.model import CutKind, EndCut, Plane
from fitwright.piece.sawn import OneCut
from fitwright.sheets.packet.pages.parts import end_in_words, parts_page, saw_length
from tests.unit.sheets.packet.jobs import bent, of_text, stand

PLANE = Plane(np.zeros(3), np.array([0.0, 0.0, 1.0]))


def test_every_mark_that_is_made_has_a_row() -> None:
    assessment = stand()
    rows = parts_page(assessment).content["tables"][0]["rows"]
    assert [row[0] for row in rows] == [mark.mark for mark in assessment.piece.marks if mark.kind != "hardware"]


def test_the_length_of_a_bent_part_is_its_blank() -> None:
    assessment = stand()
    (mark,) = assessment.bend_sheets
    assert saw_length(assessment, mark) == assessment.bend_sheets[mark].blank
    row = next(row for row in parts_page(assessment).content["tables"][0]["rows"] if row[0] == mark)
    assert row[2] == assessment.job.style.length(assessment.bend_sheets[mark].blank)
    assert row[1] == ["hoop, bent", "round tube 32 x 2 mm"]


def test_boards_tell_their_section() -> None:
    rows = parts_page(stand()).content["tables"][0]["rows"]
    slat = next(row for row in rows if row[1][0] == "shelf: slat")
    assert slat[2] == "520.0 mm"  # from x = 40 to 560
    assert slat[4] == "95.0 x 20.0"


def test_mirrored_parts_say_of_which() -> None:
    rows = parts_page(bent()).content["tables"][0]["rows"]
    hands = [row[1][0] for row in rows if row[1][0].startswith("hand")]
    assert len(hands) == 2
    assert hands[0] == "hand, bent"
    assert hands[1].startswith("hand, bent, mirror of ")


def test_a_ring_is_butted() -> None:
    rows = parts_page(bent()).content["tables"][0]["rows"]
    ring = next(row for row in rows if row[1][0].startswith("ring"))
    assert ring[4] == "butted"


@pytest.mark.parametrize(
    ("cut", "said"),
    [
        (EndCut(CutKind.SQUARE), "square"),
        (EndCut(CutKind.MITRE, 0.7853981633974483), "mitre 45.0°"),
        (EndCut(CutKind.COPE, 0.3), "cope"),
        (EndCut(CutKind.FLATTENED), "flattened"),
        (EndCut(CutKind.MITRE, 1.3, (PLANE, PLANE)), "mitre in 2 cuts"),
    ],
)
def test_ends_are_told_in_words(cut: EndCut, said: str) -> None:
    assert end_in_words(cut) == said


def test_a_saw_that_is_swung_and_bevelled_is_told_both_ways() -> None:
    cut = EndCut(CutKind.MITRE, 0.23, (PLANE,))
    assert end_in_words(cut, OneCut(0.2, 0.1)) == "mitre 11.5° with bevel 5.7°"
    assert end_in_words(cut, OneCut(0.23)) == "mitre 13.2°"


def test_equal_pieces_of_several_parts_are_found_under_all_their_names() -> None:
    two = """
job: {name: Two bars, unit: mm}
stock: {tube: round tube 25 x 2}
parts:
  stretcher: {stock: tube, path: [[0, 0, 0], [600, 0, 0]], ends: free}
  rail: {stock: tube, path: [[0, 300, 0], [600, 300, 0]], ends: free}
"""
    ((mark, what, *_),) = parts_page(of_text(two)).content["tables"][0]["rows"]
    assert (mark, what[0]) == ("A1", "stretcher and rail")
