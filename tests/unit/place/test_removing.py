"""Ways to take a shelf out of a frame, each made necessary by what is put before it."""

from __future__ import annotations

import pytest

from fitwright.job import parse_job
from fitwright.piece import build
from fitwright.place import fit
from fitwright.place.model import WayOut

FRAME = """
job: {{name: trial, unit: mm}}
space:
  opening: {{width: {wide}, depth: 450, height: 1100}}
  clear: {{back: 20}}
stock: {{post: square bar 40, ply: plywood 18 birch}}
parts:
  post: {{stock: post, path: [[20, 20, 0], [20, 20, 1000]], ends: free, repeat: {{x: [0, 560], y: [0, 360]}}}}
  bearer: {{stock: post, path: [[20, 40, 280], [20, 360, 280]], ends: free, mirror: {{x: 300}}}}
  shelf: {{sheet: ply, from: [{low}, 45, 300], to: [{high}, 355, 300], grows: up, removable: {way}}}
  {more}
"""
LIP = "lip: {stock: post, path: [[40, 20, 310], [560, 20, 310]], ends: free}"
BAR = "bar: {stock: post, path: [[40, 20, 400], [560, 20, 400]], ends: free}"


def way(more: str = "", low: float = 42.0, high: float = 558.0, toward: str = "front", wide: float = 680.0) -> WayOut:
    job = parse_job(FRAME.format(more=more, low=low, high=high, way=toward, wide=wide))
    found = fit(job, build(job))
    assert found is not None
    (out,) = found.ways_out
    return out


def test_it_slides_between_the_posts() -> None:
    out = way()
    assert out.moves == ("slide it out to the front",)
    assert out.gap == pytest.approx(2.0)
    assert out.room == pytest.approx(310.0)


def test_over_a_lip_it_is_lifted() -> None:
    """The lip ends at 330, the shelf lies at 300: 31 up, under nothing."""
    out = way(LIP)
    assert out.moves == ("lift it 31.0 mm", "slide it out to the front")
    assert out.in_way == ()


def test_between_lip_and_bar_it_passes_level() -> None:
    """331 to 349 lies between the lip's top at 330 and the bar's underside at 380."""
    assert way(f"{LIP}\n  {BAR}").moves[0] == "lift it 31.0 mm"


def test_wider_than_the_posts_it_is_tilted() -> None:
    """560 wide between posts 520 apart: on a slant of 25° it is 560 cos 25° + 18 sin 25° = 515 wide."""
    out = way(low=20.0, high=580.0)
    assert out.in_way == ()
    assert out.moves[0].startswith("tilt it, its ")
    assert "25°" in out.moves[0]


def test_behind_a_closed_front_it_stays() -> None:
    """A board from post to post up to the top, and bars over the shelf that let it neither rise nor tilt."""
    closed = "front: {sheet: ply, from: [0, -18, 0], to: [600, -18, 1000], grows: back}"
    over = "over: {sheet: ply, from: [40, 40, 330], to: [560, 360, 330], grows: up}"
    out = way(f"{closed}\n  {over}")
    assert "front" in out.in_way
    assert out.moves == ()


def test_sideways_the_wall_is_in_the_way() -> None:
    """Between walls 680 apart there are 40 beside the piece; 1800 apart there is room for the shelf's own 516."""
    assert "the left wall" in way(toward="left").in_way
    assert way(toward="left", wide=1800.0).moves == ("slide it out to the left",)


def test_upward_it_is_lifted_out() -> None:
    assert way(toward="up").moves == ("lift it out",)
