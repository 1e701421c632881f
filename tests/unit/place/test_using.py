"""Reach, brakes and room below, past a frame with a shelf."""

from __future__ import annotations

import pytest

from fitwright.job import parse_job
from fitwright.piece import build
from fitwright.place import Fit, fit

FRAME = """
stock: {{post: square bar 40, ply: plywood 18 birch}}
parts:
  post: {{stock: post, path: [[20, 20, {foot}], [20, 20, 1000]], ends: free, repeat: {{x: [0, 560], y: [0, 360]}}}}
  rail: {{stock: post, path: [[40, 380, 500], [560, 380, 500]], ends: free}}
  {more}
"""
CASTER = (
    "caster: {caster: {height: 100, wheel: 75, width: 25, lead: 20, brake: true}, at: [20, 20, 100], "
    "repeat: {x: [0, 560], y: [0, 360]}}"
)


def placed(space: str = "", more: str = "", foot: float = 0.0) -> Fit:
    job = parse_job(
        "job: {name: trial, unit: mm}\nspace:\n  opening: {width: 680, depth: 450, height: 1100}\n"
        f"  clear: {{back: 20}}\n{space}{FRAME.format(more=more, foot=foot)}"
    )
    found = fit(job, build(job))
    assert found is not None
    return found


def outlet(up: float, more: str = "", **written: str) -> Fit:
    extra = "".join(f", {key}: {value}" for key, value in written.items())
    return placed(f"  things: {{it: {{on: back, at: [300, {up}], size: [80, 80, 10], reach: front{extra}}}}}\n", more)


def test_an_outlet_behind_open_posts_is_reached() -> None:
    (found,) = outlet(700).reaches
    assert found.in_way == ()
    # from the posts' front at 30 to the outlet's face at 440
    assert found.far == pytest.approx(410.0)


def test_an_outlet_behind_a_rail_is_not() -> None:
    (found,) = outlet(470).reaches
    assert found.in_way == ("rail",)
    assert not found.loose


def test_a_little_above_the_rail_an_arm_goes_over_it() -> None:
    """The hand's room begins at 540 - 20, the rail ends at 520."""
    (found,) = outlet(540).reaches
    assert found.in_way == ()


def test_a_shelf_before_it_can_be_taken_out() -> None:
    shelf = "shelf: {sheet: ply, from: [40, 0, 740], to: [560, 400, 740], grows: up, removable: front}"
    (found,) = outlet(700, shelf, room="30").reaches
    assert found.in_way == ("shelf",)
    assert found.loose


def test_front_brakes_are_trodden_on_and_a_board_hides_them() -> None:
    free = placed(more=CASTER, foot=100.0).brakes
    assert [brake.in_way for brake in free if brake.far < 100] == [(), ()]
    assert [brake.far > 300 for brake in free].count(True) == 2
    board = "apron: {sheet: ply, from: [0, -80, 40], to: [600, -80, 300], grows: back}"
    hidden = placed(more=f"{CASTER}\n  {board}", foot=100.0).brakes
    assert [brake.in_way for brake in hidden if brake.far < 100] == [("apron",), ("apron",)]


def test_room_below_is_to_what_hangs() -> None:
    assert placed().below == pytest.approx(480.0)  # under the rail
    assert placed(more=CASTER, foot=100.0).below == pytest.approx(100.0)  # under the posts on their casters
