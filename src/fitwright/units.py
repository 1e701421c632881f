"""Lengths, angles, masses and loads as a shop writes them, both ways; inside the program mm, rad, kg and N."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from difflib import get_close_matches
from fractions import Fraction
from typing import Literal

from fitwright.errors import FitwrightError

INCH = 25.4  # mm, exact since the international yard and pound agreement of 1959 (NIST SP 811, B.6)
FOOT = 12 * INCH
POUND = 0.45359237  # kg, exact (same source)
GRAVITY = 9.80665  # m/s2, standard gravity, exact (ISO 80000-3)
POUND_FORCE = POUND * GRAVITY  # N
PSI = POUND_FORCE / INCH**2  # MPa

FINER = (Fraction(1, 64), Fraction(1, 128))
"""The finest fraction on a rule, and half of it: for what would print as nothing [in]."""
HAIR = Fraction(1, 10**9)

Unit = Literal["inch", "mm", "cm"]

LONGEST_TEXT = 400
LENGTHS = """9 3/8 in, 9-3/8", 9⅜″, 5' 3 1/2", 5 ft 3 in, 1.5 in, 238.1 mm, 23.8 cm or 1.2 m"""
ANGLES = "10 deg, 10.5°, 10° 30', 0.2 rad or a bare number of degrees"
MASSES = "12 lb, 12 lb 4 oz, 6 oz, 5.5 kg or 250 g"
LOADS = "60 lb, 60 lbf, 25 kg (its weight), 250 N or 0.25 kN"


class UnitError(FitwrightError, ValueError):
    """A quantity that cannot be read or printed; the message lists the spellings that work."""


class LengthError(UnitError):
    """A length that cannot be read or printed."""


class AngleError(UnitError):
    """An angle that cannot be read."""


class MassError(UnitError):
    """A mass that cannot be read."""


class LoadError(UnitError):
    """A load that cannot be read."""


_MM = Fraction(1)
_IN = Fraction(254, 10)
_KG = Fraction(1)
_LB = Fraction(45359237, 100000000)
_N = Fraction(1)
_KGF = Fraction(980665, 100000)

_LENGTH_UNITS = {
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), _MM),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), _MM * 10),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), _MM * 1000),
    **dict.fromkeys(("in", "in.", "inch", "inches", '"'), _IN),
    **dict.fromkeys(("ft", "ft.", "foot", "feet", "'"), _IN * 12),
}
_ANGLE_UNITS = {
    **dict.fromkeys(("deg", "deg.", "degree", "degrees", "°"), 1.0),
    **dict.fromkeys(("min", "minutes", "'"), 1 / 60),
    **dict.fromkeys(("sec", "seconds", '"'), 1 / 3600),
    **dict.fromkeys(("rad", "radian", "radians"), 180 / math.pi),
}
_MASS_UNITS = {
    **dict.fromkeys(("kg", "kilogram", "kilograms"), _KG),
    **dict.fromkeys(("g", "gram", "grams"), _KG / 1000),
    **dict.fromkeys(("t", "tonne", "tonnes"), _KG * 1000),
    **dict.fromkeys(("lb", "lb.", "lbs", "lbs.", "pound", "pounds", "#"), _LB),
    **dict.fromkeys(("oz", "oz.", "ounce", "ounces"), _LB / 16),
}
_LOAD_UNITS = {
    **dict.fromkeys(("n", "newton", "newtons"), _N),
    **dict.fromkeys(("kn", "kilonewton", "kilonewtons"), _N * 1000),
    **dict.fromkeys(("lbf", "lb-f"), _LB * _KGF),
    **dict.fromkeys(("kgf", "kp"), _KGF),
    **{word: mass * _KGF for word, mass in _MASS_UNITS.items()},
}

_PLAIN = str.maketrans(
    {
        **dict.fromkeys("\u2033\u201c\u201d\u201e\u201f", '"'),  # double prime, double quotes
        **dict.fromkeys("\u2032\u2018\u2019\u201b\u00b4`", "'"),  # prime, single quotes, accents
        **dict.fromkeys("\u2212\u2010\u2011\u2012\u2013\u2014", "-"),  # minus, hyphens, dashes
        **dict.fromkeys("\u00a0\u2007\u2009\u202f\t\r\n", " "),  # spaces that do not break
        "\u2044": "/",
        "\u00ba": "°",  # the ordinal sign, typed for a degree
    }
)
_VULGAR = {
    **{"½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5"},
    **{"⅙": "1/6", "⅚": "5/6", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅑": "1/9", "⅒": "1/10"},
}

_NUMBER = r"(?:\d+(?:\s+|-)\d+\s*/\s*\d+|\d+\s*/\s*\d+|(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d{1,4})?)"
_TERM = re.compile(
    rf"\s*(?P<number>{_NUMBER})(?P<mark>\s?[+-](?=\s*(?:$|[\"'a-z])))?\s*(?P<unit>[a-z°#][a-z.]*(?:-[a-z]+)?|''|['\"°])?",
    re.I,
)


@dataclass(frozen=True)
class Style:
    """How a job prints: its unit and the step to which a length is rounded.

    step: of an inch (1/16, 1/32, 1/64) in inch jobs, of a millimetre (1/2, 1/10) in mm and cm jobs.
    """

    unit: Unit
    step: Fraction

    @staticmethod
    def inch(step: Fraction = Fraction(1, 16)) -> Style:
        """Inches, to 1/16 unless the shop wants 1/32 or 1/64."""
        return Style("inch", step)

    @staticmethod
    def metric(step: Fraction = Fraction(1, 2)) -> Style:
        """Millimetres, to 0.5 unless the shop wants 0.1."""
        return Style("mm", step)

    def __post_init__(self) -> None:
        if self.unit not in ("inch", "mm", "cm"):
            raise LengthError(f"unit {self.unit!r} is not known: use inch, mm or cm")
        if not 0 < self.step <= 1:
            raise LengthError(f"a printed step of {self.step} is not usable: use 1/16, 1/32 or 1/64 in, 0.5 or 0.1 mm")

    def fine(self) -> Style:
        """The style for what is smaller than the printed step, or comes so often that steps would add up."""
        return Style.inch(Fraction(1, 64)) if self.unit == "inch" else Style(self.unit, Fraction(1, 10))

    def within(self, mm: float) -> str:
        """How far off a number may be [mm], rounded down to what is read off a tape, and never to nothing.

        >>> Style.inch().within(3.0), Style.metric().within(3.0), Style.inch().within(0.5)
        ('3/32"', '3.0 mm', '1/32"')
        """
        tape = Style.inch(Fraction(1, 32)) if self.unit == "inch" else self
        return tape.length(max(math.floor(mm / tape.step_mm + 1e-9), 1) * tape.step_mm)

    @property
    def step_mm(self) -> float:
        """The printed step [mm]."""
        return float(self.step * self._scale)

    def length(self, mm: float, feet: bool = False) -> str:
        """A length [mm] with its unit: `9 3/8"`, `9 3/8+"`, `5' 3 1/2"` by feet=True, `238.0 mm`, `23.80 cm`.

        A `+` or `-` says that the true value is more than a quarter step above or below the printed one. What would
        print as nothing with a mark prints finer instead: nobody sets a stop to `0+`.

        >>> Style.inch().length(0.5), Style.inch(Fraction(1, 64)).length(0.12)
        ('1/64+"', '1/128-"')
        """
        if self.unit != "inch":
            return f"{self.bare(mm)} {self.unit}"
        return f'{self.bare(mm, feet)}"'

    def bare(self, mm: float, feet: bool = False) -> str:
        """The same without the unit, for table cells and dimension lines."""
        exact = _exact(mm) / self._scale
        if self.unit != "inch":
            return _decimal(_nearest(exact / self.step) * self.step, 10 if self.unit == "cm" else 1, self.step)
        step = self._finer(exact)
        rounded = _nearest(exact / step) * step
        return _inches(rounded, feet) + _mark(exact - rounded, step)

    def round_length(self, mm: float) -> float:
        """The value in mm of what `length` prints, rounded once."""
        exact = _exact(mm) / self._scale
        step = self._finer(exact)
        return float(_nearest(exact / step) * step * self._scale)

    def _finer(self, exact: Fraction) -> Fraction:
        """The step for a length in inches: the printed one, and a finer one where that would leave `0+` or `0-`."""
        if self.unit != "inch":
            return self.step
        steps = (self.step, *(step for step in FINER if step < self.step))
        # what was rounded once comes back as a float of millimetres, a hair off its fraction
        return next((one for one in steps if not one * (1 - HAIR) <= abs(exact) * 4 <= 2 * one * (1 + HAIR)), steps[-1])

    def weight(self, kg: float) -> str:
        """A mass [kg] as the scale reads: `12.4 lb` or `5.62 kg`."""
        return f"{_figures(kg / POUND)} lb" if self.unit == "inch" else f"{_figures(kg)} kg"

    def force(self, newtons: float) -> str:
        """A force [N]: `23.1 lb` or `103 N`."""
        return f"{_figures(newtons / POUND_FORCE)} lb" if self.unit == "inch" else f"{_figures(newtons)} N"

    def area(self, mm2: float) -> str:
        """An area [mm2]: `88.0 in²` or `6.55 ft²`; `450 cm²` or `1.20 m²`."""
        if self.unit == "inch":
            square_feet = mm2 / FOOT**2
            return f"{_figures(square_feet)} ft²" if square_feet >= 1 else f"{_figures(mm2 / INCH**2)} in²"
        return f"{_figures(mm2 / 1e6)} m²" if mm2 >= 1e5 else f"{_figures(mm2 / 100)} cm²"

    def stress(self, mpa: float) -> str:
        """A stress [MPa]: `21300 psi` or `147 MPa`."""
        return f"{_figures(mpa / PSI)} psi" if self.unit == "inch" else f"{_figures(mpa)} MPa"

    def figure(self, mm: float, places: int = 1) -> str:
        """A length [mm] as a formula puts it in, decimal and not rounded to the printed step: `14.3 mm`, `0.563"`.

        places: after the point, in millimetres; an inch job has two more (one where millimetres have none).
        """
        if self.unit == "inch":
            return f'{mm / INCH:.{places + 2 if places else 1}f}"'
        return f"{mm:.{places}f} mm"

    def moment(self, newton_mm: float) -> str:
        """A moment [N mm]: `109 lb in` or `12.3 N m`."""
        if self.unit == "inch":
            return f"{_figures(newton_mm / (POUND_FORCE * INCH))} lb in"
        return f"{_figures(newton_mm / 1000)} N m"

    def line_load(self, newton_per_mm: float) -> str:
        """A load along a line, or a stiffness [N/mm]: `2.57 lb/in` or `0.450 N/mm`."""
        if self.unit == "inch":
            return f"{_figures(newton_per_mm * INCH / POUND_FORCE)} lb/in"
        return f"{_figures(newton_per_mm)} N/mm"

    def angle(self, rad: float) -> str:
        """An angle [rad] to a tenth of a degree: `91.5°`."""
        tenths = f"{math.degrees(rad):.1f}"
        return f"{'0.0' if tenths == '-0.0' else tenths}°"

    @property
    def _scale(self) -> Fraction:
        return _IN if self.unit == "inch" else _MM


def parse_length(text: str | float, unit: str = "mm") -> float:
    """A length as a maker writes it, in mm; a bare number takes `unit` (inch, mm or cm).

    Raises LengthError, listing the spellings that work.

    >>> parse_length("9 3/8 in")
    238.125
    >>> parse_length("5' 3 1/2\\"")
    1612.9
    """
    return float(_read(text, unit, _LENGTH_UNITS, LengthError, "length", LENGTHS))


def parse_angle(text: str | float) -> float:
    """An angle in rad; a bare number is degrees.

    Raises AngleError, listing the spellings that work.

    >>> round(parse_angle("10° 30'"), 6)
    0.18326
    """
    degrees = {word: Fraction(size) for word, size in _ANGLE_UNITS.items()}
    return math.radians(float(_read(text, "deg", degrees, AngleError, "angle", ANGLES)))


def parse_mass(text: str | float, unit: str = "kg") -> float:
    """A mass in kg; a bare number takes `unit` (kg or lb).

    Raises MassError, listing the spellings that work.

    >>> round(parse_mass("12 lb 4 oz"), 4)
    5.5565
    """
    return float(_read(text, unit, _MASS_UNITS, MassError, "mass", MASSES))


def parse_load(text: str | float, unit: str = "N") -> float:
    """A load in N; a mass stands for its weight; a bare number takes `unit` (N, lb or kg).

    Raises LoadError, listing the spellings that work.

    >>> round(parse_load("60 lb"), 2)
    266.89
    """
    return float(_read(text, unit, _LOAD_UNITS, LoadError, "load", LOADS))


def _exact(mm: float) -> Fraction:
    if not math.isfinite(mm):
        raise LengthError(f"{mm} is not a length that can be printed: it has to be a finite number of mm")
    return Fraction(mm)


def _nearest(ratio: Fraction) -> int:
    """Nearest whole number, halves away from zero, as a maker rounds."""
    size = math.floor(abs(ratio) + Fraction(1, 2))
    return size if ratio >= 0 else -size


def _mark(rest: Fraction, step: Fraction) -> str:
    if abs(rest) * 4 <= step:
        return ""
    return "+" if rest > 0 else "-"


def _inches(value: Fraction, feet: bool) -> str:
    sign = "-" if value < 0 else ""
    inches = abs(value)
    if feet and inches >= 12:
        return f"{sign}{inches // 12}' {_mixed(inches % 12)}"
    return sign + _mixed(inches)


def _mixed(value: Fraction) -> str:
    whole, part = divmod(value, 1)
    if not part:
        return str(whole)
    return f"{whole} {part}" if whole else str(part)


def _decimal(value: Fraction, divide: int, step: Fraction) -> str:
    """Decimals enough to show the step exactly: 0.5 and 0.1 mm need one, in cm two."""
    places = next(k for k in range(10) if (step / divide * 10**k).denominator == 1 or k == 9)
    scaled = abs(value) / divide * 10**places
    digits = str(int(scaled)).zfill(places + 1)
    text = f"{digits[:-places]}.{digits[-places:]}" if places else digits
    return f"-{text}" if value < 0 else text


def _figures(value: float) -> str:
    """Three figures, or all the whole ones; rounded once."""
    if value == 0 or not math.isfinite(value):
        return f"{value:.0f}" if value else "0"
    places = max(0, min(3, 2 - math.floor(math.log10(abs(value) * (1 + 1e-12)))))
    text = f"{value:.{places}f}"
    return text.lstrip("-") if float(text) == 0 else text


def _read(
    text: str | float,
    unit: str,
    units: dict[str, Fraction],
    error: type[UnitError],
    what: str,
    accepted: str,
) -> Fraction:
    """The sum of the terms in `text`, in the base unit of `units`."""
    if isinstance(text, bool) or not isinstance(text, str | int | float):
        raise error(f"{text!r} is not {_a(what)}: write {accepted}")
    plain = plain_signs(str(text))
    if len(plain) > LONGEST_TEXT:
        raise error(f"{plain[:30]!r}… has {len(plain)} characters, {_a(what)} at most {LONGEST_TEXT}: write {accepted}")
    try:
        total = _sum(plain, unit, units)
        float(total)
    except (ValueError, ZeroDivisionError, OverflowError) as wrong:
        raise error(f"{str(text)!r} is not {_a(what)}{_reason(wrong)}: write {accepted}") from None
    return total


def plain_signs(text: str) -> str:
    """The text with fractions, primes, dashes and spaces as a plain keyboard types them."""
    text = text.translate(_PLAIN)
    for sign, fraction in _VULGAR.items():
        text = text.replace(f"-{sign}", f"-{fraction}").replace(sign, f" {fraction}")
    return text.replace("''", '"').strip()


def _a(what: str) -> str:
    return f"an {what}" if what[0] in "aeiou" else f"a {what}"


def _reason(wrong: Exception) -> str:
    if isinstance(wrong, ZeroDivisionError):
        return " (it divides by zero)"
    if isinstance(wrong, OverflowError):
        return " (it is too large)"
    return f" ({wrong})" if str(wrong) else ""


def _sum(plain: str, unit: str, units: dict[str, Fraction]) -> Fraction:
    """Terms of falling unit, the sign in front for all of them; a mark + or - after a number is read over."""
    body = plain.lstrip("+-").strip()
    signs = plain[: len(plain) - len(plain.lstrip("+-"))]
    if len(signs) > 1 or not body:
        raise ValueError("nothing to read" if not body else "two signs in front")
    total, at, before = Fraction(0), 0, None
    while at < len(body):
        match = _TERM.match(body, at)
        if not match:
            raise ValueError(_unread(body[at:]))
        word = match["unit"] or (unit if before is None else _smaller(before, units))
        size = _size(word, units)
        if before is not None and size >= before:
            raise ValueError("the units must go from large to small")
        total += _number(match["number"]) * size
        at, before = _skip(body, match.end()), size
    return -total if signs == "-" else total


def _skip(body: str, at: int) -> int:
    """Past a trailing mark (`9 3/8"+`) or the dash of `5'-3"`, and spaces."""
    rest = re.match(r"(?:-(?=[\d.])|\s*[+-](?=\s*$))?\s*", body[at:])
    return at + (rest.end() if rest else 0)


def _smaller(before: Fraction, units: dict[str, Fraction]) -> str:
    """What a bare number after feet or degrees is: inches or minutes."""
    follows = {_IN * 12: "in", Fraction(1): "min"}
    word = follows.get(before, "")
    if word not in units:
        raise ValueError("a second number without its unit")
    return word


def _size(word: str, units: dict[str, Fraction]) -> Fraction:
    name = word.lower()
    if name in units:
        return units[name]
    near = get_close_matches(name, units, 1)
    raise ValueError(f"unit {name!r} is not known" + (f", did you mean {near[0]!r}?" if near else ""))


def _number(text: str) -> Fraction:
    if "/" not in text:
        return Fraction(text)
    head, _, below = text.rpartition("/")
    *whole, above = re.split(r"[\s-]+", head.strip())
    part = Fraction(int(above), int(below))
    if whole and part >= 1:
        raise ValueError(f"{above}/{below.strip()} after a whole number is one or more")
    return part + int(whole[0] if whole else 0)


def _unread(rest: str) -> str:
    if re.match(r"\s*,\s*\d", rest):
        return "a comma: write the decimal point as a point"
    return f"cannot read {rest[:20]!r}"
