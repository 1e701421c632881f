"""Between walls that are out of square, with skirting, and what the survey leaves open: by hand."""

from __future__ import annotations

import pytest

from fitwright.job import parse_job
from fitwright.piece import build
from fitwright.place import Fit, fit
from fitwright.place.survey.tape import USUAL, spread_of

BOX = """
stock: {post: square bar 40}
parts:
  post: {stock: post, path: [[20, 20, 0], [20, 20, 1000]], ends: free, repeat: {x: [0, 560], y: [0, 360]}}
"""


def placed(space: str, parts: str = BOX) -> Fit:
    job = parse_job(f"job: {{name: trial, unit: mm}}\nspace:\n{space}{parts}")
    found = fit(job, build(job))
    assert found is not None
    return found


def gaps(found: Fit) -> dict[str, float]:
    return {gap.side: gap.value for gap in found.gaps}


def test_skirting_counts_as_the_wall_up_to_its_height() -> None:
    found = placed("  opening: {width: 660, depth: 450}\n  skirting: {height: 100, thickness: 15, on: [left, back]}\n")
    # 60 to share, of which the board on the left takes 15; behind it the board is what it stands against
    assert gaps(found) == pytest.approx({"left": 22.5, "right": 22.5, "back": 0.0, "front": 35.0})
    against = {gap.side: gap.against for gap in found.gaps}
    assert (against["left"], against["right"], against["back"]) == ("skirting", "wall", "skirting")
    assert all(gap.height <= 100 for gap in found.gaps if gap.against == "skirting")


def test_a_piece_above_the_skirting_does_not_meet_it() -> None:
    high = BOX.replace("20, 0]", "20, 150]")
    assert gaps(placed("  opening: {width: 660}\n  skirting: {height: 100, thickness: 15, on: [left]}\n", high)) == (
        pytest.approx({"left": 30.0, "right": 30.0})
    )


def test_a_wall_that_runs_in_is_nearest_at_the_back() -> None:
    """The left wall runs in by 9 over 450. The piece ends at 430 from the front, 20 before the wall: 8.6 there."""
    found = placed("""
  opening: {width: 660, depth: 450, skew: {left: 9}}
  clear: {back: 20}
  stand: {right: 30}
""")
    assert gaps(found)["left"] == pytest.approx(30.0 - 9 * 430 / 450)
    assert not found.passed


def test_a_mouth_narrower_than_the_room_is_passed_on_the_way_in() -> None:
    """640 at the front, 680 at 400 from it: in its place it has more room than when it was pushed in."""
    found = placed("""
  opening:
    width: [{at: 0, is: 640, station: 0}, {at: 0, is: 680, station: 400}]
    depth: 450
  clear: {back: 20}
""")
    # in place its front edge lies 30 in, where it is 643 wide: the left wall is straight, so all of it is on the right
    assert gaps(found) == pytest.approx({"left": 21.5, "right": 21.5, "back": 20.0, "front": 30.0})
    (passed,) = found.passed
    assert passed.side == "right"
    assert passed.value == pytest.approx(18.5)
    assert passed.before > 0


def test_a_plan_out_of_square_is_as_the_skew_it_makes() -> None:
    """Front 660, back 651, both sides 450 deep: each side wall runs in by 4.5."""
    side = (450**2 + 4.5**2) ** 0.5
    across = (655.5**2 + 450**2) ** 0.5
    plan = f"{{front: 660, back: 651, left: {side:.8f}, right: {side:.8f}, diagonals: [{across:.8f}, {across:.8f}]}}"
    by_plan = placed(f"  opening: {{plan: {plan}}}\n  clear: {{back: 20}}\n")
    by_skew = placed("  opening: {width: 660, depth: 450, skew: {left: 4.5, right: 4.5}}\n  clear: {back: 20}\n")
    assert gaps(by_plan) == pytest.approx(gaps(by_skew), abs=1e-4)


def test_half_of_what_the_width_is_open_by_is_on_either_side() -> None:
    found = placed("  opening: {width: 660, depth: 450}\n  within: 4\n  clear: {back: 20}\n")
    spreads = {gap.side: gap.spread for gap in found.gaps}
    # the back gap is chosen, so that all of the depth's error is in front
    assert spreads == pytest.approx({"left": 2.0, "right": 2.0, "back": 0.0, "front": 4.0}, abs=1e-6)


def test_set_from_one_wall_the_other_gap_has_it_all() -> None:
    found = placed("  opening: {width: 660}\n  stand: {left: 10}\n")
    spreads = {gap.side: gap.spread for gap in found.gaps}
    assert spreads["left"] == pytest.approx(0.0)
    assert spreads["right"] == pytest.approx(USUAL * spread_of(660.0))


def test_between_two_measures_both_count_by_halves() -> None:
    """At 500, half way between widths measured within 4 at 0 and at 1000: the root of two halves."""
    found = placed(
        "  opening: {width: [{at: 0, is: 700}, {at: 500, is: 660}, {at: 1000, is: 700}]}\n  within: 4\n"
        "  stand: {left: 10}\n",
        BOX.replace("[20, 20, 0]", "[20, 20, 250]").replace("1000]", "251]"),
    )
    right = next(gap for gap in found.gaps if gap.side == "right")
    assert right.spread == pytest.approx(4.0 * (0.498**2 + 0.502**2) ** 0.5, rel=1e-3)


def test_on_casters_a_slope_takes_room_at_the_top() -> None:
    """The floor rises 7.5 to the right over 700: the posts, 900 long, need as much more room as they lean over."""
    rolling = BOX.replace("20, 0]", "20, 100]") + (
        "  caster: {caster: {height: 100, wheel: 25, width: 10}, at: [20, 20, 100], "
        "repeat: {x: [0, 560], y: [0, 360]}}\n"
    )
    level = "  opening: {width: 700, depth: 500}\n  clear: {back: 20}\n"
    slope = level + "  floor: [{at: [0, 0], is: 0}, {at: [700, 0], is: 7.5}, {at: [0, 500], is: 0}]\n"
    flat, leaning = gaps(placed(level, rolling)), gaps(placed(slope, rolling))
    lost = sum(flat[side] - leaning[side] for side in ("left", "right"))
    assert lost == pytest.approx(900 * 7.5 / 700, rel=0.01)


def test_tightest_is_over_walls_things_and_the_way_in() -> None:
    found = placed("""
  opening: {width: 660, depth: 450}
  clear: {back: 20}
  things: {pipe: {from: [0, 200, 300], to: [22, 230, 340]}}
""")
    tight = {gap.side: gap for gap in found.tightest()}
    assert tight["left"].against == "pipe"
    assert tight["left"].value == pytest.approx(8.0)
    assert tight["right"].against == "wall"
