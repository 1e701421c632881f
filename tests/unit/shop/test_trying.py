from __future__ import annotations

from dataclasses import replace

import pytest

from fitwright.errors import FitwrightError
from fitwright.shop import default_shop
from fitwright.shop.trying import Try, WrongTrial, trials_of
from tests.unit.shop.records.samples import DAY, TUBE

SHOP = default_shop("inch")
GOOD = Try("1 1/8 x 4", "Round tube 1-1/8 x 14ga", "90 deg", ("85.8", "85.6°"), " H1 ", note="first")


def test_what_a_maker_writes_becomes_records() -> None:
    die, stock, trials = trials_of(GOOD, SHOP, DAY)
    assert (die.name, stock.label) == ("1 1/8 x 4", TUBE)
    assert [(one.asked_deg, one.got_deg, one.heat, one.section) for one in trials] == [
        (90.0, 85.8, "H1", TUBE), (90.0, 85.6, "H1", TUBE),
    ]  # fmt: skip
    assert trials[0].radius == pytest.approx(101.6)


def test_a_measured_piece_takes_the_shops_unit() -> None:
    said = replace(GOOD, got=("90",), blank="20", legs="11, 10 1/8", mark="7 1/4")
    _, _, (trial,) = trials_of(said, SHOP, DAY)
    assert (trial.blank, trial.leg_start, trial.leg_end, trial.mark) == pytest.approx((508.0, 279.4, 257.175, 184.15))


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"die": "1 1/8 x 5"}, "those that take .* are 1 1/8 x 3"),
        ({"die": "32 x 100", "stock": "round tube 32 x 2"}, "32 x 2 in are none; a bare number is in the shop's inch"),
        ({"die": "rolls 1 1/8"}, "are rolls"),
        ({"stock": "square tube 1 x 16 ga"}, "does not take square tube"),
        ({"stock": "roundish"}, "does not start with a shape"),
        ({"got": ("9",)}, "not the one between its legs"),
        ({"asked": "ninety"}, "ninety"),
        ({"legs": "11"}, "not two legs"),
        ({"legs": "11, 10"}, "each measured piece by itself"),
        ({"got": ("85",), "blank": "20"}, "goes with legs"),
        ({"got": ("90",), "blank": "20", "legs": "12, 12"}, "the bend takes 101.6 mm and its arc is 159.6"),
        ({"asked": "200", "got": ("196",)}, "set to 200°: 1 1/8 x 4 turns to 195°"),
        # the bend begins 4 in before the corner, so at 7: a mark at 50 is 43 in past it
        ({"got": ("90",), "legs": "11, 10 1/8", "mark": "50"}, "the mark was 1092.2 mm past where the bend begins"),
    ],
)
def test_what_cannot_be_is_told(change: dict[str, object], said: str) -> None:
    with pytest.raises(FitwrightError, match=said):
        trials_of(replace(GOOD, **change), SHOP, DAY)  # type: ignore[arg-type]
    assert issubclass(WrongTrial, ValueError)
