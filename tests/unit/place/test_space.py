"""The smallest gaps of pieces in openings that are not square; worked out by hand."""

from __future__ import annotations

from math import hypot

import pytest

from fitwright.findings import Finding, Verdict
from fitwright.job import parse_job
from fitwright.piece import build
from fitwright.place import Fit, fit, space_findings

BOX = """
stock: {post: square bar 40}
parts:
  post: {stock: post, path: [[20, 20, 0], [20, 20, 1000]], ends: free, repeat: {x: [0, 560], y: [0, 360]}}
"""


def placed(space: str, parts: str = BOX, unit: str = "mm") -> tuple[Fit, list[Finding]]:
    job = parse_job(f"job: {{name: trial, unit: {unit}}}\nspace:\n{space}{parts}")
    piece = build(job)
    found = fit(job, piece)
    assert found is not None
    return found, space_findings(job, piece, found)


def gaps(found: Fit) -> dict[str, float]:
    return {gap.side: gap.value for gap in found.gaps}


def test_a_box_in_a_square_opening() -> None:
    found, findings = placed("""
  opening: {width: 620, depth: 450, height: 1100}
  clear: {left: 5, right: 5, back: 20, top: 50}
""")
    assert gaps(found) == pytest.approx({"left": 10, "right": 10, "back": 20, "front": 30, "top": 100})
    assert found.shift == pytest.approx((10, 30))
    assert [finding.verdict for finding in findings] == [Verdict.HOLDS] * 5 + [Verdict.NEEDS_INPUT]
    assert findings[5].check == "level on the floor"


def test_an_opening_narrowest_between_the_ends_of_the_posts() -> None:
    """620 on the floor, 606 at 500, 625 at 1000: the posts are straight, the wall is not."""
    found, findings = placed("""
  opening: {width: [{at: 0, is: 620}, {at: 500, is: 606}, {at: 1000, is: 625}]}
  clear: {left: 5, right: 5}
  stand: {left: 4}
""")
    assert gaps(found) == pytest.approx({"left": 4, "right": 2})
    assert [gap.height for gap in found.gaps][1] == pytest.approx(500)
    assert [finding.verdict for finding in findings[:2]] == [Verdict.FAILS, Verdict.FAILS]
    assert findings[1].margin == pytest.approx(-3)
    assert "500.0 mm above the floor" in findings[1].advice


def test_boards_too_are_measured_between_their_corners() -> None:
    found, _ = placed(
        """
  opening: {width: [{at: 0, is: 620}, {at: 500, is: 606}, {at: 1000, is: 625}]}
  stand: {left: 4}
""",
        """
stock: {ply: plywood 18 birch}
parts:
  side: {sheet: ply, from: [0, 0, 0], to: [0, 400, 1000], grows: right, mirror: {x: 300}}
""",
    )
    assert gaps(found)["right"] == pytest.approx(2)


def test_walls_that_lean_in() -> None:
    """Over 1000 the left wall leans in by 6 and the right one by 3: 620 becomes 611 at the top."""
    found, _ = placed("""
  opening: {width: 620, height: 1000, lean: {left: 6, right: 3}}
""")
    # Centred between what either side leaves: 20 - 6 - 3 = 11.
    assert gaps(found)["left"] == pytest.approx(5.5)
    assert gaps(found)["right"] == pytest.approx(5.5)
    assert [gap.height for gap in found.gaps][:2] == pytest.approx([1000, 1000])


def test_a_back_wall_that_leans_and_the_front_that_remains() -> None:
    found, _ = placed("""
  opening: {depth: 450, height: 1000, lean: {back: 12}}
  clear: {back: 10}
""")
    # Set 10 from the wall at the top: 450 - 12 - 10 - 400 before it.
    assert gaps(found) == pytest.approx({"back": 10, "front": 28, "top": 0})


def test_a_slanted_top_over_a_leaning_piece() -> None:
    """The top falls from 1100 left to 1050 right over 620."""
    found, _ = placed("""
  opening: {width: 620, height: [{at: 0, is: 1100}, {at: 620, is: 1050}]}
  stand: {left: 10}
""")
    # The right posts end at 610 from the left: 1100 - 50 x 610 / 620 - 1000.
    assert gaps(found)["top"] == pytest.approx(100 - 50 * 610 / 620)


def test_a_round_that_leans_past_the_narrowest_height() -> None:
    """A round of 40 that leans by 100 in 1000, beside a wall that is nearest at 500."""
    found, _ = placed(
        """
  opening: {width: [{at: 0, is: 400}, {at: 500, is: 300}, {at: 1000, is: 400}]}
  stand: {left: 0}
""",
        """
stock: {pole: round bar 40}
parts:
  pole: {stock: pole, path: [[50, 0, 0], [150, 0, 1000]], ends: [level, level]}
""",
    )
    # Cut level the round is 20 hypot(1, 0.1) to either side: from its left at the floor to its right at 500.
    half = 20 * hypot(1, 0.1)
    assert gaps(found)["right"] == pytest.approx(300 - (50 + 2 * half), abs=0.05)


def test_casters_are_swept() -> None:
    found, _ = placed(
        "  opening: {width: 700}\n",
        """
stock: {plate: plate 6}
parts:
  base: {sheet: plate, from: [0, 0, 100], to: [600, 400, 100]}
  caster:
    caster: {wheel: 75, width: 25, height: 100, lead: 30}
    at: [40, 40, 100]
    mirror: {x: 300, y: 200}
""",
    )
    # The swivelled wheel reaches hypot(67.5, 12.5) from 40 inside.
    assert gaps(found)["left"] == pytest.approx(50 + 40 - hypot(67.5, 12.5))


def test_findings_speak_the_maker_s_unit() -> None:
    _, findings = placed(
        """
  opening: {width: 24}
  clear: {left: 1, right: 1}
""",
        """
stock: {post: square bar 2}
parts:
  post: {stock: post, path: [[1, 1, 0], [1, 1, 40]], ends: free, repeat: {x: [0, 21]}}
""",
        unit="inch",
    )
    assert findings[0].verdict is Verdict.FAILS
    assert '1/2" ± 1/16-" left at' in findings[0].formula
    assert 'take 1/2" off' in findings[0].advice


def test_neighbours_and_openings() -> None:
    job = parse_job("""
job: {name: trial, unit: mm}
space:
  opening: {width: 620}
  neighbours:
    counter: {side: left, height: 905, match: {height: 900}, within: 2}
    shelf: {side: right, depth: 400, match: {depth: 400}}
stock: {post: square bar 40}
parts:
  post: {stock: post, path: [[20, 20, 0], [20, 20, 1000]], ends: free, repeat: {x: [0, 560]}}
  bin: {opening: {from: [30, 0, 100], to: [500, 300, 400]}}
""")
    piece = build(job)
    findings = space_findings(job, piece, fit(job, piece))
    by_subject = {finding.subject: finding for finding in findings}
    assert by_subject["counter"].verdict is Verdict.FAILS
    assert by_subject["counter"].advice == "make the piece's height 5.0 mm more"
    assert by_subject["shelf"].verdict is Verdict.HOLDS
    assert by_subject["bin"].verdict is Verdict.FAILS
    assert by_subject["bin"].value == pytest.approx(10)
    assert by_subject["bin"].advice == "move post 1 out of bin by 10.0 mm"


def test_nothing_surveyed_needs_input() -> None:
    job = parse_job("job: {name: trial, unit: mm}\n" + BOX.lstrip())
    piece = build(job)
    assert fit(job, piece) is None
    assert [finding.verdict for finding in space_findings(job, piece, None)] == [Verdict.NEEDS_INPUT]
