"""What is varied, as one writes it: `depth=22..28:4`, `stock.frame=round tube 1 x 16 ga|round tube 1 1/8 x 16 ga`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from fitwright.job.mistakes import nearest
from fitwright.job.reading import read_tree
from fitwright.job.written import Mapped, Node, Written
from fitwright.pricing.errors import PricingError
from fitwright.units import Style

HOW = "write depth=22..28:4 for four values from 22 to 28, depth=22|25 for these two, depth=22..28 with --sample"
NUMBER = r"(?:\d+[ -]\d+/\d+|\d+/\d+|\d+(?:\.\d+)?)"
RANGE = re.compile(
    rf"(?P<low>{NUMBER})\s*(?P<first>[^\d\s.:|][^.:|]*?)?\s*\.\.\s*(?P<high>{NUMBER})\s*(?P<unit>[^\d\s.:|][^.:|]*?)?\s*"
    r"(?::\s*(?P<count>\d+))?"
)
MOST_VALUES = 1000
LEAST_VALUES = 2


class VaryError(PricingError):
    """A variation that cannot be read, or that names what is not in the job file."""


@dataclass(frozen=True)
class Vary:
    """One value of the job file to vary.

    values: to be taken one by one; empty for a range without a count. low, high: of a range, in `unit` as written.
    step: values of a range are rounded to it: what the job prints, or 1 for a count.
    """

    path: tuple[str, ...]
    values: tuple[str, ...]
    low: Fraction = Fraction(0)
    high: Fraction = Fraction(0)
    unit: str = ""
    step: Fraction = Fraction(1)

    @property
    def name(self) -> str:
        """As it is told: the last word of its path, or all of it."""
        return ".".join(self.path[1:] if self.path[0] == "dims" else self.path)

    def between(self, share: Fraction) -> str:
        """The value at a share of the range, 0 to 1, as it would be written."""
        return written(self.low + (self.high - self.low) * share, self.step, self.unit)


def read_vary(said: str, text: str, style: Style) -> Vary:
    """What one --vary says; text: the job file that it is about, style: how that job writes lengths.

    A name without a dot is a dim; a path with dots is anything in the file that is a single value.
    Raises VaryError with what is accepted.
    """
    name, sign, values = said.partition("=")
    if not sign or not name.strip() or not values.strip():
        raise VaryError(f"{said!r} does not say what to vary: {HOW}")
    path, held = _found(name.strip(), text)
    ranged = RANGE.fullmatch(values.strip())
    if ranged is None:
        return Vary(path, _listed(values, said))
    vary = _range(path, ranged, said, _step(path, held, text, style))
    count = int(ranged["count"] or 0)
    if not count:
        return vary
    if not LEAST_VALUES <= count <= MOST_VALUES:
        raise VaryError(f"{said!r} asks for {count} values: {LEAST_VALUES} to {MOST_VALUES} can be")
    values_of = [vary.between(Fraction(k, count - 1)) for k in range(count)]
    return Vary(path, tuple(dict.fromkeys(values_of)), vary.low, vary.high, vary.unit, vary.step)


def _range(path: tuple[str, ...], ranged: re.Match[str], said: str, step: Fraction) -> Vary:
    low, high = number_of(ranged["low"]), number_of(ranged["high"])
    first, unit = (ranged["first"] or "").strip(), (ranged["unit"] or "").strip()
    if first and first != unit:
        raise VaryError(f"{said!r} has two units: write both ends in {unit or first!r}")
    if low >= high:
        raise VaryError(f"{said!r} goes from {ranged['low']} down to {ranged['high']}: write the smaller end first")
    return Vary(path, (), low, high, unit, step if not unit else Fraction(0))


def _listed(values: str, said: str) -> tuple[str, ...]:
    found = tuple(dict.fromkeys(one.strip() for one in values.split("|")))
    if not all(found):
        raise VaryError(f"{said!r} has an empty value between its |: {HOW}")
    if ".." in values:
        raise VaryError(f"{said!r} cannot be read as a range: {HOW}")
    return found


def _found(name: str, text: str) -> tuple[tuple[str, ...], str]:
    """The path of a name in the job file, and what stands there."""
    root = read_tree(text, "job.yaml").root
    path = tuple(part.strip() for part in name.split(".")) if "." in name else ("dims", name)
    node: Node = root
    for number, step in enumerate(path):
        inner = node.get(step) if isinstance(node, Mapped) else None
        if inner is None:
            known = tuple(node) if isinstance(node, Mapped) else ()
            near = nearest(step, known)
            where = " in " + ".".join(path[:number]) if number else ""
            meant = f"; did you mean {near}?" if near else f": there are {', '.join(known[:20])}" if known else ""
            raise VaryError(f"there is no {step!r}{where} of the job file{meant}")
        node = inner
    if isinstance(node, Mapped) and isinstance(node.get("section"), Written):
        return (*path, "section"), node["section"].text
    if not isinstance(node, Written):
        raise VaryError(f"{name} is not a single value of the job file: name one, such as {name}.NAME")
    return path, node.text


def _step(path: tuple[str, ...], held: str, text: str, style: Style) -> Fraction:
    """What values are rounded to: a count stays whole, a length is one that the job can print."""
    from fitwright.job import parse_job
    from fitwright.job.mistakes import JobFileError

    if path[0] != "dims":
        return Fraction(0)
    try:
        dim = parse_job(text).dims[path[1]]
    except (JobFileError, KeyError):
        return style.step
    if dim.is_length:
        return style.step / 10 if style.unit == "cm" else style.step
    return Fraction(1) if float(dim.value).is_integer() else Fraction(0)


def number_of(said: str) -> Fraction:
    """A number as makers write it.

    >>> number_of("22 1/2"), number_of("3.25")
    (Fraction(45, 2), Fraction(13, 4))
    """
    whole, _, part = said.replace("-", " ").partition(" ")
    try:
        return Fraction(whole) + (Fraction(part) if part else 0)
    except (ValueError, ZeroDivisionError) as wrong:
        raise VaryError(f"{said!r} is not a number: write 22, 22.5 or 22 1/2") from wrong


def written(value: Fraction, step: Fraction, unit: str) -> str:
    """A value rounded to a step (0: three decimals) as it stands in a job file.

    >>> written(Fraction(71, 3), Fraction(1, 16), ""), written(Fraction(24), Fraction(1, 16), "")
    ('23 11/16', '24')
    >>> written(Fraction(71, 3), Fraction(1, 2), "mm"), written(Fraction(71, 3), Fraction(0), "lb")
    ('23.5 mm', '23.667 lb')
    """
    rounded = round(value / step) * step if step else Fraction(round(value * 1000), 1000)
    return f"{_plain(rounded, step)} {unit}".strip()


def _plain(value: Fraction, step: Fraction) -> str:
    if value.denominator == 1:
        return str(value.numerator)
    if step and step.denominator & (step.denominator - 1) == 0 and step.denominator > LEAST_VALUES:
        whole, part = divmod(value, 1)
        return f"{whole} {part}" if whole else str(part)
    return f"{float(value):.3f}".rstrip("0").rstrip(".")
