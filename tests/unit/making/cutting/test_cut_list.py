from __future__ import annotations

from fitwright.making.cutting import CutGroup, SawnPiece, cut_list


def test_longest_first_and_each_setting_once() -> None:
    lengths = [300.0, 812.5, 300.0, 450.0, 812.5, 300.02]
    groups = cut_list([SawnPiece(f"A{i}", "flat 30 x 5", n) for i, n in enumerate(lengths)])
    assert [(group.setting_mm, group.quantity) for group in groups] == [(812.5, 2), (450.0, 1), (300.02, 3)]
    assert groups[2].marks == ("A0", "A2", "A5")


def test_stocks_are_kept_apart_in_their_order() -> None:
    groups = cut_list([SawnPiece("B", "tube", 100.0), SawnPiece("A", "flat", 900.0), SawnPiece("C", "tube", 200.0)])
    assert [(group.stock, group.setting_mm) for group in groups] == [("tube", 200.0), ("tube", 100.0), ("flat", 900.0)]


def test_mitres_are_settings_of_their_own_whichever_end_they_are_at() -> None:
    pieces = [
        SawnPiece("A1", "tube", 500.0, 0.0, 45.0),
        SawnPiece("A2", "tube", 500.0),
        SawnPiece("A3", "tube", 500.0, 45.0, 0.0, 3),
        SawnPiece("A4", "tube", 500.0, 45.0, -45.0),
    ]
    groups = cut_list(pieces)
    assert [(group.angle_start_deg, group.angle_end_deg, group.quantity) for group in groups] == [
        (0.0, 0.0, 1),
        (45.0, 0.0, 4),
        (45.0, -45.0, 1),
    ]
    assert [group.mitred for group in groups] == [False, True, True]
    assert groups[1].marks == ("A1", "A3")


def test_nothing_wanted_is_no_group() -> None:
    assert cut_list([SawnPiece("A1", "tube", 500.0, quantity=0)]) == ()


def test_group_from_plain_numbers() -> None:
    assert not CutGroup("tube", 500.0, 0.0, 0.0, ("A1",), 1).mitred


def test_ends_that_lean_the_same_way_are_another_setting_than_those_that_lean_together() -> None:
    pieces = [
        SawnPiece("A1", "tube", 500.0, 45.0, 30.0),
        SawnPiece("A2", "tube", 500.0, 45.0, -30.0),
        SawnPiece("A3", "tube", 500.0, -30.0, 45.0),
        SawnPiece("A4", "tube", 500.0, -30.0, -45.0),
    ]
    found = [(group.angle_start_deg, group.angle_end_deg, group.marks) for group in cut_list(pieces)]
    assert found == [(45.0, 30.0, ("A1", "A4")), (45.0, -30.0, ("A2", "A3"))]
