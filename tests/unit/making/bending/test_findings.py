from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from fitwright.findings import Finding, Verdict
from fitwright.making.bending import bend_findings, bend_from_points, bend_sheet
from fitwright.piece.path import Path
from fitwright.shop import Bender, default_shop
from fitwright.stock import Stock, parse_stock
from fitwright.units import INCH, Style

SHOP = default_shop("inch")
TUBE = parse_stock("round tube 1 1/8 x 14 ga", unit="inch")


def found(points: list[list[float]], radius: float, stock: Stock = TUBE, closed: bool = False) -> dict[str, Finding]:
    """Findings by check, for points and radius in inches."""
    inches = (np.array(points) * INCH).tolist()
    sheet = bend_from_points(inches, radius * INCH, closed=closed, stock=stock, shop=SHOP, style=Style.inch())
    return {finding.check: finding for finding in bend_findings(sheet, stock, SHOP, Style.inch())}


def u_frame(between: float, legs: float = 20.0) -> list[list[float]]:
    return [[0, 0, 0], [0, 0, legs], [between, 0, legs], [between, 0, 0]]


def test_a_hoop_that_holds() -> None:
    findings = found(u_frame(31.5, 68), 4)
    verdicts = {check: finding.verdict for check, finding in findings.items()}
    tight = "stretch of the outside against the material's elongation"
    assert verdicts.pop(tight) is Verdict.TIGHT
    assert set(verdicts.values()) == {Verdict.HOLDS}
    assert findings["die"].formula == "1 1/8 x 4"
    assert all(finding.basis for finding in findings.values())


def test_a_die_the_shop_has_not() -> None:
    die = found(u_frame(31.5), 5)["die"]
    assert die.verdict is Verdict.FAILS
    assert die.advice == (
        'no 5" die for round tube 1 1/8 x 14 ga: the shop has 3", 3 1/2", 4", 4 1/2", rolls from 8" up'
    )


def test_a_size_the_shop_cannot_bend() -> None:
    die = found(u_frame(31.5), 5, parse_stock("round tube 2 x 14 ga", unit="inch"))["die"]
    assert die.advice.endswith("the shop has none for this size")
    rect = found(u_frame(31.5), 5, parse_stock("rect tube 2 x 1 x 14 ga", unit="inch"))["die"]
    assert "no die or rolls take rectangular tube" in rect.advice
    angle = found(u_frame(31.5), 5, parse_stock("angle 1 x 1 x 1/8", unit="inch"))["die"]
    assert angle.advice.endswith('the shop has rolls from 10" up')


def test_a_flat_is_stretched_by_the_side_that_is_bent() -> None:
    """A hoop of 1 by 1/4 flat on 6 in: (1/8) / 6 the easy way, (1/2) / 6 the hard way."""
    flat = parse_stock("flat 1 x 1/4", unit="inch")
    path = Path(np.array(u_frame(31.5), float) * INCH, np.array([0, 6, 6, 0]) * INCH)
    check = "stretch of the outside against the material's elongation"

    def stretch(frame: list[list[float]]) -> float | None:
        sheet = bend_sheet("F1", path, flat, SHOP, frame=np.array(frame))
        return next(one.value for one in bend_findings(sheet, flat, SHOP) if one.check == check)

    assert stretch([[0, 1, 0], [1, 0, 0]]) == pytest.approx(100 / 48)
    assert stretch([[1, 0, 0], [0, 1, 0]]) == pytest.approx(100 / 12)


def test_a_bend_that_springs_back_straight() -> None:
    wire = parse_stock("round bar 3/8", unit="inch")
    die = replace(SHOP.dies[0], name="wheel", od=0.375 * INCH, radius=200 * INCH)
    shop = replace(SHOP, dies=(die,))
    sheet = bend_from_points((np.array(u_frame(800, 800)) * INCH).tolist(), 200 * INCH, stock=wire, shop=shop)
    overbend = next(one for one in bend_findings(sheet, wire, shop, Style.inch()) if one.check == "overbend")
    assert overbend.verdict is Verdict.FAILS
    assert overbend.advice == 'round bar 3/8 springs back straight from 200": take a smaller radius'


def test_too_little_between_two_bends_names_length_and_die() -> None:
    """9 1/2 in between corners on 4 in: 1 1/2 of straight where 2 1/4 are needed; on 3 1/2 there would be 2 1/2."""
    between = found(u_frame(9.5), 4)["straight between bends 1 and 2"]
    assert between.verdict is Verdict.FAILS
    assert between.margin == pytest.approx(-0.75 * INCH)
    assert between.advice == (
        'bends 1 and 2 need 2 1/4" of straight between them and have 1 1/2": lengthen the leg by 3/4" '
        'or take the 3 1/2" die'
    )


def test_no_other_die_is_named_when_none_would_do() -> None:
    between = found(u_frame(7.0), 3)["straight between bends 1 and 2"]
    assert between.advice.endswith('lengthen the leg by 1 1/4"')


def test_only_the_straights_that_fail_are_told() -> None:
    points: list[list[float]] = [[0, 0, 0], [20, 0, 0], [20, 9, 0], [40, 9, 0], [40, 40, 0]]
    checks = [check for check in found(points, 4) if check.startswith("straight between")]
    assert checks == ["straight between bends 1 and 2"]


def test_a_short_end_is_tight_because_it_can_be_trimmed() -> None:
    findings = found([[0, 0, 0], [0, 0, 20], [5.5, 0, 20]], 4)
    last = findings["straight after the last bend"]
    assert last.verdict is Verdict.TIGHT
    assert last.margin == pytest.approx(-0.75 * INCH)
    assert last.advice == 'leave 3/4" on at the finish and cut it off after bending, or lengthen the leg by 3/4"'


def test_a_bend_too_tight_for_its_tube() -> None:
    findings = found(u_frame(31.5), 2)
    radius = findings["bend radius against the tube's size"]
    assert radius.verdict is Verdict.FAILS
    assert radius.value == pytest.approx(2 / 1.125)
    assert findings["stretch of the outside against the material's elongation"].verdict is Verdict.FAILS
    assert findings["flattening"].verdict is Verdict.FAILS
    thin = findings["wall thinning on the outside"]
    assert thin.verdict is Verdict.FAILS
    assert thin.value == pytest.approx(100 * (1 - 2 / (2 + (1.125 - 0.083) / 2)))


def test_thinning_shows_both_models() -> None:
    formula = found(u_frame(31.5), 4)["wall thinning on the outside"].formula
    assert "304.2.1 factor 0.938" in formula
    assert "B31.1 asks 1.19" in formula


def test_a_blank_longer_than_any_bar() -> None:
    length = found(u_frame(100, 110), 4)["blank length against the longest bar"]
    assert length.verdict is Verdict.FAILS
    # 24 ft less a quarter inch at each end.
    assert length.limit == pytest.approx(287.5 * INCH)
    # Legs of 110, 100 and 110 less two corners of 4 each side, and two quarter circles.
    assert length.value == pytest.approx((320 - 16 + 4 * math.pi) * INCH)
    assert "sleeved butt" in length.advice


def test_a_solid_bar_is_not_asked_about_walls() -> None:
    findings = found(u_frame(31.5), 1.5, parse_stock("round bar 1/2", unit="inch"))
    assert "wall thinning on the outside" not in findings
    assert "bend radius against the tube's size" not in findings


def test_a_half_turn_and_its_overbend_fit_the_bender() -> None:
    points: list[list[float]] = [[0, 0, 0], [0, 0, 20], [8, 0, 20], [8, 0, 0]]
    reach = found(points, 4)["largest angle to bend to, springback included"]
    assert reach.verdict is Verdict.HOLDS
    assert reach.value is not None
    assert 180 < reach.value < 195


def test_a_ring_is_not_asked_for_straights() -> None:
    r = 10
    findings = found([[-r, -r, 0], [r, -r, 0], [r, r, 0], [-r, r, 0]], r, closed=True)
    assert not [check for check in findings if check.startswith("straight")]
    assert findings["die"].formula == "rolls 1 1/8"
    assert "largest angle to bend to, springback included" not in findings


def test_wood_needs_what_it_has_not() -> None:
    board = parse_stock("lumber 1x4 white pine", unit="inch")
    path = Path(np.array([[0, 0, 0], [0, 0, 500], [800, 0, 500]], float), np.array([0, 101.6, 0]))
    findings = {one.check: one for one in bend_findings(bend_sheet("A1", path, board, SHOP), board, SHOP)}
    assert findings["overbend"].verdict is Verdict.NEEDS_INPUT
    assert findings["overbend"].advice == "give the yield stress of eastern white pine"


def test_the_machine_is_claimed_only_as_far_as_it_is_known() -> None:
    path = Path(np.array([[0, 0, 0], [0, 0, 500], [800, 0, 500], [800, 0, 0]], float), np.array([0, 101.6, 101.6, 0]))
    check = "room for the bent part at the machine"

    def formula(bender: Bender | None) -> str:
        shop = replace(SHOP, benders=(bender,) if bender else ())
        sheet = bend_sheet("A1", path, TUBE, shop)
        return next(one.formula for one in bend_findings(sheet, TUBE, shop) if one.check == check)

    assert formula(None) == "tried against: die, tube still to be bent"
    assert formula(Bender("floor bender", height=900)) == "tried against: die, tube still to be bent, floor"


def test_a_collision_fails_with_the_bend_that_meets_it() -> None:
    shop = replace(SHOP, benders=(Bender("floor bender", height=300),))
    points = [[0, 0, 0], [600, 0, 0], [600, 400, 0], [600, 400, 600]]
    hanging = bend_from_points(points, 101.6, stock=TUBE, shop=shop)
    standing = bend_from_points([[x, y, -z] for x, y, z in points], 101.6, stock=TUBE, shop=shop)
    failed = [
        [one.check for one in bend_findings(sheet, TUBE, shop) if one.verdict is Verdict.FAILS]
        for sheet in (hanging, standing)
    ]
    assert sorted(failed) == [[], ["room for the bent part at the machine, bend 2"]]
