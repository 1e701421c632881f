from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fitwright.making.coping import Measured, NoTemplate, Seam, has_template, template_of
from fitwright.making.coping.placing import placed
from fitwright.piece.path import Arc
from tests.unit.making.coping.branches import base_level, branch_on, named, piece_from, template, wrapped

TUBE = "round tube 32 x 2"
TWISTED = """
stock: {t: round tube 32 x 2, s: round tube 19 x 1.5}
parts:
  post: {stock: t, path: [[0, 0, 0], [0, 0, 600]], ends: free}
  side: {stock: t, path: [[300, -200, 200], [300, 200, 340]], ends: free}
  bar: {stock: s, path: [[0, 0, 270], [300, 0, 270]]}
"""
BENT = """
stock: {t: round tube 32 x 2}
parts:
  post: {stock: t, path: [[0, 0, 0], [0, 0, 900]], ends: free}
  rail: {stock: t, path: [[400, -300, 500], [400, -300, 900]], ends: free}
  arm: {stock: t, path: [[0, 0, 500], [400, 0, 500], [400, 0, 700], [400, -300, 700]], radius: 90}
"""


def test_mitred_frame_unfolds_to_two_slopes() -> None:
    """40 x 40 x 2 mitred at 45 degrees: flat along two sides, 40 mm higher on the long one, sloping between."""
    piece = piece_from("""
stock: {q: square tube 40 x 40 x 2}
parts:
  frame: {stock: q, path: [[0, 0, 0], [800, 0, 0], [800, 500, 0], [0, 500, 0]], closed: true, corners: mitred}
""")
    one = template(piece, "frame leg 1", 1)
    folds = [line.at for line in one.lines if line.fold]
    heights = one.at(np.array([0.0, one.girth / 2, one.girth]), one.bevelled)
    assert heights - heights[0] == pytest.approx([0, 40, 0])
    # On the long side the inside of the wall is met first, 2 mm back; on the short side the outside is.
    square = one.at(np.array([0.0, one.girth / 2]), one.square)
    assert square - heights[0] == pytest.approx([0, 38])
    assert len(folds) == 4
    assert one.gap == pytest.approx(2 * np.sin(np.pi / 4), abs=1e-3)
    assert np.degrees(one.bevel) == pytest.approx(45, abs=0.1)
    assert one.seam is Seam.SHARED
    assert one.side == 40
    assert one.tip_turn == pytest.approx(0, abs=1e-6)
    assert one.placement.measured is Measured.TIP
    assert one.placement.distance == 65
    assert one.height == pytest.approx(65)


def test_both_seams_of_a_straight_tube_lie_on_one_line() -> None:
    piece = piece_from(TWISTED)
    start, finish = (template(piece, "bar", end) for end in (0, 1))
    assert start.seam is finish.seam is Seam.SHARED
    assert start.seam_at == pytest.approx(finish.seam_at)
    assert start.seam_turn == pytest.approx(0)


def test_tips_are_told_apart_by_the_lean_of_what_is_met() -> None:
    """One end meets a post, the other a tube that leans by atan(140 / 400) from level: by so much tips are turned."""
    piece = piece_from(TWISTED)
    turn = template(piece, "bar", 0).tip_turn
    assert turn is not None
    # Tips at the start are to the sides of the post, at the finish above and below the leaning tube.
    assert np.degrees(abs(turn)) == pytest.approx(90 - np.degrees(np.arctan2(140, 400)), abs=0.2)


@pytest.mark.parametrize("end", [0, 1])
def test_a_wrapped_template_fits_what_it_meets(end: int) -> None:
    piece = piece_from(TWISTED)
    bar, one = named(piece, "bar"), template(piece, "bar", end)
    met = named(piece, ("post", "side")[end]).body
    x = np.linspace(0, one.girth, 100)
    on_line = wrapped(one, bar, x, one.at(x, one.bevelled))
    assert np.abs(met.distance(on_line)).max() < 0.01
    # Cut square through the wall no metal is inside, and at every angle some of it touches.
    axis = wrapped(one, bar, x, one.at(x, one.square))
    middle = (wrapped(one, bar, np.array([0.0]), np.zeros(1)) - one.seam_at) - bar.body.point_at(end)
    up = bar.body.outward(end)
    heights = (axis - bar.body.point_at(end) - middle) @ up
    centres = bar.body.point_at(end) + middle + heights[:, None] * up
    radius = one.girth / (2 * np.pi)
    through = [met.distance(centres + part * (axis - centres)) for part in np.linspace(1 - 1.5 / radius, 1, 9)]
    assert np.min(through) > -0.01
    assert np.min(through, axis=0).max() < 0.01


def test_bent_tube_starts_on_the_back_of_its_bend() -> None:
    piece = piece_from(BENT)
    arm = named(piece, "arm")
    start, finish = (template(piece, "arm", end) for end in (0, 1))
    first, last = (segment for segment in arm.path.segments if isinstance(segment, Arc))
    assert start.seam is finish.seam is Seam.BACK
    assert start.seam_at == pytest.approx(16 * (first.start - first.centre) / 90)
    assert finish.seam_at == pytest.approx(16 * (last.end - last.centre) / 90)


def test_seams_of_a_bent_tube_are_turned_by_its_rotation() -> None:
    """The arm bends up, then toward -y: a quarter turn of its plane between the bends."""
    turn = template(piece_from(BENT), "arm", 0).seam_turn
    assert turn is not None
    # Along +x with z up, the bend goes up and its back is below. After it the tube goes up and its back, unturned,
    # would be at +x; the second bend toward -y has its back at +y: a quarter right-handed about +z, which is
    # clockwise for one who looks along +z.
    assert np.degrees(turn) == pytest.approx(90)


def test_base_line_of_a_bent_tube_is_measured_from_its_tangent_point() -> None:
    piece = piece_from(BENT)
    arm, one = named(piece, "arm"), template(piece, "arm", 0)
    assert one.placement.measured is Measured.TANGENT
    assert one.placement.distance % 5 == pytest.approx(0)
    x = np.linspace(0, one.girth, 50)
    assert np.abs(named(piece, "post").body.distance(wrapped(one, arm, x, one.at(x, one.bevelled)))).max() < 0.01


@pytest.mark.parametrize(("straight", "into"), [(60.0, False), (19.0, False), (17.0, True), (9.0, True)])
def test_cut_that_reaches_into_a_bend_says_so(straight: float, into: bool) -> None:
    """The shortest point lies 16 mm back from the drawn end."""
    arm = named(piece_from(BENT), "arm")
    vertices = arm.path.vertices.copy()
    vertices[0, 0] = 400 - 90 - straight
    shorter = replace(arm, body=replace(arm.body, path=replace(arm.path, vertices=vertices)))
    level, placement = placed(shorter, 0, -16.0, 5.0)
    assert placement.into_bend is into
    assert level - placement.distance == pytest.approx(-straight)
    assert level <= -16 - 2


def test_mirrored_and_turned_branches_fit_too() -> None:
    """Left-handed sections read the other way round on the paper."""
    piece = piece_from("""
stock: {t: round tube 32 x 2, s: round tube 19 x 1.5}
parts:
  run: {stock: t, path: [[-400, 0, 0], [400, 0, 0]], ends: free}
  strut: {stock: s, path: [[100, 4, 0], [250, 4, 200]], ends: [auto, free], mirror: {x: 0}}
""")
    run = named(piece, "run").body
    for name in ("strut 1", "strut 2"):
        one = template(piece, name, 0)
        x = np.linspace(0, one.girth, 100)
        on_line = wrapped(one, named(piece, name), x, one.at(x, one.bevelled))
        assert np.abs(run.distance(on_line)).max() < 0.01
        # asymmetrical, so that the paper the wrong way round would not do
        assert np.abs(one.bevelled - np.interp(one.girth - one.around, one.around, one.bevelled)).max() > 1


def test_solid_bars_have_one_line() -> None:
    piece = piece_from("""
stock: {f: flat 30 x 6, b: round bar 12}
parts:
  low: {stock: f, path: [[0, 0, 0], [300, 0, 0]], wide: up, ends: [free, auto]}
  high: {stock: f, path: [[300, 0, 0], [300, 0, 300]], wide: left, ends: [auto, free]}
""")
    one = template(piece, "low", 1)
    assert np.array_equal(one.square, one.bevelled)
    assert one.gap == 0
    # 30 wide, cut at 45 degrees: 30 mm from the short edge to the long one.
    assert np.ptp(one.bevelled) == pytest.approx(30)


def test_mitred_angle_is_laid_over_its_heel() -> None:
    piece = piece_from("""
stock: {a: angle 40 x 40 x 4}
parts:
  one: {stock: a, path: [[0, 0, 0], [300, 0, 0]], legs: [back, down], follows: heel, ends: [free, auto]}
  two: {stock: a, path: [[300, 0, 0], [300, 300, 0]], legs: [left, down], follows: heel, ends: [auto, free]}
""")
    one = template(piece, "one", 1)
    assert one.seam is Seam.HEEL
    assert one.seam_turn is None
    assert one.girth == 80
    (fold,) = (line.at for line in one.lines if line.fold)
    assert fold == 40
    heights = one.at(np.array([0.0, 40.0, 80.0]), one.bevelled)
    # One leg lies level and runs back 40 mm from the heel to its toe, the other hangs down at full length.
    assert sorted(heights.max() - heights) == pytest.approx([0, 0, 40])


def test_ends_that_need_none_say_so() -> None:
    piece = branch_on(TUBE, TUBE, 60)
    run, branch = named(piece, "run"), named(piece, "branch")
    assert not has_template(run, 0)
    assert has_template(branch, 1)
    with pytest.raises(NoTemplate, match="square"):
        template_of(branch, 0, piece)


def test_inch_steps_put_the_base_line_on_an_eighth() -> None:
    piece = branch_on(TUBE, "round tube 19 x 1.5", 45)
    one = template(piece, step=25.4 / 8)
    eighths = one.placement.distance / 25.4 * 8
    assert eighths == pytest.approx(round(eighths), abs=1e-9)
    assert one.square.min() >= 24
    level = base_level(one, named(piece, "branch"))
    assert level + one.height == pytest.approx(named(piece, "branch").ends[1].longest, abs=0.01)


def test_what_it_meets() -> None:
    assert template(branch_on(TUBE, TUBE, 60)).meets == ("A1",)
