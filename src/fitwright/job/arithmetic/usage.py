"""Which names of a formula are lengths when its result is one, so that a bare `width: 31 1/2` is known for a length."""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import product

from fitwright.job.arithmetic.formula import Call, Formula, Minus, Name, Operation


@dataclass
class Usage:
    """surely: names that stand for lengths; likely: lengths unless used as a plain number elsewhere.

    numbers: names that stand for plain numbers; areas: products of two names where a length is wanted.
    """

    surely: set[str] = field(default_factory=set)
    likely: set[str] = field(default_factory=set)
    numbers: set[str] = field(default_factory=set)
    areas: set[tuple[str, str]] = field(default_factory=set)


def note_length(formula: Formula, usage: Usage, sure: bool = True) -> None:
    """Note what the names of a formula are, given that its result is used as a length."""
    match formula:
        case Name(_, name):
            (usage.surely if sure else usage.likely).add(name)
        case Minus(_, of):
            note_length(of, usage, sure)
        case Operation(_, "*", left, right):
            _note_product(left, right, usage)
        case Operation(_, "/", Operation(_, "*", one, other), right) if _additive(right):
            _note_share(one, other, usage)
        case Operation(_, "/", left, right):
            note_length(left, usage, sure)
            _note_numbers(right, usage)
        case Operation(_, _, left, right):
            note_length(left, usage, sure)
            note_length(right, usage, sure)
        case Call(_, function, values) if function not in ("sqrt", "sin", "cos", "tan"):
            for value in values:
                note_length(value, usage, sure)


def note_number(formula: Formula, usage: Usage) -> None:
    """Note that a formula's result is used as a plain number."""
    if isinstance(formula, Name):
        usage.numbers.add(formula.name)


def _note_product(left: Formula, right: Formula, usage: Usage) -> None:
    _note_share(left, right, usage)
    usage.areas |= {(one, other) for one, other in product(_additive(left), _additive(right))}


def _note_share(one: Formula, other: Formula, usage: Usage) -> None:
    """Of `rise * run / height`, as of similar triangles: an area over a length is a length."""
    for side in (one, other):
        note_length(side, usage, sure=False)


def _note_numbers(formula: Formula, usage: Usage) -> None:
    for name in _additive(formula):
        usage.numbers.add(name)


def _additive(formula: Formula) -> set[str]:
    """Names whose kind the whole formula has: those reached through + and - alone."""
    match formula:
        case Name(_, name):
            return {name}
        case Minus(_, of):
            return _additive(of)
        case Operation(_, "+" | "-", left, right):
            return _additive(left) | _additive(right)
    return set()
