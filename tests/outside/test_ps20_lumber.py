"""Softwood lumber against the American Softwood Lumber Standard PS 20: minimum dressed sizes, dry and green [in]."""

from __future__ import annotations

from fractions import Fraction

import pytest

from fitwright.stock import dressed, parse_stock
from fitwright.units import INCH

# nominal, dry, green
BOARD_THICKNESS = [
    ("3/8", 0.3125, 0.34375),
    ("1/2", 0.4375, 0.46875),
    ("5/8", 0.5625, 0.59375),
    ("3/4", 0.625, 0.6875),
    ("1", 0.75, 0.78125),
    ("5/4", 1.0, 1.03125),
    ("3/2", 1.25, 1.28125),
]
DIMENSION_THICKNESS = [
    ("2", 1.5, 1.5625),
    ("5/2", 2.0, 2.0625),
    ("3", 2.5, 2.5625),
    ("7/2", 3.0, 3.0625),
    ("4", 3.5, 3.5625),
    ("9/2", 4.0, 4.0625),
]
FACE = [
    ("2", 1.5, 1.5625),
    ("3", 2.5, 2.5625),
    ("4", 3.5, 3.5625),
    ("5", 4.5, 4.625),
    ("6", 5.5, 5.625),
    ("8", 7.25, 7.5),
    ("10", 9.25, 9.5),
    ("12", 11.25, 11.5),
]
BOARD_FACE = [("7", 6.5, 6.625), ("9", 8.25, 8.5), ("11", 10.25, 10.5)]


@pytest.mark.parametrize(("nominal", "dry", "green"), BOARD_THICKNESS + DIMENSION_THICKNESS)
def test_thickness(nominal: str, dry: float, green: float) -> None:
    assert dressed(Fraction(nominal), Fraction(12))[0] / INCH == pytest.approx(dry, abs=1e-9)
    assert dressed(Fraction(nominal), Fraction(12), green=True)[0] / INCH == pytest.approx(green, abs=1e-9)


@pytest.mark.parametrize(("nominal", "dry", "green"), FACE)
def test_face_of_boards_and_dimension(nominal: str, dry: float, green: float) -> None:
    for thickness in (Fraction(1), Fraction(2)):
        assert dressed(thickness, Fraction(nominal))[1] / INCH == pytest.approx(dry, abs=1e-9)
        assert dressed(thickness, Fraction(nominal), green=True)[1] / INCH == pytest.approx(green, abs=1e-9)


@pytest.mark.parametrize(("nominal", "dry", "green"), BOARD_FACE)
def test_face_of_boards_only(nominal: str, dry: float, green: float) -> None:
    assert dressed(Fraction(1), Fraction(nominal))[1] / INCH == pytest.approx(dry, abs=1e-9)
    assert dressed(Fraction(1), Fraction(nominal), green=True)[1] / INCH == pytest.approx(green, abs=1e-9)


def test_section_modulus_of_a_2x12() -> None:
    # Gere, Mechanics of Materials, 9th ed., problem 5.6-9 uses S = 31.64 in3
    section = parse_stock("lumber 2x12 Douglas-fir").section
    assert section.s_v / INCH**3 == pytest.approx(31.64, abs=0.005)


def test_second_moment_of_a_1x6_laid_flat() -> None:
    # 3/4 x 5-1/2 flat: I = 5.5 x 0.75^3 / 12 = 0.19336 in4
    assert parse_stock("lumber 1x6 pine").section.i_u / INCH**4 == pytest.approx(0.19336, abs=5e-6)
