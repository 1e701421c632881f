"""What is found in a place where almost everything is wrong, as findings."""

from __future__ import annotations

from functools import cache

from fitwright.findings import Finding, Verdict
from fitwright.job import parse_job
from fitwright.piece import build
from fitwright.place import fit, space_findings

PARTS = """
stock: {tube: square tube 40 x 2, ply: plywood 18 birch}
parts:
  post: {stock: tube, path: [[20, 20, 100], [20, 20, 900]], ends: free, repeat: {x: [0, 560], y: [0, 360]}}
  bearer: {stock: tube, path: [[20, 40, 280], [20, 360, 280]], ends: free, mirror: {x: 300}}
  lip: {stock: tube, path: [[40, 20, 310], [560, 20, 310]], ends: free}
  shelf: {sheet: ply, from: [42, 45, 300], to: [558, 355, 300], grows: up, removable: front}
  caster:
    caster: {height: 100, wheel: 60, width: 25, brake: true}
    at: [20, 20, 100]
    repeat: {x: [0, 560], y: [0, 360]}
"""
SPACE = """
  opening:
    width: [{at: 0, is: 690}, {at: 1000, is: 650}]
    depth: 500
    height: 1100
    lean: {left: 4, right: 4}
    plan: {front: 690, back: 690, left: 500, right: 500, diagonals: [852, 902]}
  clear: {left: 5, right: 5, back: 30, top: 50}
  floor: [{at: [0, 0], is: 0}, {at: [690, 0], is: 9}, {at: [0, 500], is: 0}, {at: [690, 500], is: 2}]
  things: {pipe: {from: [100, 440, 0], to: [140, 490, 1100]}}
  doors: {closet: {hinge: [-30, -5], width: 600, shut: left, opens: front, turns: 100}}
  aisle: 300
  clean: {below: 120, behind: 10}
"""


@cache
def findings(space: str = SPACE, parts: str = PARTS) -> dict[tuple[str, str], Finding]:
    job = parse_job(f"job: {{name: trial, unit: mm}}\nspace:{space}{parts}")
    piece = build(job)
    return {(one.subject, one.check): one for one in space_findings(job, piece, fit(job, piece))}


def test_every_finding_says_its_rule_and_what_to_do() -> None:
    for found in findings().values():
        assert found.area == "space"
        assert found.basis
        assert found.formula or found.verdict is Verdict.NEEDS_INPUT or found.verdict is Verdict.FAILS
        assert bool(found.advice) is (found.verdict is not Verdict.HOLDS)


def test_a_plan_that_does_not_close_names_the_diagonal() -> None:
    found = findings()["sides and diagonals", "the lengths close"]
    assert found.verdict is Verdict.FAILS
    assert "the diagonal from front right to back left, 902.0 mm" in found.advice


def test_widths_against_the_lean() -> None:
    """40 narrower at 1000, where the leans make 7."""
    assert findings()["width and lean", "the lengths close"].verdict is Verdict.FAILS


def test_the_floor_under_casters() -> None:
    rock, level = findings()["floor", "rock on the floor as it is"], findings()["floor", "level on the floor"]
    # the twist of the floor is 7 over the whole opening, and less between the casters
    assert rock.verdict is Verdict.FAILS
    assert rock.value is not None
    assert 7 * (560 / 690) * (360 / 500) < rock.value < 7
    assert level.verdict is Verdict.FAILS
    assert "rolls downhill" in level.advice


def test_a_pipe_in_the_way() -> None:
    found = findings()["pipe", "gap to the pipe"]
    assert found.verdict is Verdict.HOLDS
    assert "on its left" in found.formula or "behind it" in found.formula or "on its right" in found.formula


def test_a_door_that_opens_past() -> None:
    assert findings()["closet", "closet opens"].verdict is Verdict.HOLDS


def test_the_shelf_is_lifted_over_its_lip() -> None:
    assert findings()["shelf", "comes out"].formula.startswith("lift it 31.0 mm")


def test_too_little_floor_to_roll_it_out() -> None:
    found = findings()["aisle", "room to roll it out"]
    assert (found.verdict, found.value) == (Verdict.FAILS, 300.0)


def test_brakes_and_cleaning() -> None:
    assert findings()["brakes", "a foot gets to"].value == 2.0
    assert findings()["cleaning", "room below"].verdict is Verdict.FAILS
    assert findings()["cleaning", "room behind"].verdict is Verdict.HOLDS


def test_what_is_lacking_is_named() -> None:
    bare = findings("\n  opening: {width: 690, height: 1100}\n  clean: {behind: 10}\n")
    asked = {check: one.advice for (_, check), one in bare.items() if one.verdict is Verdict.NEEDS_INPUT}
    assert set(asked) == {"level on the floor", "room to roll it out", "room behind"}
    assert "space: floor" in asked["level on the floor"]


def test_without_an_opening_that_alone_is_asked() -> None:
    (found,) = findings("\n  aisle: 900\n").values()
    assert (found.verdict, found.subject) == (Verdict.NEEDS_INPUT, "opening")


def test_feet_are_levelled() -> None:
    feet = PARTS.replace("caster:", "foot:").replace(
        "{height: 100, wheel: 60, width: 25, brake: true}", "{height: 100}"
    )
    found = findings(SPACE, feet)["floor", "level by feet"]
    assert found.verdict is Verdict.HOLDS
    assert "turn out foot 1" in found.formula


def test_a_gap_less_sure_than_its_margin_is_tight() -> None:
    sure = findings("\n  opening: {width: 660}\n  clear: {left: 14, right: 14}\n  within: 2\n")
    unsure = findings("\n  opening: {width: 660}\n  clear: {left: 14, right: 14}\n  within: 20\n")
    assert sure["left", "gap on the left"].verdict is Verdict.HOLDS
    assert unsure["left", "gap on the left"].verdict is Verdict.TIGHT
