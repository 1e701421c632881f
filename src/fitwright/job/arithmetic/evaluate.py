"""A formula worked out, units carried: a quantity is a bare number, or mm to a power."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from fitwright.job.arithmetic.fault import ArithmeticFault
from fitwright.job.arithmetic.formula import Call, Formula, Minus, Name, Number, Operation

LARGEST = 1e12

POWERS = {0: "a plain number", 1: "a length", 2: "an area", 3: "a volume", -1: "one over a length"}


@dataclass(frozen=True)
class Quantity:
    """value: in mm to the power `power`; bare when that is 0. degrees: an angle, for sin, cos and tan only."""

    value: float
    power: int = 0
    degrees: bool = False

    @property
    def words(self) -> str:
        """What kind of quantity it is, in words."""
        return "an angle" if self.degrees else POWERS.get(self.power, f"a length to the power {self.power}")


Look = Callable[[Name], Quantity]


def evaluate(formula: Formula, look: Look, unit_mm: float) -> Quantity:
    """The quantity of a formula. look: finds what a name stands for. unit_mm: size of the job's unit [mm].

    A bare number beside a length in + - min max takes the job's unit. Raises ArithmeticFault.
    Holds for values up to 1e12; the depth of a formula is bounded by its reader.
    """
    match formula:
        case Number(_, value, power, degrees):
            result = Quantity(value, power, degrees)
        case Name():
            result = look(formula)
        case Minus(_, of):
            inner = evaluate(of, look, unit_mm)
            result = Quantity(-inner.value, inner.power, inner.degrees)
        case Operation(at, sign, left, right):
            result = _operate(at, sign, evaluate(left, look, unit_mm), evaluate(right, look, unit_mm), unit_mm)
        case Call(at, function, values):
            result = _call(at, function, [evaluate(value, look, unit_mm) for value in values], unit_mm)
    if not abs(result.value) <= LARGEST:
        raise ArithmeticFault(formula.at, f"the result is larger than {LARGEST:.0e}")
    return result


def _operate(at: int, sign: str, left: Quantity, right: Quantity, unit_mm: float) -> Quantity:
    if sign in "+-":
        first, second = _alike(at, [left, right], unit_mm, f"on both sides of {sign}")
        total = first.value + second.value if sign == "+" else first.value - second.value
        return Quantity(total, first.power, first.degrees)
    turned = left.degrees or right.degrees
    if turned and (left.power or right.power or (sign == "/" and right.degrees)):
        raise ArithmeticFault(at, f"an angle belongs inside sin, cos or tan, not beside {sign}")
    if sign == "*":
        return Quantity(left.value * right.value, left.power + right.power, turned)
    if right.value == 0:
        raise ArithmeticFault(at, "this divides by zero")
    return Quantity(left.value / right.value, left.power - right.power, turned)


def _alike(at: int, values: list[Quantity], unit_mm: float, where: str) -> list[Quantity]:
    """The values as one kind: beside a length bare numbers take the job's unit, beside an angle they are degrees.

    Beside a plain number a bare number over a length is how often that length goes into it: `width / frame.od + 1`.
    """
    powers = {value.power for value in values}
    turned = any(value.degrees for value in values)
    if powers == {0}:
        return [Quantity(value.value, 0, turned) for value in values]
    if powers == {-1, 0} and not turned:
        return [counted(value, unit_mm) for value in values]
    if powers == {0, 1} and not turned:
        return [value if value.power else Quantity(value.value * unit_mm, 1) for value in values]
    if len(powers) > 1 or turned:
        kinds = " and ".join(dict.fromkeys(value.words for value in values))
        raise ArithmeticFault(at, f"{kinds} {where} do not go together")
    return values


def counted(value: Quantity, unit_mm: float) -> Quantity:
    """A bare number over a length as a plain number, the bare one taken in the job's unit; else the value itself."""
    return Quantity(value.value * unit_mm) if value.power == -1 else value


def _call(at: int, function: str, values: list[Quantity], unit_mm: float) -> Quantity:
    if function in ("min", "max"):
        alike = _alike(at, values, unit_mm, f"in {function}")
        pick = min if function == "min" else max
        return pick(alike, key=lambda value: value.value)
    if function in STEPS:
        return _stepped(at, function, values, unit_mm)
    if function == "sqrt":
        return _root(at, values[0])
    return _turned(at, function, values[0])


def _stepped(at: int, function: str, values: list[Quantity], unit_mm: float) -> Quantity:
    """Down, up or to the nearest whole number of steps; without a step, of the job's unit."""
    alike = _alike(at, [*values, Quantity(1.0)] if len(values) == 1 else values, unit_mm, f"in {function}")
    value, step = alike
    if step.value <= 0:
        raise ArithmeticFault(at, f"the step of {function} has to be more than zero")
    return Quantity(STEPS[function](value.value / step.value) * step.value, value.power, value.degrees)


ALMOST = 1e-9
"""Within this of a whole number of steps counts as on it, so that floor(width / pitch) is what paper says."""


def _nearest_whole(steps: float) -> float:
    return math.copysign(math.floor(abs(steps) + 0.5 + ALMOST), steps)


STEPS: dict[str, Callable[[float], float]] = {
    "floor": lambda steps: float(math.floor(steps + ALMOST)),
    "ceil": lambda steps: float(math.ceil(steps - ALMOST)),
    "round": _nearest_whole,
}


def _root(at: int, value: Quantity) -> Quantity:
    if value.value < 0:
        raise ArithmeticFault(at, "sqrt of a negative number")
    if value.power % 2 or value.degrees:
        raise ArithmeticFault(at, f"sqrt takes a plain number or an area, not {value.words}")
    return Quantity(math.sqrt(value.value), value.power // 2)


def _turned(at: int, function: str, value: Quantity) -> Quantity:
    if value.power:
        raise ArithmeticFault(at, f"{function} takes degrees, not {value.words}")
    if function == "tan" and abs(value.value % 180 - 90) < ALMOST:
        raise ArithmeticFault(at, "tan of a right angle has no value")
    turn = math.radians(value.value % 360)
    return Quantity({"sin": math.sin, "cos": math.cos, "tan": math.tan}[function](turn))
