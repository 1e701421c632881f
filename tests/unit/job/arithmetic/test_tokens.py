from __future__ import annotations

import pytest

from fitwright.job.arithmetic import ArithmeticFault
from fitwright.job.arithmetic.tokens import tokens


def one(text: str) -> tuple[float, int]:
    """Value and power of a text that is one number."""
    found = tokens(text)
    assert [token.kind for token in found] == ["number", "end"]
    return found[0].value, found[0].power


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("31 1/2", 31.5),
        ("31", 31),
        ("0.5", 0.5),
        (".5", 0.5),
        ("3/8", 0.375),
        ("9⅜", 9.375),
        ("9-3/8", 9.375),
        ("⅜", 0.375),
    ],
)
def test_a_number_is_one_word(text: str, value: float) -> None:
    assert one(text) == (value, 0)


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ('9-3/8"', 238.125),
        ("9 3/8 in", 238.125),
        ("9⅜″", 238.125),
        ("1/2 in.", 12.7),
        ("5' 3 1/2\"", 1612.9),
        ("5'-3\"", 1600.2),
        ("5 ft 3 in", 1600.2),
        ("5' 3", 1600.2),
        ("238.1 mm", 238.1),
        ("23.8 cm", 238.0),
        ("1.2 m", 1200.0),
        ("2 Feet", 609.6),
    ],
)
def test_a_length_takes_its_unit(text: str, mm: float) -> None:
    value, power = one(text)
    assert value == pytest.approx(mm, abs=1e-9)
    assert power == 1


def test_a_hyphen_is_a_minus_with_spaces_or_before_an_improper_fraction() -> None:
    assert [token.kind for token in tokens("9 - 3/8")][:3] == ["number", "-", "number"]
    assert [token.kind for token in tokens("10-4/2")][:3] == ["number", "-", "number"]
    assert [token.kind for token in tokens("width-3/8")][:3] == ["name", "-", "number"]
    assert [token.kind for token in tokens("5' - 3\"")][:3] == ["number", "-", "number"]


def test_names_may_have_one_dot() -> None:
    assert [token.text for token in tokens("2*frame.od-b_2")] == ["2", "*", "frame.od", "-", "b_2", ""]


def test_a_name_beside_a_number_is_not_its_unit() -> None:
    assert [token.kind for token in tokens("3 inches_wide")] == ["number", "name", "end"]


@pytest.mark.parametrize(
    ("text", "at", "says"),
    [
        ("width & 3", 6, "does not belong in arithmetic"),
        ("1e999", 0, "write numbers out"),
        ("2x", 0, "write numbers out"),
        ("31 5/2", 0, "less than one"),
        ("3/0", 0, "divides by zero"),
        ("5' 14\"", 3, "fewer than 12"),
        ("5' 3 mm", 3, "has to be inches"),
        ("1234567890123456", 0, "16 digits"),
        ("1 " * 200, 0, "at most 200"),
        ("9⅜ & 3", 3, "does not belong"),
    ],
)
def test_what_cannot_be_read_is_told_where(text: str, at: int, says: str) -> None:
    with pytest.raises(ArithmeticFault, match=says) as told:
        tokens(text)
    assert told.value.at == at


def test_a_wrong_unit_gets_the_nearest() -> None:
    with pytest.raises(ArithmeticFault) as told:
        tokens("3inchs")
    assert told.value.nearest == "inches"
