from __future__ import annotations

import pytest

from fitwright.job.arithmetic import ArithmeticFault, Quantity, evaluate, parse
from fitwright.job.arithmetic.formula import Name

VALUES = {
    "width": Quantity(31.5),
    "height": Quantity(74.0),
    "shelves": Quantity(4.0),
    "frame.od": Quantity(28.575, 1),
    "gap": Quantity(600.0, 1),
}


def look(name: Name) -> Quantity:
    return VALUES[name.name]


def worked(text: str, unit_mm: float = 25.4) -> Quantity:
    return evaluate(parse(text), look, unit_mm)


@pytest.mark.parametrize(
    ("text", "value", "power"),
    [
        ("31 1/2 * 2", 63.0, 0),
        ('9-⅜"', 9.375 * 25.4, 1),
        ('9 - ⅜"', 9 * 25.4 - 9.525, 1),
        ("width - 1 1/2", 30.0, 0),
        ("(height - 22) / shelves", 13.0, 0),
        ("width-2*frame.od", 31.5 * 25.4 - 57.15, 1),
        ("600 mm + 2 in", 650.8, 1),
        ("2 in + 600 mm", 650.8, 1),
        ("5' 3 1/2\" - 2 in", 1562.1, 1),
        ("gap + 1", 625.4, 1),
        ("gap * 2", 1200.0, 1),
        ("gap / 2", 300.0, 1),
        ("gap / frame.od", 600 / 28.575, 0),
        ("gap * frame.od", 600 * 28.575, 2),
        ("1 / gap", 1 / 600, -1),
        ("sqrt(gap * gap)", 600.0, 1),
        ("sqrt(3*3 + 4*4)", 5.0, 0),
        ("max(width, gap)", 800.1, 1),
        ("min(width, gap)", 600.0, 1),
        ("sin(30)", 0.5, 0),
        ("sin(30 deg)", 0.5, 0),
        ("cos(60°)", 0.5, 0),
        ("tan(45)", 1.0, 0),
        ("gap * sin(30)", 300.0, 1),
        ("-(-2)", 2.0, 0),
        ("2 * -3", -6.0, 0),
        ("7 - 3 - 2", 2.0, 0),
        ("24 / 4 / 2", 3.0, 0),
    ],
)
def test_quantities(text: str, value: float, power: int) -> None:
    found = worked(text)
    assert found.value == pytest.approx(value, abs=1e-9)
    assert found.power == power


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("floor(7/3)", 2),
        ("ceil(7/3)", 3),
        ("round(2.5)", 3),
        ("round(-2.5)", -3),
        ("round(width / 7, 1/16)", 4.5),
        ("floor(0.3 / 0.1)", 3),
        ("ceil(3 * 0.1 / 0.1)", 3),
        ("round(gap, 1)", 609.6),
        ("round(gap)", 609.6),
        ("floor(gap, 7 mm)", 595.0),
    ],
)
def test_whole_steps(text: str, value: float) -> None:
    assert worked(text).value == pytest.approx(value, abs=1e-9)


def test_a_bare_number_takes_the_unit_of_the_job() -> None:
    assert worked("gap + 1", unit_mm=10.0).value == pytest.approx(610.0)
    assert worked("gap + 1", unit_mm=1.0).value == pytest.approx(601.0)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("gap * gap + 1", "a plain number"),
        ("gap * gap - gap", "an area and a length"),
        ("gap / 0", "divides by zero"),
        ("3 / (2 - 2)", "divides by zero"),
        ("sqrt(0 - 4)", "sqrt of a negative"),
        ("sqrt(gap)", "not a length"),
        ("sin(gap)", "takes degrees"),
        ("tan(90)", "right angle"),
        ("gap + 10 deg", "an angle"),
        ("10 deg * gap", "inside sin, cos or tan"),
        ("gap / 10 deg", "inside sin, cos or tan"),
        ("floor(3, 0)", "more than zero"),
        ("999999999999999 * 10", "larger than"),
    ],
)
def test_what_has_no_value(text: str, says: str) -> None:
    with pytest.raises(ArithmeticFault, match=says):
        worked(text)


def test_an_angle_may_be_worked_out_before_it_is_turned_into_a_ratio() -> None:
    assert worked("sin(2 * 10 deg + 10)").value == pytest.approx(0.5)
    assert worked("90 deg / 3").words == "an angle"


@pytest.mark.parametrize(
    ("text", "value", "power"),
    [
        ("floor(width / frame.od)", 28.0, 0),  # 31.5 in hold 28 tubes of 1 1/8 in
        ("ceil(width / frame.od) - 1", 27.0, 0),
        ("width / frame.od + 1", 29.0, 0),
        ("max(2, height / frame.od)", 74 / 1.125, 0),
        ("4 / gap * 300 mm", 2.0, 0),  # four in 600 mm are two in 300
        ("width / (width / frame.od)", 28.575, 1),
    ],
)
def test_how_often_a_length_goes_into_a_bare_number(text: str, value: float, power: int) -> None:
    result = worked(text)
    assert result.value == pytest.approx(value)
    assert result.power == power
