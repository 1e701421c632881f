from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from fitwright.making.bending import BendError, EndNeed, bend_from_points, bend_sheet
from fitwright.making.bending.tools import outward_at_bends
from fitwright.piece.path import Path, straight_path
from fitwright.shop import Shop, default_shop
from fitwright.stock import parse_stock
from fitwright.units import Style

TUBE = parse_stock("round tube 32 x 2")
SHOP = default_shop("mm")
U_FRAME = Path(np.array([[0, 0, 0], [0, 0, 600], [500, 0, 600], [500, 0, 0]], float), np.array([0, 100.0, 100.0, 0]))


def with_die(**changes: object) -> Shop:
    """The metric shop with its 32 x 100 die changed."""
    dies = tuple(replace(die, **changes) if die.name == "32 x 100" else die for die in SHOP.dies)  # type: ignore[arg-type]
    return replace(SHOP, dies=dies)


def l_path(first: float, last: float) -> Path:
    """One right-angled bend of 100 mm radius with these straights."""
    points = np.array([[0, 0, 0], [first + 100, 0, 0], [first + 100, last + 100, 0]], float)
    return Path(points, np.array([0, 100.0, 0]))


def test_marks_are_tangent_points_from_the_start() -> None:
    sheet = bend_sheet("A1", U_FRAME, TUBE, SHOP)
    first, second = sheet.steps
    assert (first.mark, first.tangent) == pytest.approx((500, 500))
    assert second.tangent == pytest.approx(500 + 50 * math.pi + 300)
    assert sheet.blank == sheet.finished == pytest.approx(1300 + 100 * math.pi)
    angles, legs = sheet.notes
    assert angles.startswith("The angles to bend to are estimated")
    assert legs.endswith("expect the legs 1.0 mm longer in all than drawn.")


def test_legs_grow_by_what_the_opened_bends_gain() -> None:
    """Drawn by hand: the tube of two 90 degree bends at R 100, opened to R', with the straights as marked."""
    sheet = bend_sheet("A1", U_FRAME, TUBE, SHOP)
    kept = sheet.steps[0].springback.kept if sheet.steps[0].springback else 1.0
    arc, opened = 100 * math.pi / 2 / kept, 100 / kept
    straights = sheet.blank - 2 * arc
    assert straights + 4 * opened - (600 + 500 + 600) == pytest.approx(1.0, abs=0.25)


def test_a_measured_take_up_has_the_growth_in_it() -> None:
    assert len(bend_sheet("A1", U_FRAME, TUBE, with_die(take_up=0.99)).notes) == 1


def test_the_offset_of_the_die_moves_the_mark_and_not_the_bend() -> None:
    sheet = bend_sheet("A1", U_FRAME, TUBE, with_die(offset=-12.0))
    assert [step.mark - step.tangent for step in sheet.steps] == pytest.approx([-12, -12])
    assert sheet.blank == pytest.approx(1300 + 100 * math.pi)


def test_the_take_up_of_the_die_changes_blank_and_later_marks() -> None:
    sheet = bend_sheet("A1", U_FRAME, TUBE, with_die(take_up=0.98))
    assert sheet.blank == pytest.approx(1300 + 0.98 * 100 * math.pi)
    assert sheet.steps[1].tangent == pytest.approx(800 + 0.98 * 50 * math.pi)


def test_overbend_is_more_than_the_angle_and_says_how_sure() -> None:
    (step, _) = bend_sheet("A1", U_FRAME, TUBE, SHOP).steps
    assert step.springback is not None
    assert step.springback.low < step.command_angle < step.springback.high
    assert step.command_angle == pytest.approx(step.angle / step.springback.kept)


def test_a_coped_end_gets_the_allowance_of_the_shop() -> None:
    coped = (EndNeed(longest=-16, shortest=-20, after_bending=True), EndNeed())
    sheet = bend_sheet("A1", U_FRAME, TUBE, SHOP, ends=coped)
    start, finish = sheet.trims
    assert (start.allowance, finish.allowance) == (25, 0)
    assert start.keep == pytest.approx(484)
    # A leg at right angles: its back lies a radius and half a tube beyond the tangent point.
    assert start.measured == pytest.approx(484 + 100 + 16)
    assert start.place == "the back of bend 1"
    assert sheet.blank == pytest.approx(sheet.developed - 16 + 25)
    assert sheet.steps[0].tangent == pytest.approx(484 + 25)


def test_a_short_end_is_left_long_enough_for_the_die() -> None:
    sheet = bend_sheet("B1", l_path(400, 40), TUBE, SHOP)
    assert [trim.allowance for trim in sheet.trims] == pytest.approx([0, 62 - 40])
    assert any("Leave 22.0 mm on at the finish" in note for note in sheet.notes)


def test_the_end_that_wastes_less_goes_last() -> None:
    """The first bend wants 70 mm before it, the last 62 after it: a 66 mm leg goes last."""
    sheet = bend_sheet("B1", l_path(66, 400), TUBE, SHOP)
    assert sheet.backwards
    assert sheet.started_from == "last"
    assert sheet.blank == pytest.approx(sheet.developed)
    assert sheet.steps[0].straight_before == pytest.approx(400)
    assert not bend_sheet("B1", l_path(400, 66), TUBE, SHOP).backwards


def test_a_shallow_bend_is_measured_from_its_corner() -> None:
    points: list[list[float]] = [[0, 0, 0], [300, 0, 0], [300 + 300 * math.cos(0.5), 300 * math.sin(0.5), 0]]
    sheet = bend_from_points(points, 100, stock=TUBE, shop=SHOP)
    assert sheet.trims[0].measured == pytest.approx(300)
    assert "corner of the centrelines at bend 1" in sheet.trims[0].place


def test_a_closed_loop_meets_at_its_butt() -> None:
    points = [[0, 0, 0], [500, 0, 0], [500, 700, 0], [0, 700, 0]]
    sheet = bend_from_points(points, 100, closed=True, stock=TUBE, shop=SHOP)
    assert sheet.blank == pytest.approx(2 * (300 + 500) + 200 * math.pi)
    assert sheet.collisions == ()
    assert sheet.notes[0] == "The last bend brings both ends together at the butt."


def test_a_loop_whose_butt_lies_near_a_bend_overlaps_before_it_is_cut() -> None:
    points = np.array([[0, 0, 0], [300, 0, 0], [300, 700, 0], [0, 700, 0]], float)
    sheet = bend_sheet("L1", Path(points, np.full(4, 100.0), closed=True, seam=0.5), TUBE, SHOP)
    assert [trim.allowance for trim in sheet.trims] == pytest.approx([20, 12])
    assert any("side by side" in note for note in sheet.notes)


def test_a_ring_is_rolled_smaller_and_cut_from_an_overlap() -> None:
    r = 300
    sheet = bend_from_points([[-r, -r, 0], [r, -r, 0], [r, r, 0], [-r, r, 0]], r, closed=True, stock=TUBE, shop=SHOP)
    assert sheet.ring
    (step,) = sheet.steps
    assert step.die == "rolls 32"
    assert step.command_radius < r
    assert sheet.blank == pytest.approx(2 * math.pi * r + 2 * 140)
    assert "overlap" in sheet.notes[0]


def test_without_a_die_the_sheet_is_still_made() -> None:
    sheet = bend_from_points([[0, 0, 0], [300, 0, 0], [300, 300, 0]], 71, stock=TUBE, shop=SHOP)
    assert sheet.steps[0].die == ""
    assert sheet.collisions is None
    assert sheet.blank == pytest.approx(2 * 229 + 71 * math.pi / 2)


def test_without_stock_there_is_no_springback() -> None:
    sheet = bend_sheet("any", U_FRAME)
    assert [step.command_angle for step in sheet.steps] == [step.angle for step in sheet.steps]
    assert sheet.notes == ()


def test_timber_has_no_springback_to_give() -> None:
    sheet = bend_sheet("T1", U_FRAME, parse_stock("board 20 x 95 oak"), SHOP)
    assert all(step.springback is None for step in sheet.steps)


def test_straight_is_not_bent() -> None:
    with pytest.raises(BendError, match="A2 is straight"):
        bend_sheet("A2", straight_path(np.zeros(3), np.array([500.0, 0, 0])), TUBE, SHOP)


def test_an_angle_rolled_heel_out_develops_on_its_centroid() -> None:
    """The heel line is the path; the metal's middle lies inside it, so that less tube goes into the bend."""
    angle = parse_stock("angle 30 x 30 x 3")
    r = 400.0
    path = Path(np.array([[-r, -r, 0], [r, -r, 0], [r, r, 0], [-r, r, 0]]), np.full(4, r), closed=True)
    heel_out = np.array([[0, 1.0, 0], [0, 0, 1.0]])
    sheet = bend_sheet("R1", path, angle, SHOP, frame=heel_out)
    inward = float(angle.section.centroid[0])
    assert sheet.developed == pytest.approx(2 * math.pi * (r - inward))


def test_the_frame_turns_with_the_tube() -> None:
    outward = outward_at_bends(U_FRAME, np.array([[1.0, 0, 0], [0, 1.0, 0]]))
    assert [across.tolist() for across in outward] == [pytest.approx([-1, 0]), pytest.approx([-1, 0])]


def test_a_flat_bent_the_easy_and_the_hard_way() -> None:
    flat = parse_stock("flat 30 x 5")
    easy = bend_sheet("F1", U_FRAME, flat, frame=np.array([[0, 1.0, 0], [1.0, 0, 0]]))
    hard = bend_sheet("F1", U_FRAME, flat, frame=np.array([[1.0, 0, 0], [0, 1.0, 0]]))
    assert easy.steps[0].command_angle > hard.steps[0].command_angle


def test_lengths_in_notes_are_printed_in_the_shop_s_unit() -> None:
    sheet = bend_sheet("B1", l_path(400, 40), TUBE, SHOP, style=Style.inch())
    assert any('Leave 7/8" on' in note for note in sheet.notes)
