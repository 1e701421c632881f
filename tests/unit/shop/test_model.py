from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from fitwright.shop import Die, default_shop
from fitwright.shop.model import groove_size
from fitwright.stock import parse_stock
from fitwright.units import INCH

INCHES = default_shop("inch")
METRIC = default_shop("mm")


@pytest.mark.parametrize(
    ("words", "groove"),
    [
        ("round tube 32 x 2", ("round", 32)),
        ("round bar 10", ("round", 10)),
        ("square tube 40 x 40 x 2", ("square", 40)),
        ("square bar 12", ("square", 12)),
        ("rect tube 40 x 20 x 2", None),
        ("flat 30 x 5", ("flat", 30)),
        ("angle 30 x 30 x 3", ("angle", 30)),
        ("board 45 x 45 oak", None),
    ],
)
def test_which_groove_a_section_needs(words: str, groove: tuple[str, float] | None) -> None:
    assert groove_size(parse_stock(words).section) == groove


def test_a_die_is_found_by_size_and_radius() -> None:
    section = parse_stock("round tube 1 1/8 x 14 ga", unit="inch").section
    die = INCHES.die_for(section, 4 * INCH)
    assert die is not None
    assert die.name == "1 1/8 x 4"
    assert INCHES.die_for(section, 100.0) is None
    rolled = INCHES.die_for(section, 10 * INCH)
    assert rolled is not None
    assert rolled.rolls


def test_flat_and_angle_rolls_take_anything_up_to_their_size() -> None:
    for words, fits in (("flat 30 x 5", True), ("flat 60 x 5", False), ("angle 30 x 30 x 3", True)):
        assert (METRIC.die_for(parse_stock(words).section, 300.0) is not None) is fits


def test_pipe_takes_the_die_of_its_outside() -> None:
    die = INCHES.die_for(parse_stock("pipe 1 1/4 sch 40", unit="inch").section, 5 * INCH)
    assert die is not None
    assert die.name == "1 1/4 pipe x 5"


def test_a_die_belongs_to_the_machine_it_names_or_to_the_only_one() -> None:
    die = INCHES.dies[0]
    bender = INCHES.bender_for(die)
    assert bender is not None
    assert bender.name == "floor bender"
    nameless = replace(die, machine="")
    assert INCHES.bender_for(nameless) is None
    assert replace(INCHES, benders=INCHES.benders[:1]).bender_for(nameless) == INCHES.benders[0]
    assert INCHES.bender_for(replace(die, machine="gone")) is None


def test_listed_bars_are_used_as_listed() -> None:
    bars = INCHES.bars_for(parse_stock("round tube 1 1/8 x 14 ga", unit="inch"))
    assert [(round(bar.length / INCH, 3), bar.price) for bar in bars if not bar.offcut] == [
        (240, Decimal("38.00")),
        (288, Decimal("45.00")),
    ]
    assert [bar.on_hand for bar in bars if bar.offcut] == [1, 1]
    assert {bar.basis for bar in bars} == {"listed in the shop file"}


def test_unlisted_stock_is_priced_by_weight_and_says_so() -> None:
    stock = parse_stock("round tube 50 x 2")
    (bar,) = METRIC.bars_for(stock)
    assert bar.basis == "estimated by weight"
    # 50 x 2 mm tube: pi 48 2 mm2 of steel, 6 m of it at 3.40 a kilogram.
    assert float(bar.price) == pytest.approx(3.14159 * 48 * 2 * 6e-3 * 7.85 * 3.40, abs=0.02)
    assert bar.length == 6000


def test_offcuts_alone_are_joined_by_bars_to_buy() -> None:
    stock = parse_stock("round tube 50 x 2")
    offcut = replace(METRIC.bars_for(stock)[0], length=700.0, offcut=True, on_hand=1, price=Decimal(0))
    bars = replace(METRIC, stock_lengths=(offcut,)).bars_for(stock)
    assert [(bar.length, bar.offcut) for bar in bars] == [(700, True), (6000, False)]


@pytest.mark.parametrize(
    ("words", "lengths"),
    [
        ("lumber 2x6 white pine", [8, 10, 12]),
        ("pipe 1 sch 40", [21]),
        ("flat 2 x 1/4", [20]),
        ("square bar 1", [20, 24]),
    ],
)
def test_usual_lengths_by_shape(words: str, lengths: list[int]) -> None:
    bars = INCHES.bars_for(parse_stock(words, unit="inch"))
    assert [round(bar.length / INCH / 12, 6) for bar in bars] == lengths
    assert all(bar.price > 0 for bar in bars)


def test_sheets_listed_and_estimated() -> None:
    (listed,) = INCHES.sheets_for(parse_stock("plywood 3/4 birch", unit="inch"))
    assert (listed.price, listed.basis) == (Decimal("92.00"), "listed in the shop file")
    plate = parse_stock("plate 6")
    (estimated,) = METRIC.sheets_for(plate)
    assert float(estimated.price) == pytest.approx(2.44 * 1.22 * 6 * 7.85 * 2.40, rel=1e-3)


def test_a_saw_for_each_material() -> None:
    assert INCHES.saw_for(parse_stock("lumber 1x4 white pine", unit="inch")).name == "mitre saw"
    assert INCHES.saw_for(parse_stock("flat 1 x 1/8", unit="inch")).name == "cold saw"
    one = replace(INCHES, saws=INCHES.saws[:1])
    assert one.saw_for(parse_stock("lumber 1x4 white pine", unit="inch")).name == "cold saw"


def test_a_rate_of_its_own_or_the_shop_s() -> None:
    assert INCHES.rate_for("bending") == 75
    assert INCHES.rate_for("engraving") == INCHES.rates["shop"]


def test_rolls_take_any_radius_from_their_smallest() -> None:
    rolls = Die("rolls", "round", 32, 200, 100, 100, 100, kind="rolls")
    assert (rolls.bends(199), rolls.bends(200), rolls.bends(900)) == (False, True, True)
