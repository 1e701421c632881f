"""Arithmetic cut into words: numbers with their units, names, signs and brackets.

One number may be written `31 1/2`, `3/8`, `9⅜`, `0.5`, `9-3/8` (a whole number, a hyphen and a proper fraction with no
spaces), with a unit after it, and feet with inches: `5' 3 1/2"`, `5 ft 3 in`, `5'-3"`. With spaces around it, or
before anything else than a proper fraction, the hyphen is a minus.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from fitwright.job.arithmetic.fault import ArithmeticFault
from fitwright.job.mistakes import excerpt, nearest
from fitwright.units import INCH, plain_signs

MAX_CHARACTERS = 200
MAX_DIGITS = 15

UNITS = {
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), 1.0),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), 10.0),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), 1000.0),
    **dict.fromkeys(("in", "inch", "inches", '"'), INCH),
    **dict.fromkeys(("ft", "foot", "feet", "'"), 12 * INCH),
}
DEGREES = ("deg", "degree", "degrees", "°")
FOOT = 12 * INCH

MIXED = re.compile(r"(?P<whole>\d+)(?P<gap> +|-)(?P<top>\d+)/(?P<below>\d+)(?![\d.])")
FRACTION = re.compile(r"(?P<top>\d+)/(?P<below>\d+)(?![\d.])")
DECIMAL = re.compile(r"\d+\.\d+|\d+\.?|\.\d+")
UNIT = re.compile(r" *(?:(?P<sign>[\"'°])|(?P<word>[A-Za-z]+)(?![A-Za-z0-9_])\.?)")
INCHES_FOLLOW = re.compile(r" *(?=[\d.])|-(?=[\d.])")
NAME = re.compile(r"[A-Za-z_][A-Za-z0-9_]*(?:\.[A-Za-z_][A-Za-z0-9_]*)?")
SIGNS = {"+": "+", "-": "-", "*": "*", "/": "/", "(": "(", ")": ")", ",": ",", "×": "*", "÷": "/", "·": "*"}


@dataclass(frozen=True)
class Token:
    """kind: "number", "name", a sign, or "end". at: the character where it begins.

    value: of a number, in mm when power is 1. simple_fraction: written top/below without a whole number.
    """

    kind: str
    at: int
    text: str
    value: float = 0.0
    power: int = 0
    degrees: bool = False
    simple_fraction: bool = False


def tokens(text: str) -> list[Token]:
    """The words of one piece of arithmetic, "end" last; raises ArithmeticFault, at characters of the original text."""
    if len(text) > MAX_CHARACTERS:
        raise ArithmeticFault(0, f"{len(text):,} characters of arithmetic: at most {MAX_CHARACTERS} are read")
    plain = plain_signs(text)
    try:
        found = _cut(plain)
    except ArithmeticFault as fault:
        fault.at = _original(text, fault.at)
        raise
    if len(plain) == len(text):
        return found
    return [_moved(token, _original(text, token.at)) for token in found]


def _cut(plain: str) -> list[Token]:
    found: list[Token] = []
    at = 0
    while at < len(plain):
        if plain[at].isspace():
            at += 1
            continue
        token, at = _next(plain, at)
        found.append(token)
    return [*found, Token("end", len(plain), "")]


def _next(plain: str, at: int) -> tuple[Token, int]:
    if DECIMAL.match(plain, at):
        return _length(plain, at)
    name = NAME.match(plain, at)
    if name:
        return Token("name", at, name[0]), name.end()
    if plain[at] in SIGNS:
        return Token(SIGNS[plain[at]], at, plain[at]), at + 1
    raise ArithmeticFault(at, f"{excerpt(plain[at])} does not belong in arithmetic: use numbers, dims, + - * / and ( )")


def _length(plain: str, at: int) -> tuple[Token, int]:
    """A number with its unit; feet take the inches that follow them."""
    token, end = _quantity(plain, at)
    if token.power != 1 or UNITS.get(_unit_at(plain, end), 0) != FOOT:
        return token, end
    follow = INCHES_FOLLOW.match(plain, end)
    if not follow:
        return token, end
    inches, inches_end = _quantity(plain, follow.end())
    value = inches.value if inches.power else inches.value * INCH
    if inches.degrees or value >= FOOT or (inches.power and UNITS[_unit_at(plain, inches_end)] != INCH):
        raise ArithmeticFault(inches.at, "what follows feet has to be inches, fewer than 12")
    return Token("number", at, plain[at:inches_end], token.value + value, 1), inches_end


def _unit_at(plain: str, end: int) -> str:
    """The unit that ends at a character: the last sign or word before it."""
    found = re.search(r"([\"']|[A-Za-z]+)\.?$", plain[:end])
    return found[1].lower() if found else ""


def _quantity(plain: str, at: int) -> tuple[Token, int]:
    value, end, simple = _number(plain, at)
    unit = UNIT.match(plain, end)
    word = (unit["sign"] or unit["word"]).lower() if unit else ""
    if word in UNITS:
        assert unit is not None
        return Token("number", at, plain[at : unit.end()], value * UNITS[word], 1), unit.end()
    if word in DEGREES:
        assert unit is not None
        return Token("number", at, plain[at : unit.end()], value, 0, True), unit.end()
    if end < len(plain) and (plain[end].isalpha() or plain[end] == "_"):
        raise _stuck(plain, at, end)
    return Token("number", at, plain[at:end], value, 0, False, simple), end


def _stuck(plain: str, at: int, end: int) -> ArithmeticFault:
    """Letters on the heels of a number that are no unit: a wrong unit, a missing * or a number with an exponent."""
    letters = NAME.match(plain, end)
    word = letters[0] if letters else plain[end]
    what = f"{excerpt(plain[at:end] + word)} is neither a number nor a length: write numbers out, and * between factors"
    return ArithmeticFault(at, what, ("in", "ft", "mm", "cm", "m"), nearest(word, UNITS))


def _number(plain: str, at: int) -> tuple[float, int, bool]:
    """The number at a character, where it ends, and whether it is a fraction on its own."""
    mixed = MIXED.match(plain, at)
    if mixed and (mixed["gap"] != "-" or int(mixed["top"][:MAX_DIGITS]) < int(mixed["below"][:MAX_DIGITS])):
        part = _ratio(mixed, at)
        if part >= 1:
            raise ArithmeticFault(at, f"{excerpt(mixed[0])}: the fraction after a whole number has to be less than one")
        return float(_whole(mixed["whole"], at) + part), mixed.end(), False
    fraction = FRACTION.match(plain, at)
    if fraction:
        return float(_ratio(fraction, at)), fraction.end(), True
    decimal = DECIMAL.match(plain, at)
    assert decimal is not None
    _check_digits(decimal[0], at)
    return float(decimal[0]), decimal.end(), False


def _ratio(found: re.Match[str], at: int) -> Fraction:
    below = _whole(found["below"], at)
    if below == 0:
        raise ArithmeticFault(at, f"{excerpt(found[0])} divides by zero")
    return Fraction(_whole(found["top"], at), below)


def _whole(digits: str, at: int) -> int:
    _check_digits(digits, at)
    return int(digits)


def _check_digits(digits: str, at: int) -> None:
    if len(digits) > MAX_DIGITS:
        raise ArithmeticFault(at, f"a number of {len(digits)} digits: at most {MAX_DIGITS} are read")


def _original(text: str, at: int) -> int:
    """The character of the original text that stands at `at` once fractions and primes are written plainly."""
    return next((k for k in range(len(text)) if len(plain_signs("|" + text[: k + 1] + "|")) - 2 > at), len(text))


def _moved(token: Token, at: int) -> Token:
    return Token(token.kind, at, token.text, token.value, token.power, token.degrees, token.simple_fraction)
