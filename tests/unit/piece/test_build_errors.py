"""Parts that cannot be built: each message names the part, its line and the coordinate, in the job's own unit."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from fitwright.piece import Piece, PieceError

Built = Callable[[str], Piece]

STOCK = (
    "stock: {tube: round tube 25 x 2 mm, big: round tube 40 x 2 mm, board: board 20 x 95 pine, ply: plywood 12 birch}\n"
)


def problems(built: Built, text: str) -> tuple[str, ...]:
    with pytest.raises(PieceError) as caught:
        built(text)
    assert str(caught.value) == "\n".join(caught.value.problems)
    return caught.value.problems


def test_bend_too_large_for_its_leg(built: Built) -> None:
    (problem,) = problems(
        built,
        STOCK
        + """
parts:
  arm: {stock: tube, path: [[0, 0, 0], [0, 0, 60], [300, 0, 60]], radius: 75, ends: free}
""",
    )
    assert problem == (
        "arm (line 5): the leg from point 1 to point 2, at (0.0, 0.0, 60.0) mm, is 60.0 mm long and its bends take "
        "75.0 mm of it: lengthen the leg by 15.0 mm or bend to a smaller radius than 75.0 mm"
    )


def test_an_inch_maker_reads_inches(built: Built) -> None:
    (problem,) = problems(
        built,
        """
job: {name: trial, unit: inch}
stock: {tube: round tube 1 1/8 x 14 ga}
parts:
  arm: {stock: tube, path: [[0, 0, 0], [0, 0, 3 1/2], [12, 0, 3 1/2]], radius: 4, ends: free}
""",
    )
    assert problem == (
        'arm (line 5): the leg from point 1 to point 2, at (0, 0, 3 1/2) in, is 3 1/2" long and its bends take 4" of '
        'it: lengthen the leg by 1/2" or bend to a smaller radius than 4"'
    )


def test_parts_that_run_into_one_another(built: Built) -> None:
    (problem,) = problems(
        built,
        STOCK
        + """
parts:
  post: {stock: big, path: [[0, 0, 0], [0, 0, 500]], ends: free}
  rail: {stock: tube, path: [[-200, 30, 250], [200, 30, 250]], ends: free}
""",
    )
    # Axes 30 apart, radii 20 and 12.5.
    assert problem.startswith("post runs 2.5 mm into rail at (0.0, ")
    assert problem.endswith(", 250.0) mm without a joint: move one, end it there, or say in joints how they meet")


def test_overlap_that_the_maker_allows(built: Built) -> None:
    piece = built(
        STOCK
        + """
parts:
  post: {stock: big, path: [[0, 0, 0], [0, 0, 500]], ends: free}
  rail: {stock: tube, path: [[-200, 0, 250], [200, 0, 250]], ends: free}
joints: [{between: [post, rail], how: cross}]
"""
    )
    assert [joint.kind for joint in piece.joints] == ["crossing"]


def test_joined_parts_are_not_free_to_run_into_one_another_elsewhere(built: Built) -> None:
    found = problems(
        built,
        STOCK
        + """
parts:
  hoop: {stock: big, path: [[0, 0, 0], [0, 0, 500], [400, 0, 500], [400, 0, 0]], radius: 100}
  rail: {stock: tube, path: [[0, 0, 250], [600, 0, 250]], ends: [auto, free]}
""",
    )
    assert len(found) == 1
    assert found[0].startswith("hoop runs ")
    assert "into rail at (" in found[0]


def test_end_that_touches_nothing(built: Built) -> None:
    (problem,) = problems(
        built,
        STOCK
        + """
parts:
  post: {stock: big, path: [[0, 0, 0], [0, 0, 500]], ends: free}
  rail: {stock: tube, path: [[23, 0, 250], [300, 0, 250]], ends: {finish: free}}
""",
    )
    assert problem == (
        "the start of rail at (23.0, 0.0, 250.0) mm (line 6) touches nothing; post is nearest, 3.0 mm away: "
        "draw it on or into the part it meets, or say ends: free"
    )


def test_alone_an_end_has_nothing_to_be_near_to(built: Built) -> None:
    found = problems(built, STOCK + "parts: {rail: {stock: tube, path: [[0, 0, 250], [300, 0, 250]]}}\n")
    assert [problem.split(" touches nothing: ")[0] for problem in found] == [
        "the start of rail at (0.0, 0.0, 250.0) mm (line 3)",
        "the finish of rail at (300.0, 0.0, 250.0) mm (line 3)",
    ]


def test_outside_path_that_turns_both_ways(built: Built) -> None:
    (problem,) = problems(
        built,
        STOCK
        + """
parts:
  wave:
    stock: tube
    outside: [[0, 0, 0], [0, 0, 300], [300, 0, 300], [300, 0, 600]]
    radius: 75
    ends: free
""",
    )
    assert problem.startswith("wave (line 5): an outside path must turn one way in one plane")
    assert "at point 3, (300.0, 0.0, 300.0) mm" in problem


def test_board_wider_than_the_panel(built: Built) -> None:
    (problem,) = problems(
        built,
        STOCK
        + """
parts:
  shelf: {slats: board, from: [0, 0, 100], to: [600, 90, 100]}
""",
    )
    assert problem.startswith("shelf (line 5): one board of ")
    assert "is 95.0 mm wide, and the panel from (0.0, 0.0, 100.0) mm to (600.0, 90.0, 100.0) mm only 90.0 mm" in problem


def test_battens_that_do_not_fit(built: Built) -> None:
    (problem,) = problems(
        built,
        STOCK
        + """
parts:
  shelf: {slats: board, from: [0, 0, 100], to: [300, 200, 100], battens: {stock: board, count: 3, inset: 20}}
""",
    )
    assert "3 battens 95.0 mm wide" in problem
    assert "325.0 mm" in problem


def test_panel_turned_off_the_axes(built: Built) -> None:
    (problem,) = problems(
        built,
        STOCK
        + """
parts:
  pad: {sheet: ply, from: [100, -20, 0], to: [140, 20, 0], repeat: {around: {centre: [0, 0], count: 3}}}
""",
    )
    assert "quarter turns" in problem


def test_boards_and_members_and_panels_that_run_into_one_another(built: Built) -> None:
    found = problems(
        built,
        STOCK
        + """
parts:
  post: {stock: tube, path: [[100, 100, 0], [100, 100, 500]], ends: free}
  deck: {sheet: ply, from: [0, 0, 200], to: [400, 300, 200]}
  other: {sheet: ply, from: [200, 0, 205], to: [600, 300, 205]}
""",
    )
    assert len(found) == 2
    # The tube passes the sheet of 12 right through: half of that is the deepest.
    assert found[0].startswith("post runs 6.0 mm into deck (sheet) at (")
    assert found[1].startswith("deck (sheet) runs 7.0 mm into other (sheet) at (300.0, 150.0, 208.5) mm")


def test_a_rail_between_posts_that_touch_has_nothing_left(built: Built) -> None:
    found = problems(
        built,
        STOCK
        + """
parts:
  post: {stock: big, path: [[0, 0, 0], [0, 0, 500]], repeat: {x: [0, 40]}, ends: free}
  rail: {stock: tube, path: [[0, 0, 250], [40, 0, 250]]}
""",
    )
    # Posts of 40 that stand 40 apart: each takes 20 of the 40 between their middles.
    assert len(found) == 2
    assert "rail" in found[0]
    assert "takes 20.0 mm off a straight of 20.0 mm" in found[0]


def test_cut_that_takes_more_than_its_straight(built: Built) -> None:
    found = problems(
        built,
        STOCK
        + """
parts:
  post: {stock: big, path: [[0, 0, 0], [0, 0, 500]], ends: free}
  hook: {stock: tube, path: [[0, 0, 250], [90, 0, 250], [90, 0, 350]], radius: 75, ends: [auto, free]}
""",
    )
    # 90 - 75 leaves 15 of straight, and the round of the post takes 20 at its crown.
    assert found == (
        "the cut at the start of hook at (0.0, 0.0, 250.0) mm (line 6) takes 20.0 mm off a straight of 15.0 mm: "
        "lengthen that leg or move the bend",
    )


def test_ends_that_cannot_be_cut_as_wanted(built: Built) -> None:
    found = problems(
        built,
        STOCK
        + """
parts:
  post: {stock: big, path: [[0, 0, 0], [0, 0, 500]], ends: [level, plumb]}
  rail: {stock: tube, path: [[0, 0, 600], [300, 0, 600]], ends: [level, plumb]}
""",
    )
    assert found == (
        "the finish of post at (0.0, 0.0, 500.0) mm (line 5) stands upright and cannot be cut plumb there: "
        "write square or level",
        "the start of rail at (0.0, 0.0, 600.0) mm (line 6) runs level and cannot be cut level there: "
        "write square or plumb",
    )


def test_a_rod_through_posts_has_no_end_that_how_through_could_trim(built: Built) -> None:
    text = """
stock: {post: square tube 40 x 40 x 2, rod: round bar 12}
parts:
  post: {stock: post, path: [[0, 0, 0], [0, 0, 500]], ends: free}
  rod: {stock: rod, path: [[-90, 0, 250], [90, 0, 250]], ends: free}
joints: [{between: [rod, post], how: through}]
"""
    (problem,) = problems(built, text)
    assert problem.endswith(
        "where no end is trimmed by how: through: move one, end it there, or write how: cross, lap or none"
    )
    assert built(text.replace("how: through", "how: cross")).joints[0].kind.value == "crossing"


def test_angle_without_its_legs(built: Built) -> None:
    (problem,) = problems(
        built,
        """
stock: {ledge: angle 30 x 30 x 3}
parts:
  ledge: {stock: ledge, path: [[0, 0, 100], [300, 0, 100]], legs: [left, up], ends: free}
""",
    )
    assert problem == "ledge (line 5): its first leg points along the member itself: give a direction across it"


def test_all_that_is_wrong_is_told_at_once(built: Built) -> None:
    drawn = problems(
        built,
        STOCK
        + """
parts:
  arm: {stock: tube, path: [[0, 0, 0], [0, 0, 60], [300, 0, 60]], radius: 75, ends: free}
  shelf: {slats: board, from: [0, 0, 100], to: [600, 90, 100]}
  wave: {stock: tube, outside: [[0, 0, 0], [0, 0, 300], [300, 0, 300], [300, 0, 600]], radius: 75, ends: free}
""",
    )
    assert [problem.split(" ")[0] for problem in drawn] == ["arm", "shelf", "wave"]
    met = problems(
        built,
        STOCK
        + """
parts:
  post: {stock: big, path: [[0, 0, 0], [0, 0, 500]], ends: free}
  through: {stock: tube, path: [[-200, 0, 250], [200, 0, 250]], ends: free}
  loose: {stock: tube, path: [[23, 0, 100], [300, 0, 100]], ends: {finish: free}}
""",
    )
    assert [problem.split(" ")[0] for problem in met] == ["the", "post"]


def test_nothing_at_all(built: Built) -> None:
    (problem,) = problems(built, "stock: {}\nparts:\n  hole: {opening: {from: [0, 0, 0], to: [1, 1, 1]}}\n")
    assert problem.startswith("the job has no parts")


@pytest.mark.parametrize(
    ("stock", "wide", "deep"),
    [("flat 30 x 5", "[1, -1, 0]", 2.5), ("square bar 12", "up", 6.0), ("square tube 25 x 2", "up", 12.5)],
)
def test_bars_crossed_in_one_plane_run_into_one_another(built: Built, stock: str, wide: str, deep: float) -> None:
    """Their corners only touch: each side's middle is deepest, half the bar."""
    text = (
        f"stock: {{x: {stock}}}\nparts:\n"
        f"  one: {{stock: x, path: [[0, 0, 100], [300, 300, 100]], wide: {wide}, ends: free}}\n"
        f"  two: {{stock: x, path: [[0, 300, 100], [300, 0, 100]], wide: {wide.replace('-', '')}, ends: free}}\n"
    )
    (problem,) = problems(built, text)
    assert problem.startswith(f"one runs {deep} mm into two")


def test_a_rail_half_in_a_top_is_told_as_running_into_it(built: Built) -> None:
    text = """
stock: {rail: square tube 40 x 2, top: plywood 18 birch}
parts:
  rail: {stock: rail, path: [[0, 20, 700], [600, 20, 700]], ends: auto}
  top: {sheet: top, from: [-20, 0, 700], to: [620, 300, 700]}
"""
    (problem,) = problems(built, text)
    assert "into top (sheet)" in problem


def test_what_is_only_bought_is_no_piece(built: Built) -> None:
    (problem,) = problems(built, "stock: {}\nparts:\n  screws: {screw: '#8 x 1', count: 4}\n")
    assert "stand anywhere" in problem


def test_members_that_lie_on_one_another_side_by_side_are_told_as_a_clash(built: Built) -> None:
    """Ends that leave the same way are no corner: there is nothing to mitre."""
    told = problems(
        built,
        STOCK
        + """
parts:
  post: {stock: tube, path: [[0, 0, 0], [0, 0, 300]], ends: free, repeat: {x: [0, 400]}}
  rung: {stock: tube, path: [[0, 0, 100], [400, 0, 100]], repeat: {z: [0, 10]}}
""",
    )
    assert any("rung 1 runs" in problem and "rung 2" in problem for problem in told)
