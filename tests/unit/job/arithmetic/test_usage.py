from __future__ import annotations

from fitwright.job.arithmetic import parse
from fitwright.job.arithmetic.usage import Usage, note_length, note_number


def noted(text: str) -> Usage:
    usage = Usage()
    note_length(parse(text), usage)
    return usage


def test_what_is_added_up_to_a_length_is_a_length() -> None:
    assert noted("a - (b + min(c, 3))").surely == {"a", "b", "c"}


def test_what_a_length_is_divided_by_is_a_number() -> None:
    usage = noted("(height - 22) / shelves")
    assert usage.surely == {"height"}
    assert usage.numbers == {"shelves"}


def test_factors_are_likely_and_their_product_is_remembered() -> None:
    usage = noted("2 * a + b * c")
    assert usage.likely == {"a", "b", "c"}
    assert not usage.surely
    assert usage.areas == {("b", "c")}


def test_a_count_is_a_number() -> None:
    usage = Usage()
    note_number(parse("shelves"), usage)
    assert usage.numbers == {"shelves"}


def test_an_area_over_a_length_is_a_length() -> None:
    """As of similar triangles: no mistake, and nothing is said of the height."""
    usage = noted("foot - rise * run / height")
    assert not usage.areas
    assert usage.surely == {"foot"}
    assert usage.likely == {"rise", "run"}
    assert "height" not in usage.numbers


def test_half_an_area_is_an_area() -> None:
    assert noted("rise * run / 2").areas == {("rise", "run")}
