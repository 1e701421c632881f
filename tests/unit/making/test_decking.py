"""A sheet of metal on a frame: its size, and the stitches that hold it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from fitwright.assess import Assessment, assess
from fitwright.job import parse_job
from fitwright.making.decking import decks_of, length_under, stitches
from fitwright.shop import default_shop

DECK = """
job: {{name: Deck, unit: mm}}
dims: {{w: 600, d: 400, h: 450}}
stock: {{tube: square tube 30 x 2, top: {stock}}}
parts:
  ring: {{stock: tube, outside: [[0, 0, h - 15], [w, 0, h - 15], [w, d, h - 15], [0, d, h - 15]], closed: true,
    corners: mitred}}
  leg: {{stock: tube, path: [[15, 15, 0], [15, 15, h - 30]], mirror: {{x: w / 2, y: d / 2}}}}
  top: {{sheet: top, from: [0, 0, h], to: [w, d, h], fastened: {fastened}}}
"""


def deck(fastened: str = "welded", stock: str = "sheet 3 steel") -> Assessment:
    return assess(parse_job(DECK.format(fastened=fastened, stock=stock)), default_shop("mm"))


def test_a_member_counts_as_long_as_it_lies_along_the_sheet() -> None:
    piece = deck().piece
    (top,) = piece.panels
    runs = {member.name: length_under(member, top) for member in piece.members}
    assert [runs[f"ring leg {k}"] for k in (1, 2, 3, 4)] == pytest.approx([570.0, 370.0, 570.0, 370.0], abs=2.0)
    assert runs["leg 1"] == 0.0


def test_stitches_stand_at_both_ends_and_no_farther_apart_than_wanted() -> None:
    piece = deck().piece
    assert dict(stitches(piece, piece.panels[0])) == {
        "ring leg 1": 5, "ring leg 2": 4, "ring leg 3": 5, "ring leg 4": 4,
    }  # fmt: skip


def test_the_leg_is_no_more_than_the_thinner_of_sheet_and_wall() -> None:
    (one,) = decks_of(deck().piece, None, deck().job.style)
    assert (one.size, one.leg) == ("600.0 mm x 400.0 mm, 3.0 mm thick", "2.0 mm")
    assert one.arc_seconds == pytest.approx(18 * 25.0 / 5.0)


def test_the_arc_moves_as_on_the_other_welds_of_the_piece() -> None:
    there = deck()
    assert there.welding is not None
    slower = replace(there.welding, used=replace(there.welding.used, arc_time=2 * there.welding.used.arc_time))
    (one,), (other,) = (list(decks_of(there.piece, plan, there.job.style)) for plan in (there.welding, slower))
    assert other.arc_seconds == pytest.approx(2 * one.arc_seconds)


def test_its_steps_are_cutting_and_welding_down_before_the_metal_is_cleaned() -> None:
    steps = {step.key: step for step in deck().steps}
    cut, welded, cleaned = steps["saw top"], steps["weld top"], steps["clean"]
    assert [number.value for number in cut.numbers] == ["600.0 mm x 400.0 mm, 3.0 mm thick"]
    assert sum(number.ticks for number in welded.numbers) == 18
    assert {cut.number, steps["grind"].number} <= {after.number for after in welded.after}
    assert welded.number in {after.number for after in cleaned.after}
    assert any("extinguisher" in caution.words for caution in welded.cautions)


def test_what_only_rests_is_cut_and_what_is_wood_is_no_sheet_of_metal() -> None:
    assert [step.key for step in deck("rests").steps if step.key.endswith(" top")] == ["saw top"]
    assert list(decks_of(deck("rests", "plywood 18 birch").piece, None, deck().job.style)) == []


LEDGES = """
job: {name: Ledges, unit: mm}
stock: {ledge: angle 30 x 30 x 3, top: sheet 6 steel}
parts:
  ledge: {stock: ledge, path: [[0, 0, 450], [600, 0, 450]], legs: [back, down], ends: free, mirror: {y: 200}}
  top: {sheet: top, from: [0, 0, 450], to: [600, 400, 450], fastened: welded}
"""


def test_a_leg_of_an_angle_counts_as_a_wall() -> None:
    (one,) = decks_of(assess(parse_job(LEDGES), default_shop("mm")).piece, None, deck().job.style)
    assert (one.leg, [count for _, count in one.lines]) == ("3.0 mm", [5, 5])
