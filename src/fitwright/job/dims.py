"""The named dims of a job worked out: any order, cycles told whole, units carried."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fitwright.job.arithmetic import ArithmeticFault, Formula, Quantity, evaluate, names_in, read
from fitwright.job.arithmetic.formula import FUNCTIONS, Name
from fitwright.job.arithmetic.tokens import DEGREES, UNITS
from fitwright.job.arithmetic.usage import Usage, note_length
from fitwright.job.mistakes import TOO_MANY, Mistake, excerpt, nearest
from fitwright.job.model import Dim
from fitwright.job.written import Written
from fitwright.stock import Stock

RESERVED = {*FUNCTIONS, *UNITS, *DEGREES}
"""Words of the arithmetic itself, which no dim may take."""

LONGEST_MM = 100_000.0


class Unsettled(Exception):
    """A name whose own mistake is already told."""


@dataclass(frozen=True)
class Dims:
    """What names stand for: quantities of dims, None for a dim whose own mistake is told, and the job's stock."""

    written: Mapping[str, Written]
    formulas: Mapping[str, Formula]
    values: Mapping[str, Quantity | None]
    stock: Mapping[str, Stock | None]
    unit_mm: float

    def look(self, name: Name) -> Quantity:
        """What a name stands for; raises ArithmeticFault or Unsettled."""
        return _look(name, self.values, self.stock)


def settle(
    written: Mapping[str, Written], stock: Mapping[str, Stock | None], unit_mm: float
) -> tuple[Dims, list[Mistake]]:
    """All dims worked out, and what is wrong with them.

    stock: the job's short names; None for one whose own mistake is told. unit_mm: size of the job's unit [mm].
    """
    formulas: dict[str, Formula] = {}
    mistakes: list[Mistake] = []
    for name, text in written.items():
        found = read(text.text)
        if isinstance(found, ArithmeticFault):
            mistakes.append(mistake_of(found, text))
        else:
            formulas[name] = found
    order, cycles = _order(formulas)
    mistakes += [_cycle_mistake(cycle, written) for cycle in cycles]
    values: dict[str, Quantity | None] = dict.fromkeys(written)
    dims = Dims(written, formulas, values, stock, unit_mm)
    for name in order:
        if len(mistakes) > TOO_MANY:
            break
        values[name] = _value(name, dims, mistakes)
    return dims, mistakes


def mistake_of(fault: ArithmeticFault, written: Written) -> Mistake:
    """A fault as a mistake at its own column; for a value of several lines, at the value."""
    place = written.place
    one_line = place.end - place.start <= len(written.text) + 2
    column = place.column + fault.at + written.quoted if one_line else place.column
    return Mistake(place.line, column, written.where, fault.what, fault.accepted, fault.nearest)


def settled(dims: Dims, usage: Usage) -> dict[str, Dim]:
    """The dims as the other rooms see them; usage: what the job's lengths and counts say the bare ones are."""
    spread(dims, usage)
    return {
        name: _dim(name, text, value, dims, usage)
        for name, text in dims.written.items()
        if (value := dims.values[name]) is not None
    }


def spread(dims: Dims, usage: Usage) -> None:
    """What is a length by its use makes lengths of the dims that it is worked out from."""
    seen: set[tuple[str, bool]] = set()
    while fresh := _noted(usage) - seen:
        seen |= fresh
        for name, sure in sorted(fresh):
            if name in dims.formulas:
                note_length(dims.formulas[name], usage, sure)


def _noted(usage: Usage) -> set[tuple[str, bool]]:
    return {(name, True) for name in usage.surely} | {(name, False) for name in usage.likely}


def _dim(name: str, text: Written, value: Quantity, dims: Dims, usage: Usage) -> Dim:
    by_use = name in usage.surely or (name in usage.likely and name not in usage.numbers)
    is_length = value.power == 1 or (value.power == 0 and not value.degrees and by_use)
    mm = value.value * dims.unit_mm if is_length and value.power == 0 else value.value
    uses = tuple(dict.fromkeys(found.name for found in names_in(dims.formulas[name])))
    return Dim(name, text.text, round(mm, 9), is_length, uses, text.place.line)


def _value(name: str, dims: Dims, mistakes: list[Mistake]) -> Quantity | None:
    try:
        return evaluate(dims.formulas[name], dims.look, dims.unit_mm)
    except ArithmeticFault as fault:
        mistakes.append(mistake_of(fault, dims.written[name]))
    except Unsettled:
        pass
    return None


def _look(name: Name, values: Mapping[str, Quantity | None], stock: Mapping[str, Stock | None]) -> Quantity:
    short, dot, dimension = name.name.partition(".")
    if dot:
        return _look_stock(name, short, dimension, stock)
    if name.name not in values:
        raise _unknown(name, values, stock)
    value = values[name.name]
    if value is None:
        raise Unsettled
    return value


def _unknown(name: Name, values: Mapping[str, Quantity | None], stock: Mapping[str, Stock | None]) -> ArithmeticFault:
    if name.name in stock:
        found = stock[name.name]
        sizes = tuple(f"{name.name}.{size}" for size in found.section.dimensions) if found else ()
        return ArithmeticFault(name.at, f"{name.name} is stock: say which of its sizes is meant", sizes)
    if not values:
        return ArithmeticFault(name.at, f"{excerpt(name.name)} is not a dim: the job has none")
    return ArithmeticFault(name.at, f"{excerpt(name.name)} is not a dim", _some(values), nearest(name.name, values))


def _look_stock(name: Name, short: str, dimension: str, stock: Mapping[str, Stock | None]) -> Quantity:
    if short not in stock:
        what = f"{excerpt(short)} is not a short name of stock"
        raise ArithmeticFault(name.at, what, _some(stock), nearest(short, stock))
    found = stock[short]
    if found is None:
        raise Unsettled
    sizes = found.section.dimensions
    if dimension not in sizes:
        what = f"{short} ({found.label}) has no size called {excerpt(dimension)}"
        raise ArithmeticFault(name.at, what, tuple(sizes), nearest(dimension, sizes))
    return Quantity(sizes[dimension], 1)


def _some(words: Mapping[str, object]) -> tuple[str, ...]:
    """Words to offer, cut to what a message can carry."""
    offered = tuple(words)
    return offered if len(offered) <= 20 else (*offered[:20], "…")


def _order(formulas: Mapping[str, Formula]) -> tuple[list[str], list[list[str]]]:
    """Dims so that each comes after those it uses, and the cycles; a dim in or behind a cycle is left out."""
    uses = {
        name: [found.name for found in names_in(formula) if found.name in formulas]
        for name, formula in formulas.items()
    }
    order: list[str] = []
    state: dict[str, int] = {}
    cycles: list[list[str]] = []
    for start in formulas:
        if start not in state:
            _walk(start, uses, state, order, cycles)
    return order, cycles


OPEN, DONE, LOST = 1, 2, 3


def _walk(
    start: str, uses: Mapping[str, list[str]], state: dict[str, int], order: list[str], cycles: list[list[str]]
) -> None:
    """Depth first from one dim, with its own stack: a chain of dims may be as long as the file."""
    trail, waiting = [start], [iter(uses[start])]
    state[start] = OPEN
    while trail:
        name = trail[-1]
        ahead = next((found for found in waiting[-1] if state.get(found) != DONE), None)
        if ahead is not None and ahead not in state:
            state[ahead] = OPEN
            trail.append(ahead)
            waiting.append(iter(uses[ahead]))
            continue
        if ahead is not None:
            if state[ahead] == OPEN:
                cycles.append(trail[trail.index(ahead) :])
            state[name] = LOST
        trail.pop()
        waiting.pop()
        if state[name] == OPEN:
            state[name] = DONE
            order.append(name)
        elif trail:
            state[trail[-1]] = LOST


def _cycle_mistake(cycle: list[str], written: Mapping[str, Written]) -> Mistake:
    first = min(range(len(cycle)), key=lambda k: written[cycle[k]].place.line)
    turned = [*cycle[first:], *cycle[:first]]
    text = written[turned[0]]
    if len(turned) == 1:
        what = f"{turned[0]} is worked out from itself"
    else:
        what = f"these dims go round in a circle: {' -> '.join([*turned, turned[0]])}"
    return Mistake(text.place.line, text.place.column, text.where, what)
