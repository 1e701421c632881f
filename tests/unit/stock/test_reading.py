"""Taking words apart."""

from __future__ import annotations

import pytest

from fitwright.stock import StockError
from fitwright.stock.reading import Size, gauge_number, inch_words, mm_words, sizes_in, take_apart


def test_parts_of_the_words() -> None:
    words = take_apart("Rect  tube 2 in × 1 in x 14 ga, stainless 304")
    assert words.shape == "rectangular tube"
    assert words.sizes == (("2", "in"), ("1", "in"), ("14", "ga"))
    assert words.rest == "stainless 304"


def test_the_longest_shape_word_wins() -> None:
    assert take_apart("round bar 10").shape == "round bar"
    assert take_apart("round tube 10 x 1").shape == "round tube"
    assert take_apart("square tubing 20 x 2").shape == "square tube"


def test_units_pass_backwards_and_a_fraction_means_inches() -> None:
    assert [size.mm for size in sizes_in(take_apart("round tube 32 x 2 mm"), "inch")] == [32.0, 2.0]
    assert [size.unit for size in sizes_in(take_apart("round tube 1 x 1/8"), "mm")] == ["inch", "inch"]
    assert [size.unit for size in sizes_in(take_apart("round tube 1 in x 2 mm"), "mm")] == ["inch", "mm"]
    assert [size.unit for size in sizes_in(take_apart("round tube 32 x 14 ga"), "mm")] == ["mm", "ga"]


@pytest.mark.parametrize(
    ("mm", "words"),
    [
        (25.4, "1"),
        (28.575, "1 1/8"),
        (9.525, "3/8"),
        (0.0, "0"),
        (1.651, "0.065"),
        (25.4 * 63 / 64, "63/64"),
        (50.8, "2"),
    ],
)
def test_inch_words(mm: float, words: str) -> None:
    assert inch_words(mm) == words


def test_mm_words() -> None:
    assert [mm_words(mm) for mm in (32.0, 26.9, 100.0, 1.6 + 1e-9)] == ["32", "26.9", "100", "1.6"]


def test_a_gauge_is_whole() -> None:
    assert gauge_number(Size("14", "ga", None)) == 14
    with pytest.raises(StockError):
        gauge_number(Size("14.5", "ga", None))


@pytest.mark.parametrize(("said", "meant"), [("round tub 1 x 14 ga", "round tube"), ("round bat 3/8", "round bar")])
def test_a_slip_in_the_second_word_is_told_as_one(said: str, meant: str) -> None:
    with pytest.raises(StockError, match=f"does not start with a shape, did you mean '{meant}'"):
        take_apart(said)


def test_words_between_a_shape_and_its_sizes_are_no_slip() -> None:
    assert take_apart("round stainless 3/8").shape == "round bar"
    assert take_apart("round bar").sizes == ()
