"""The page on the shop file names every section and every field of a die, and its example loads."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from fitwright.shop import shop_from_text
from fitwright.shop.pricing import UNITS_SOLD
from fitwright.shop.pricing_schema import DeliveryEntry, PricingEntry, TaxEntry, TermsEntry, UnitPriceEntry
from fitwright.shop.schema import (
    KINDS,
    SHAPES,
    BarEntry,
    BenchEntry,
    BenderEntry,
    ClampEntry,
    DieEntry,
    PinEntry,
    SawEntry,
    ShopFile,
    SquareEntry,
    StopEntry,
)
from fitwright.shop.working import SPREADS, STEP_KINDS
from fitwright.shop.working_schema import AirEntry, BoardsEntry, TimeEntry, WorkEntry

PAGE = (Path(__file__).parents[2] / "docs" / "shop-file.md").read_text(encoding="utf-8")
WORDS = set(re.findall(r"`([^`\n]+)`", re.sub(r"```.*?```", "", PAGE, flags=re.S)))
MODELS = (ShopFile, DieEntry, BenderEntry, SawEntry, BarEntry, BenchEntry, PinEntry, StopEntry, SquareEntry, ClampEntry)
MONEY = (PricingEntry, TaxEntry, DeliveryEntry, TermsEntry, UnitPriceEntry)
WORKING = (WorkEntry, TimeEntry, BoardsEntry, AirEntry)


@pytest.mark.parametrize(
    "word",
    sorted({name for model in (*MODELS, *MONEY) for name in model.model_fields} | {*KINDS, *SHAPES, *UNITS_SOLD}),
)
def test_every_word_is_explained(word: str) -> None:
    assert word in WORDS


@pytest.mark.parametrize(
    "word", sorted({name for model in WORKING for name in model.model_fields} | {*STEP_KINDS, *SPREADS})
)
def test_every_word_of_how_the_shop_works_is_explained(word: str) -> None:
    assert word in WORDS


def test_the_example_loads() -> None:
    (example,) = re.findall(r"```yaml\n(.*?)```", PAGE, re.S)
    shop = shop_from_text(example, "example")
    assert shop.dies[0].name == "1 1/8 x 4"
    assert shop.dies[0].offset == pytest.approx(-9.525)
