"""The page on the shop file names every section and every field of a die, and its example loads."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from fitwright.shop import shop_from_text
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

PAGE = (Path(__file__).parents[2] / "docs" / "shop-file.md").read_text(encoding="utf-8")
WORDS = set(re.findall(r"`([^`\n]+)`", re.sub(r"```.*?```", "", PAGE, flags=re.S)))
MODELS = (ShopFile, DieEntry, BenderEntry, SawEntry, BarEntry, BenchEntry, PinEntry, StopEntry, SquareEntry, ClampEntry)


@pytest.mark.parametrize("word", sorted({name for model in MODELS for name in model.model_fields} | {*KINDS, *SHAPES}))
def test_every_word_is_explained(word: str) -> None:
    assert word in WORDS


def test_the_example_loads() -> None:
    (example,) = re.findall(r"```yaml\n(.*?)```", PAGE, re.S)
    shop = shop_from_text(example, "example")
    assert shop.dies[0].name == "1 1/8 x 4"
    assert shop.dies[0].offset == pytest.approx(-9.525)
