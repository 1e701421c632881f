"""The words of arithmetic made into a formula: a tree of numbers, names, operations and functions."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from fitwright.job.arithmetic.fault import ArithmeticFault
from fitwright.job.arithmetic.tokens import Token, tokens
from fitwright.job.mistakes import excerpt, nearest

MAX_DEPTH = 40

FUNCTIONS = {
    "min": (1, 20),
    "max": (1, 20),
    "sqrt": (1, 1),
    "sin": (1, 1),
    "cos": (1, 1),
    "tan": (1, 1),
    "floor": (1, 2),
    "ceil": (1, 2),
    "round": (1, 2),
}
"""Functions and the fewest and most values that each takes."""


@dataclass(frozen=True)
class Number:
    """A number, in mm when power is 1."""

    at: int
    value: float
    power: int = 0
    degrees: bool = False


@dataclass(frozen=True)
class Name:
    """A dim, or a dimension of a stock such as frame.od."""

    at: int
    name: str


@dataclass(frozen=True)
class Minus:
    """The negative of a formula."""

    at: int
    of: Formula


@dataclass(frozen=True)
class Operation:
    """left sign right; at: where the sign stands."""

    at: int
    sign: str
    left: Formula
    right: Formula


@dataclass(frozen=True)
class Call:
    """A function of some values."""

    at: int
    function: str
    values: tuple[Formula, ...]


Formula = Number | Name | Minus | Operation | Call


def parse(text: str) -> Formula:
    """The formula of a piece of arithmetic; raises ArithmeticFault with the character where it goes wrong."""
    return _Reader(tokens(text)).whole()


@lru_cache(maxsize=8192)
def read(text: str) -> Formula | ArithmeticFault:
    """The same with the fault given back rather than raised, and kept, since a file repeats much of its arithmetic."""
    try:
        return parse(text)
    except ArithmeticFault as fault:
        return fault


def names_in(formula: Formula) -> Iterator[Name]:
    """Every name in a formula, from left to right."""
    match formula:
        case Name():
            yield formula
        case Minus(_, of):
            yield from names_in(of)
        case Operation(_, _, left, right):
            yield from names_in(left)
            yield from names_in(right)
        case Call(_, _, values):
            for value in values:
                yield from names_in(value)


class _Reader:
    """Recursive descent: sum of products of signed values; the depth is counted and bounded."""

    def __init__(self, found: list[Token]) -> None:
        self._tokens = found
        self._next = 0
        self._depth = 0

    def whole(self) -> Formula:
        formula = self._sum()
        self._expect_end()
        return formula

    def _peek(self) -> Token:
        return self._tokens[self._next]

    def _take(self) -> Token:
        token = self._tokens[self._next]
        self._next += token.kind != "end"
        return token

    def _expect_end(self) -> None:
        token = self._peek()
        if token.kind == "end":
            return
        if token.kind == ")":
            raise ArithmeticFault(token.at, "a ) without its (")
        if token.kind == ",":
            raise ArithmeticFault(
                token.at, "a comma belongs only between the values of a function; decimals take a point"
            )
        raise self._side_by_side(token)

    def _side_by_side(self, token: Token) -> ArithmeticFault:
        before = self._tokens[self._next - 1]
        what = f"{excerpt(before.text)} and {excerpt(token.text)} stand side by side: put + - * or / between them"
        return ArithmeticFault(token.at, what)

    def _sum(self) -> Formula:
        left = self._product()
        while self._peek().kind in ("+", "-"):
            sign = self._take()
            left = Operation(sign.at, sign.kind, left, self._product())
        return left

    def _product(self) -> Formula:
        left = self._signed()
        while self._peek().kind in ("*", "/"):
            sign = self._take()
            self._check_divisor(sign)
            left = Operation(sign.at, sign.kind, left, self._signed())
        return left

    def _check_divisor(self, sign: Token) -> None:
        token = self._peek()
        if sign.kind == "/" and token.simple_fraction:
            what = (
                f"/ {token.text} can be read two ways: write / ({token.text}), or put brackets around what comes before"
            )
            raise ArithmeticFault(token.at, what)

    def _signed(self) -> Formula:
        token = self._peek()
        if token.kind not in ("-", "+"):
            return self._value()
        self._take()
        with_sign = self._deeper(token, self._signed)
        return Minus(token.at, with_sign) if token.kind == "-" else with_sign

    def _value(self) -> Formula:
        token = self._take()
        if token.kind == "number":
            return Number(token.at, token.value, token.power, token.degrees)
        if token.kind == "name":
            return self._call(token) if self._peek().kind == "(" else Name(token.at, token.text)
        if token.kind == "(":
            inside = self._deeper(token, self._sum)
            self._close(token)
            return inside
        if token.kind == "end":
            raise ArithmeticFault(token.at, "a number or a dim is missing at the end")
        raise ArithmeticFault(token.at, f"a number or a dim is missing before {excerpt(token.text)}")

    def _call(self, name: Token) -> Formula:
        if name.text not in FUNCTIONS:
            what = f"{excerpt(name.text)} is not a function; to multiply, write *"
            raise ArithmeticFault(name.at, what, tuple(FUNCTIONS), nearest(name.text, FUNCTIONS))
        opening = self._take()
        values = [self._deeper(opening, self._sum)]
        while self._peek().kind == ",":
            self._take()
            values.append(self._deeper(opening, self._sum))
        self._close(opening)
        fewest, most = FUNCTIONS[name.text]
        if not fewest <= len(values) <= most:
            wanted = str(fewest) if fewest == most else f"{fewest} to {most}"
            raise ArithmeticFault(name.at, f"{name.text} takes {wanted} values, not {len(values)}")
        return Call(name.at, name.text, tuple(values))

    def _close(self, opening: Token) -> None:
        token = self._peek()
        if token.kind == ")":
            self._take()
            return
        if token.kind == "end":
            what = "a ( without its ); inside { } or [ ] a comma ends the value: put quotes around it"
            raise ArithmeticFault(opening.at, what)
        if token.kind == ",":
            raise ArithmeticFault(
                token.at, "a comma belongs only between the values of a function; decimals take a point"
            )
        raise self._side_by_side(token)

    def _deeper(self, token: Token, read: Callable[[], Formula]) -> Formula:
        self._depth += 1
        if self._depth > MAX_DEPTH:
            raise ArithmeticFault(token.at, f"brackets and signs are nested more than {MAX_DEPTH} deep")
        formula = read()
        self._depth -= 1
        return formula
