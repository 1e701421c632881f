from __future__ import annotations

import pytest

from fitwright.job.arithmetic import ArithmeticFault, names_in, parse
from fitwright.job.arithmetic.formula import Call, Minus, Name, Number, Operation


def test_products_bind_before_sums() -> None:
    formula = parse("1 + 2 * a")
    assert formula == Operation(2, "+", Number(0, 1.0), Operation(6, "*", Number(4, 2.0), Name(8, "a")))


def test_equal_signs_go_from_left_to_right() -> None:
    formula = parse("9 - 4 - 3")
    assert isinstance(formula, Operation)
    assert isinstance(formula.left, Operation)


def test_signs_and_brackets() -> None:
    assert parse("-(a)") == Minus(0, Name(2, "a"))
    assert parse("+3") == Number(1, 3.0)
    assert parse("min(a, 2)") == Call(0, "min", (Name(4, "a"), Number(7, 2.0)))


def test_names_are_found_in_order() -> None:
    names = [name.name for name in names_in(parse("b - max(a, -frame.od) * (b / c)"))]
    assert names == ["b", "a", "frame.od", "b", "c"]


@pytest.mark.parametrize(
    ("text", "at", "says"),
    [
        ("width 3", 6, "side by side"),
        ("2(3)", 1, "side by side"),
        ("1, 5", 1, "decimals take a point"),
        ("(1, 5)", 2, "decimals take a point"),
        ("1)", 1, "without its"),
        ("min(1", 3, "put quotes around it"),
        ("19 +", 4, "missing at the end"),
        ("", 0, "missing at the end"),
        ("* 3", 0, "missing before"),
        ("width / 3/8", 8, "two ways"),
        ("sqrt(1, 2)", 0, "takes 1 values"),
        ("min(" + ", ".join("1" * 21) + ")", 0, "takes 1 to 20"),
        ("(" * 41 + "1" + ")" * 41, 40, "nested more than 40"),
    ],
)
def test_what_cannot_be_read_is_told_where(text: str, at: int, says: str) -> None:
    with pytest.raises(ArithmeticFault, match=says) as told:
        parse(text)
    assert told.value.at == at


def test_a_wrong_function_gets_the_nearest() -> None:
    with pytest.raises(ArithmeticFault) as told:
        parse("rond(3)")
    assert told.value.nearest == "round"
    assert "sqrt" in told.value.accepted
