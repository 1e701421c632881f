"""A frame of four posts beside pipes and outlets: the gaps by hand."""

from __future__ import annotations

import pytest

from fitwright.job import parse_job
from fitwright.piece import build
from fitwright.place import Fit, Gap, fit

FRAME = """
stock: {post: square bar 40}
parts:
  post: {stock: post, path: [[20, 20, 0], [20, 20, 1000]], ends: free, repeat: {x: [0, 560], y: [0, 360]}}
  rail: {stock: post, path: [[40, 380, 500], [560, 380, 500]], ends: free}
"""


def placed(space: str) -> Fit:
    """In an opening of 620 by 450, 10 to spare on either side, 20 from the back: the piece begins at (10, 30)."""
    job = parse_job(
        f"job: {{name: trial, unit: mm}}\nspace:\n  opening: {{width: 620, depth: 450, height: 1100}}\n"
        f"  clear: {{left: 5, right: 5, back: 20}}\n{space}{FRAME}"
    )
    found = fit(job, build(job))
    assert found is not None
    return found


def thing(written: str) -> Gap:
    (found,) = placed(f"  things: {{it: {written}}}\n").things
    return found


def test_an_outlet_behind_the_rail() -> None:
    # the rail ends at 30 + 400 = 430 from the front, the outlet stands out 12 from the wall at 450
    found = thing("{on: back, at: [300, 460], size: [80, 80, 12]}")
    assert found.side == "back"
    assert found.value == pytest.approx(8.0)
    assert found.part == "rail"
    assert found.wanted == 20.0


def test_a_pipe_that_the_posts_pass_on_their_way_in() -> None:
    """Between front line and back wall, its edge at 6 from the left wall, the posts at 10: 4 beside it."""
    found = thing("{from: [0, 200, 300], to: [6, 230, 340]}")
    assert found.side == "left"
    assert found.value == pytest.approx(4.0)
    assert found.wanted == 5.0
    assert found.before > 100.0  # the back post passes it first


def test_a_pipe_in_the_way_of_a_post() -> None:
    """The back post ends at 430, and the pipe begins at 200 before it."""
    found = thing("{from: [0, 200, 300], to: [20, 230, 340]}")
    assert found.value == pytest.approx(-230.0)
    assert found.part.startswith("post")


def test_a_sill_over_the_posts() -> None:
    found = thing("{from: [0, 300, 1030], to: [620, 450, 1060]}")
    assert found.side == "top"
    assert found.value == pytest.approx(30.0)


def test_a_low_pipe_between_the_posts_under_the_rail() -> None:
    found = thing("{from: [200, 380, 430], to: [400, 420, 470]}")
    # the rail passes 500 - 20 - 470 above it, the posts 150 beside it
    assert found.side == "below"
    assert found.value == pytest.approx(10.0)
    assert found.wanted == 0.0


def test_what_lies_wholly_behind_and_aside_is_no_gap() -> None:
    assert placed("  things: {it: {from: [0, 440, 0], to: [5, 450, 20]}}\n").things == ()


def test_the_gap_is_as_open_as_the_thing_and_the_place_are() -> None:
    loose = placed("  within: 4\n  things: {it: {from: [0, 200, 300], to: [6, 230, 340]}}\n").things[0]
    # the thing by 4, and the middle of the opening by half of 4
    assert loose.spread == pytest.approx((4.0**2 + 2.0**2) ** 0.5)
