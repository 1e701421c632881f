"""Lengths, angles, masses and loads, read and printed."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from fitwright.units import (
    INCH,
    POUND,
    POUND_FORCE,
    AngleError,
    LengthError,
    LoadError,
    MassError,
    Style,
    parse_angle,
    parse_length,
    parse_load,
    parse_mass,
)

SIXTEENTH = Style.inch()
SIXTY_FOURTH = Style.inch(Fraction(1, 64))
THIRTY_SECOND = Style.inch(Fraction(1, 32))
HALF_MM = Style.metric()
TENTH_MM = Style.metric(Fraction(1, 10))
CM = Style("cm", Fraction(1, 2))


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("9 3/8 in", 238.125),
        ('9-3/8"', 238.125),
        ("9⅜″", 238.125),
        ("9 ⅜ in.", 238.125),
        ("⅜ inch", 9.525),
        ("9 3⁄8”", 238.125),
        ("5' 3 1/2\"", 1612.9),
        ("5′ 3½″", 1612.9),
        ("5'-3 1/2\"", 1612.9),
        ("5'3-1/2''", 1612.9),
        ("5' 3", 1600.2),
        ("5 ft 3 in", 1600.2),
        ("5ft-3in", 1600.2),
        ("2 feet", 609.6),
        ("-5' 3\"", -1600.2),
        ("− 9 3/8 in", -238.125),
        ("+1 in", 25.4),
        ("1.5 in", 38.1),
        (".5in", 12.7),
        ("1/8in", 3.175),
        ("238.1 mm", 238.1),
        ("23.8cm", 238.0),
        ("1.2 m", 1200.0),
        ("1 m 20 cm", 1200.0),
        ("12 millimetres", 12.0),
        ("1.5e2 mm", 150.0),
        ('9 3/8+"', 238.125),
        ('9 3/8-"', 238.125),
        ('9 3/8"+', 238.125),
        ('-9 3/8 +"', -238.125),
        ('0-"', 0.0),
    ],
)
def test_lengths_as_makers_write_them(text: str, mm: float) -> None:
    assert parse_length(text) == mm


@pytest.mark.parametrize(("unit", "mm"), [("inch", 254.0), ("mm", 10.0), ("cm", 100.0)])
def test_a_bare_number_takes_the_jobs_unit(unit: str, mm: float) -> None:
    assert parse_length("10", unit) == mm
    assert parse_length(10, unit) == mm
    assert parse_length(10.0, unit) == mm


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("", "nothing to read"),
        ("   ", "nothing to read"),
        ("-", "nothing to read"),
        ("1/0", "divides by zero"),
        ("1 1/0 in", "divides by zero"),
        ("nan", "cannot read"),
        ("inf mm", "cannot read"),
        ("1e400", "too large"),
        ("1e99999", "second number"),
        ("9" * 401, "401 characters"),
        ("3,5 mm", "decimal point"),
        ("9 11/8", "one or more"),
        ("--3", "two signs"),
        ("5 5", "without its unit"),
        ("3 in 2 ft", "from large to small"),
        ("3 x 4", "unit 'x' is not known"),
        ("12 milimetres", "did you mean 'millimetres'"),
        ("$5", "cannot read"),
    ],
)
def test_what_is_not_a_length_says_why_and_what_works(text: str, reason: str) -> None:
    with pytest.raises(LengthError, match="write 9 3/8 in") as wrong:
        parse_length(text)
    assert reason in str(wrong.value)
    assert isinstance(wrong.value, ValueError)


@pytest.mark.parametrize("wrong", [True, None, [1]])
def test_other_things_are_not_lengths(wrong: object) -> None:
    with pytest.raises(LengthError):
        parse_length(wrong)  # type: ignore[arg-type]


def test_the_message_of_a_huge_text_is_short() -> None:
    with pytest.raises(LengthError) as wrong:
        parse_length("1" * 1_000_000)
    assert len(str(wrong.value)) < 300


@pytest.mark.parametrize(
    ("style", "mm", "text"),
    [
        (SIXTEENTH, 238.125, '9 3/8"'),
        (SIXTEENTH, 238.125 + 0.39, '9 3/8"'),
        (SIXTEENTH, 238.125 + 0.41, '9 3/8+"'),
        (SIXTEENTH, 238.125 - 0.41, '9 3/8-"'),
        (THIRTY_SECOND, 238.125 + 0.3, '9 3/8+"'),
        (THIRTY_SECOND, 238.125 + 0.41, '9 13/32-"'),
        (THIRTY_SECOND, 238.125 + 25.4 / 32, '9 13/32"'),
        (SIXTEENTH, 25.4, '1"'),
        (SIXTEENTH, 9.525, '3/8"'),
        (SIXTEENTH, 0.0, '0"'),
        (SIXTEENTH, -238.125, '-9 3/8"'),
        (SIXTEENTH, 0.39, '0"'),
        (SIXTEENTH, 0.5, '1/64+"'),
        (SIXTEENTH, -0.5, '-1/64-"'),
        (SIXTEENTH, 0.79, '1/32"'),
        (SIXTEENTH, 25.4 / 32, '1/32"'),
        (THIRTY_SECOND, 0.3, '1/64"'),
        (SIXTY_FOURTH, 0.12, '1/128-"'),
        (SIXTY_FOURTH, -0.19, '-1/128"'),
        (HALF_MM, 238.1, "238.0 mm"),
        (HALF_MM, 238.25, "238.5 mm"),
        (HALF_MM, -0.2, "0.0 mm"),
        (TENTH_MM, 238.14, "238.1 mm"),
        (CM, 238.1, "23.80 cm"),
        (CM, -5.0, "-0.50 cm"),
    ],
)
def test_printed_lengths(style: Style, mm: float, text: str) -> None:
    assert style.length(mm) == text
    assert text.startswith(style.bare(mm))


def test_feet_only_when_asked_for() -> None:
    assert SIXTEENTH.length(1612.9) == '63 1/2"'
    assert SIXTEENTH.length(1612.9, feet=True) == "5' 3 1/2\""
    assert SIXTEENTH.length(11 * INCH, feet=True) == '11"'
    assert SIXTEENTH.length(72 * INCH, feet=True) == "6' 0\""
    assert SIXTEENTH.length(71.99 * INCH, feet=True) == "6' 0\""


def test_the_mark_starts_beyond_a_quarter_step() -> None:
    quarter = INCH / 64
    assert SIXTEENTH.length(INCH + quarter * 0.999) == '1"'
    assert SIXTEENTH.length(INCH + quarter * 1.001) == '1+"'


def test_rounded_once() -> None:
    # 0.4375 step above: rounding first to 1/64 and then to 1/16 would go up to the next sixteenth
    mm = INCH * (1 + Fraction(7, 16) / 16)
    assert SIXTEENTH.round_length(float(mm)) == INCH
    assert HALF_MM.round_length(238.2499) == 238.0
    assert HALF_MM.step_mm == 0.5
    assert SIXTEENTH.step_mm == 25.4 / 16


@pytest.mark.parametrize("mm", [math.nan, math.inf, -math.inf])
def test_what_is_not_a_number_is_not_printed(mm: float) -> None:
    with pytest.raises(LengthError):
        SIXTEENTH.length(mm)


def test_styles_that_cannot_be() -> None:
    with pytest.raises(LengthError):
        Style("inch", Fraction(0))
    with pytest.raises(LengthError):
        Style("furlong", Fraction(1, 2))  # type: ignore[arg-type]


def test_other_quantities_printed() -> None:
    assert SIXTEENTH.weight(12.4 * POUND) == "12.4 lb"
    assert HALF_MM.weight(5.6249) == "5.62 kg"
    assert SIXTEENTH.weight(999.96 * POUND) == "1000 lb"
    assert SIXTEENTH.force(60 * POUND_FORCE) == "60.0 lb"
    assert HALF_MM.force(102.6) == "103 N"
    assert HALF_MM.force(0.0) == "0 N"
    assert SIXTEENTH.area(144 * INCH**2) == "1.00 ft²"
    assert SIXTEENTH.area(88 * INCH**2) == "88.0 in²"
    assert HALF_MM.area(1.2e6) == "1.20 m²"
    assert HALF_MM.area(4.5e4) == "450 cm²"
    assert HALF_MM.stress(147.2) == "147 MPa"
    assert SIXTEENTH.stress(6.894757 * 10) == "10000 psi"
    assert HALF_MM.angle(math.radians(91.54)) == "91.5°"
    assert HALF_MM.angle(-1e-9) == "0.0°"


@pytest.mark.parametrize(
    ("text", "degrees"),
    [("10 deg", 10.0), ("10°", 10.0), ("10° 30'", 10.5), ("10", 10.0), ("-3.5", -3.5), ("22 1/2 degrees", 22.5)],
)
def test_angles(text: str, degrees: float) -> None:
    assert parse_angle(text) == pytest.approx(math.radians(degrees), abs=1e-15)


def test_angles_in_radians_and_wrong_ones() -> None:
    assert parse_angle("0.2 rad") == pytest.approx(0.2, abs=1e-15)
    with pytest.raises(AngleError, match="not an angle"):
        parse_angle("steep")


def test_masses() -> None:
    assert parse_mass("12 lb 4 oz") == pytest.approx(12.25 * POUND, abs=1e-12)
    assert parse_mass("5.5 kg") == 5.5
    assert parse_mass("250 g") == 0.25
    assert parse_mass("3", unit="lb") == pytest.approx(3 * POUND)
    with pytest.raises(MassError, match="12 lb 4 oz"):
        parse_mass("3 stone")


def test_loads() -> None:
    assert parse_load("60 lb") == pytest.approx(60 * POUND_FORCE)
    assert parse_load("60 lbf") == pytest.approx(266.893, abs=1e-3)
    assert parse_load("25 kg") == pytest.approx(245.16625, abs=1e-9)
    assert parse_load("250 N") == 250.0
    assert parse_load("0.25 kN") == 250.0
    assert parse_load("10", unit="lb") == pytest.approx(10 * POUND_FORCE)
    with pytest.raises(LoadError, match="25 kg"):
        parse_load("heavy")


def test_a_formula_puts_lengths_in_decimally() -> None:
    inch, metric = Style.inch(), Style.metric()
    assert inch.figure(14.3, 1) == '0.563"'
    assert inch.figure(1000, 0) == '39.4"'
    assert metric.figure(14.32, 1) == "14.3 mm"
    assert metric.figure(14.32, 0) == "14 mm"


def test_moments_and_line_loads_follow_the_job() -> None:
    # 1 lbf in = 112.985 N mm; 1 lbf/in = 0.175127 N/mm: NIST SP 811 (2008), Appendix B.8
    assert Style.inch().moment(112.985 * 100) == "100 lb in"
    assert Style.metric().moment(12_340) == "12.3 N m"
    assert Style.inch().line_load(0.175127 * 2.5) == "2.50 lb/in"
    assert Style.metric().line_load(0.45) == "0.450 N/mm"


@pytest.mark.parametrize(
    ("text", "inches"), [('9-⅜"', 9.375), ('9–⅜"', 9.375), ("5'-⅜\"", 60.375), ("5'-3-1/2\"", 63.5)]
)
def test_a_hyphen_without_spaces_ties_a_number_together(text: str, inches: float) -> None:
    assert parse_length(text, "inch") == pytest.approx(inches * 25.4)


@pytest.mark.parametrize("text", ["12 - 1/2", "9 –3/8", "12 - ⅜", "12 -⅜", "5' - 3", "5' -3"])
def test_a_hyphen_with_spaces_is_a_minus_in_a_job_file_and_is_not_read_over_elsewhere(text: str) -> None:
    with pytest.raises(LengthError):
        parse_length(text, "inch")
