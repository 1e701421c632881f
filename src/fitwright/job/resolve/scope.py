"""Where values are worked out: the job's unit, its dims and stock, and the mistakes met on the way.

A value that cannot be worked out leaves its mistake here and gives NaN, so that the rest of the file is still read.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal, InvalidOperation

from fitwright.job.arithmetic import ArithmeticFault, Formula, Quantity, counted, evaluate, read
from fitwright.job.arithmetic.usage import Usage, note_length, note_number
from fitwright.job.dims import LONGEST_MM, Dims, Unsettled, mistake_of
from fitwright.job.mistakes import TOO_MANY, Mistake, excerpt, nearest
from fitwright.job.model import Point, Where
from fitwright.job.written import Mapped, Place, Written
from fitwright.stock import Stock
from fitwright.units import Style, UnitError, parse_load, parse_mass

NAN = math.nan
ALMOST = 1e-9
DECIMALS = 9
"""Lengths are kept to this many decimals of a mm: what two ways of writing one length differ by is not kept."""
MOST_COPIES = 1000
BARE = re.compile(r"[\d\s./-]+")
WITH_UNIT = {"N": "40 lb, 250 N or 25 kg", "kg": "12 lb or 5.5 kg"}
HEAVIEST_N = 1e6
HEAVIEST_KG = 1e5
MOST_MONEY = Decimal(10) ** 9


class EnoughMistakes(Exception):
    """So many mistakes that no more are looked for."""


@dataclass
class Scope:
    """The names of a job and the mistakes found so far. parts: names of all parts written, good or not."""

    style: Style
    dims: Dims
    root: Mapped
    parts: tuple[str, ...] = ()
    mistakes: list[Mistake] = field(default_factory=list)
    told: set[Mistake] = field(default_factory=set)
    usage: Usage = field(default_factory=Usage)
    worked_out: dict[str, tuple[Formula, Quantity] | ArithmeticFault | None] = field(default_factory=dict)
    noted: set[Formula] = field(default_factory=set)
    products: list[tuple[set[tuple[str, str]], Written]] = field(default_factory=list)

    def key_place(self, *path: str) -> Place:
        """Where the key at the end of a path through mappings stands."""
        node, place = self.root, self.root.place
        for key in path:
            place, node = node.keys_at.get(key, place), node.get(key, node)
            if not isinstance(node, Mapped):
                break
        return place

    def wrote(self, *path: str) -> bool:
        """Whether the file has a key at the end of a path through mappings, be its value good or not."""
        node: object = self.root
        for key in path:
            if not isinstance(node, Mapped) or key not in node:
                return False
            node = node[key]
        return True

    def where(self, *path: str) -> Where:
        """The same as the other rooms carry it."""
        return Where(".".join(path), self.key_place(*path).line)

    def wrong(self, place: Place, where: str, what: str, accepted: Iterable[str] = (), near: str | None = None) -> None:
        """Keep a mistake."""
        self._tell(Mistake(place.line, place.column, where, what, tuple(accepted), near))

    def wrong_at(self, written: Written, what: str, accepted: Iterable[str] = (), near: str | None = None) -> None:
        """Keep a mistake about a value."""
        self.wrong(written.place, written.where, what, accepted, near)

    def _tell(self, mistake: Mistake) -> None:
        if mistake in self.told:
            return
        self.told.add(mistake)
        self.mistakes.append(mistake)
        if len(self.mistakes) > TOO_MANY:
            raise EnoughMistakes

    def length(self, written: Written, *, least: float = -LONGEST_MM, above: float | None = None) -> float:
        """A length [mm]; least: the smallest that will do; above: it has to be more than this."""
        found = self._worked_out(written)
        if found is None:
            return NAN
        formula, quantity = found
        if quantity.degrees or quantity.power not in (0, 1):
            self.wrong_at(written, f"{excerpt(written.text)} is {quantity.words}; a length belongs here")
            return NAN
        self._note_length(formula, written)
        mm = quantity.value if quantity.power else quantity.value * self.dims.unit_mm
        return self._bounded_length(mm, written, least, above)

    def glance(self, written: Written) -> float:
        """A length [mm] where it can be worked out, without a word where it cannot."""
        found = self._found(written.text)
        if found is None or isinstance(found, ArithmeticFault) or found[1].power not in (0, 1):
            return NAN
        return found[1].value * (1.0 if found[1].power else self.dims.unit_mm)

    def length_or(self, written: Written | None, default: float, *, least: float = -LONGEST_MM) -> float:
        """A length [mm] where one is given, else the default."""
        return default if written is None else self.length(written, least=least)

    def optional_length(
        self, written: Written | None, *, least: float = 0.0, above: float | None = None
    ) -> float | None:
        """A length [mm] where one is given."""
        return None if written is None else self.length(written, least=least, above=above)

    def point(self, written: Sequence[Written]) -> Point:
        """A point [mm] from its three lengths."""
        x, y, z = (self.length(coordinate) for coordinate in written)
        return x, y, z

    def number(self, written: Written, *, least: float, most: float) -> float:
        """A plain number between bounds."""
        found = self._worked_out(written)
        if found is None:
            return NAN
        formula, quantity = found[0], counted(found[1], self.dims.unit_mm)
        if quantity.degrees or quantity.power:
            self.wrong_at(written, f"{excerpt(written.text)} is {quantity.words}; a plain number belongs here")
            return NAN
        note_number(formula, self.usage)
        if not least - ALMOST <= quantity.value <= most + ALMOST:
            self.wrong_at(written, f"{excerpt(written.text)} is {quantity.value:g}; {least:g} to {most:g} is accepted")
            return NAN
        return quantity.value

    def count(self, written: Written, *, least: int = 1, most: int = MOST_COPIES) -> int:
        """A whole number between bounds; the least where it is wrong."""
        value = self.number(written, least=least, most=most)
        if math.isnan(value):
            return least
        whole = round(value)
        if abs(value - whole) > 1e-6:
            self.wrong_at(written, f"{excerpt(written.text)} is {value:g}; a count has to be whole")
            return least
        return whole

    def share(self, written: Written) -> float:
        """A share of one: `10 %`, `1/2` or 0.1."""
        text = written.text.rstrip()
        if not text.endswith("%"):
            return self.number(written, least=0, most=1)
        bare = Written(text[:-1].rstrip(), written.where, written.place, written.quoted)
        return self.number(bare, least=0, most=100) / 100

    def load(self, written: Written) -> float:
        """A load [N] with its unit."""
        return self._with_unit(written, "N", HEAVIEST_N)

    def mass(self, written: Written) -> float:
        """A mass [kg] with its unit."""
        return self._with_unit(written, "kg", HEAVIEST_KG)

    def money(self, written: Written) -> Decimal:
        """An amount of money; a currency sign in front and commas between thousands are read over."""
        text = written.text.strip().lstrip("$€£").strip().replace(",", "")
        try:
            amount = Decimal(text) if len(text) <= 20 else Decimal("NaN")
        except InvalidOperation:
            amount = Decimal("NaN")
        if not (amount.is_finite() and 0 <= amount <= MOST_MONEY):
            self.wrong_at(written, f"{excerpt(written.text)} is not an amount of money: write 450 or 12.50")
            return Decimal(0)
        return amount

    def stock(self, written: Written) -> Stock | None:
        """The stock of a short name; None where it is wrong or its own mistake is told."""
        names = self.dims.stock
        if written.text not in names:
            what = f"{excerpt(written.text)} is not a short name under stock"
            self.wrong_at(written, what, list(names)[:20], nearest(written.text, names))
            return None
        return names[written.text]

    def _worked_out(self, written: Written) -> tuple[Formula, Quantity] | None:
        found = self._found(written.text)
        if isinstance(found, ArithmeticFault):
            self._tell(mistake_of(found, written))
            return None
        return found

    def _found(self, text: str) -> tuple[Formula, Quantity] | ArithmeticFault | None:
        if text not in self.worked_out:
            self.worked_out[text] = self._work_out(text)
        return self.worked_out[text]

    def _work_out(self, text: str) -> tuple[Formula, Quantity] | ArithmeticFault | None:
        """None where a name's own mistake is told."""
        formula = read(text)
        if isinstance(formula, ArithmeticFault):
            return formula
        try:
            return formula, evaluate(formula, self.dims.look, self.dims.unit_mm)
        except ArithmeticFault as fault:
            return fault
        except Unsettled:
            return None

    def _note_length(self, formula: Formula, written: Written) -> None:
        if formula in self.noted:
            return
        self.noted.add(formula)
        known = len(self.usage.areas)
        note_length(formula, self.usage)
        if len(self.usage.areas) > known:
            self.products.append((set(self.usage.areas), written))

    def _bounded_length(self, mm: float, written: Written, least: float, above: float | None) -> float:
        said = f"{excerpt(written.text)} comes to {self.style.length(mm)}"
        if abs(mm) > LONGEST_MM:
            self.wrong_at(written, f"{said}; a length here is at most {LONGEST_MM / 1000:g} m")
        elif mm < least - ALMOST:
            self.wrong_at(written, f"{said}; at least {self.style.length(least)} belongs here")
        elif above is not None and mm <= above + ALMOST:
            self.wrong_at(written, f"{said}; more than {self.style.length(above)} belongs here")
        else:
            return round(mm, DECIMALS)
        return NAN

    def _with_unit(self, written: Written, base: str, most: float) -> float:
        try:
            if BARE.fullmatch(written.text):
                self.wrong_at(written, f"{excerpt(written.text)} has no unit: write it as {WITH_UNIT[base]}")
                return NAN
            value = parse_load(written.text) if base == "N" else parse_mass(written.text)
        except UnitError as error:
            self.wrong_at(written, str(error))
            return NAN
        if not 0 <= value <= most:
            said = f"{excerpt(written.text)} is {value:,.0f} {base}"
            self.wrong_at(written, f"{said}; 0 to {most:,.0f} {base} is accepted")
            return NAN
        return value


def known(*values: float | None) -> bool:
    """Whether all values could be worked out."""
    return not any(value is not None and math.isnan(value) for value in values)


def offered(names: Mapping[str, object] | Iterable[str]) -> tuple[str, ...]:
    """Names to offer in a message, the first twenty."""
    listed = tuple(names)
    return listed if len(listed) <= 20 else (*listed[:20], "…")
