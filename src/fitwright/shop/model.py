"""The shop as the other rooms see it: machines, dies, bench, stock, rates; lengths in mm, money as Decimal."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import ROUND_HALF_UP, Decimal

from fitwright.shop.pricing import Prices
from fitwright.shop.working import Working
from fitwright.stock import Angle, Flat, Lumber, RectTube, RoundBar, RoundTube, Section, Stock
from fitwright.units import Unit

# A die is the right one when its radius and groove are within half a millimetre of what is drawn (common practice).
SAME_DIE_MM = 0.5
CENT = Decimal("0.01")
OTHER = "other"

# A draw bender turns half a turn and the springback of it (common practice).
MAX_ANGLE = math.radians(195)
SAW_TURNS = math.radians(60)  # cold and mitre saws, common practice

# What these take is not held all round, so that anything up to their size goes in.
OPEN_SHAPES = ("flat", "angle")

LISTED = "listed in the shop file"
BY_WEIGHT = "estimated by weight"


@dataclass(frozen=True)
class Die:
    """One bending die, or a set of rolls.

    od: outside size of the stock that fits the groove, for flat and angle the largest that goes in.
    radius: on the centreline, for rolls the smallest.
    grip: least straight after the last bend; lead: least straight before the first; between: least between two bends.
    offset: from the tangent point of a bend to where the mark goes, positive away from the starting end.
    take_up: material used by a bend over the arc on the centreline, from trials. max_angle [rad].
    """

    name: str
    shape: str
    od: float
    radius: float
    grip: float
    lead: float
    between: float
    offset: float = 0.0
    take_up: float = 1.0
    max_angle: float = MAX_ANGLE
    kind: str = "rotary draw"
    machine: str = ""

    @property
    def rolls(self) -> bool:
        """Whether it rolls any radius from its smallest up."""
        return self.kind == "rolls"

    def fits(self, section: Section) -> bool:
        """Whether stock of this section goes into the groove."""
        size = groove_size(section)
        if size is None or size[0] != self.shape:
            return False
        if self.shape in OPEN_SHAPES:
            return size[1] <= self.od + SAME_DIE_MM
        return abs(size[1] - self.od) <= SAME_DIE_MM

    def bends(self, radius: float) -> bool:
        """Whether it makes this centreline radius [mm]."""
        if self.rolls:
            return radius >= self.radius - SAME_DIE_MM
        return abs(radius - self.radius) <= SAME_DIE_MM


@dataclass(frozen=True)
class Saw:
    """A saw: kerf, what is cut off a fresh bar's end, longest length its stop can be set to (None: no stop) [mm].

    turns_to: how far off square it can be set [rad].
    """

    name: str
    kerf: float
    end_trim: float = 0.0
    longest_stop: float | None = None
    cuts: str = "metal"
    turns_to: float = SAW_TURNS


@dataclass(frozen=True)
class Bender:
    """The machine that holds the dies.

    height: of the tube's centreline above the floor [mm], None when it does not matter.
    body: low and high corner (x, y, z) of what a bent tube can run into, from the tangent point of the bend being made:
    x along the tube toward its starting end, y toward the die, z up [mm]; None when not given.
    """

    name: str
    height: float | None = None
    body: tuple[tuple[float, float, float], tuple[float, float, float]] | None = None


@dataclass(frozen=True)
class StockLength:
    """A length that can be cut from: a bar to buy (on_hand None: any number) or to use up, or an offcut."""

    label: str
    length: float
    price: Decimal
    on_hand: int | None = None
    offcut: bool = False
    basis: str = LISTED


@dataclass(frozen=True)
class SheetSize:
    """A whole sheet to buy: along the grain (or longer side) and across [mm]."""

    label: str
    length: float
    width: float
    price: Decimal
    basis: str = LISTED


@dataclass(frozen=True)
class BenchPin:
    """A round pin, or a pin with a collar, that stands in a hole: diameter and height above the bench [mm]."""

    name: str
    diameter: float
    height: float
    count: int

    @property
    def face(self) -> float:
        """From the middle of the hole to where it bears [mm]."""
        return self.diameter / 2


@dataclass(frozen=True)
class BenchStop:
    """A stop with a flat face: how far the face stands from the middle of its hole, its width and height [mm].

    farthest: how far out the face can be set where it slides; the same as `face` where it is fixed.
    """

    name: str
    face: float
    width: float
    height: float
    count: int
    farthest: float

    @property
    def slides(self) -> bool:
        """Whether its face is set by the maker."""
        return self.farthest > self.face


@dataclass(frozen=True)
class BenchSquare:
    """A square that stands on the bench: how high its blade reaches and how long its foot is [mm]."""

    name: str
    height: float
    length: float
    count: int


@dataclass(frozen=True)
class BenchClamp:
    """A clamp: how far its pad reaches from the hole or edge that holds it, and how thick it opens [mm].

    holds: "hole" when it stands in a hole, "edge" when it grips the edge of the bench.
    """

    name: str
    reach: float
    opening: float
    count: int
    holds: str = "hole"


@dataclass(frozen=True)
class Bench:
    """The welding fixture table [mm]; hole_pitch 0 when it has no holes.

    first_hole: from the two edges at `corner` to the middle of the first hole. Lengths run along x, widths along y,
    as one sees the bench standing in front of it; `corner` is where holes are counted from.
    """

    name: str
    length: float
    width: float
    height: float
    hole_pitch: float = 0.0
    hole_diameter: float = 0.0
    thickness: float = 0.0
    first_hole: tuple[float, float] = (0.0, 0.0)
    corner: str = "front left"
    pins: tuple[BenchPin, ...] = ()
    stops: tuple[BenchStop, ...] = ()
    squares: tuple[BenchSquare, ...] = ()
    clamps: tuple[BenchClamp, ...] = ()

    @property
    def holes(self) -> tuple[int, int]:
        """How many holes along its length and across its width; none without a pitch."""
        if self.hole_pitch <= 0:
            return (0, 0)
        sides = zip((self.length, self.width), self.first_hole, strict=True)
        along, across = (max(math.floor((side - 2 * first) / self.hole_pitch + 1e-6) + 1, 0) for side, first in sides)
        return along, across


@dataclass(frozen=True)
class Welding:
    """How the shop welds: process, wire diameter and torch reach [mm]."""

    process: str
    wire: float
    reach: float
    gas: str = ""


@dataclass(frozen=True)
class Shop:
    """Machines, dies, bench, stock and prices of one shop.

    usual_lengths: by section shape (or "other"), what can be bought where nothing is listed [mm].
    usual_sheet: sides of a sheet where none is listed [mm].
    prices_per_kg: by material kind, then by section shape or "other". prices: of everything else, and how to price.
    rates: money per hour by task, with "shop" for every task that has none of its own.
    trim_allowance: left on an end that is cut after bending [mm]. working: people, times, boards, air, spreads.
    records: where the shop's records are, empty for the usual file.
    """

    name: str
    unit: Unit
    currency: str
    saws: tuple[Saw, ...]
    benders: tuple[Bender, ...]
    dies: tuple[Die, ...]
    stock_lengths: tuple[StockLength, ...]
    sheets: tuple[SheetSize, ...]
    usual_lengths: Mapping[str, tuple[float, ...]]
    usual_sheet: tuple[float, float]
    prices_per_kg: Mapping[str, Mapping[str, Decimal]]
    bench: Bench
    welding: Welding
    prices: Prices
    rates: Mapping[str, Decimal] = field(default_factory=dict)
    trim_allowance: float = 25.0
    working: Working = field(default_factory=Working)
    records: str = ""

    def dies_for(self, section: Section) -> tuple[Die, ...]:
        """Every die whose groove takes this section, smallest radius first."""
        return tuple(sorted((die for die in self.dies if die.fits(section)), key=lambda die: (die.rolls, die.radius)))

    def die_for(self, section: Section, radius: float) -> Die | None:
        """The die for this section and centreline radius [mm], a draw die before rolls; None where there is none."""
        return next((die for die in self.dies_for(section) if die.bends(radius)), None)

    def bender_for(self, die: Die) -> Bender | None:
        """The machine a die belongs to: the one it names, else the only one."""
        named = [bender for bender in self.benders if bender.name == die.machine]
        return named[0] if named else (self.benders[0] if len(self.benders) == 1 and not die.machine else None)

    def saw_for(self, stock: Stock) -> Saw:
        """The saw that cuts this material; the first where none is meant for it."""
        wanted = "timber" if stock.material.is_timber else "metal"
        return next((saw for saw in self.saws if saw.cuts == wanted), self.saws[0])

    def bars_for(self, stock: Stock) -> tuple[StockLength, ...]:
        """What this stock can be cut from: never empty.

        Bars and offcuts listed under its label; where no bar to buy is listed, the usual lengths of its shape at the
        price per kilogram, and `basis` says so.
        """
        listed = tuple(bar for bar in self.stock_lengths if bar.label == stock.label)
        if any(bar.on_hand is None for bar in listed):
            return listed
        lengths = self.usual_lengths.get(stock.section.shape) or self.usual_lengths[OTHER]
        return listed + tuple(self._estimated(stock, length) for length in lengths)

    def sheets_for(self, stock: Stock) -> tuple[SheetSize, ...]:
        """Whole sheets of this stock: those listed, else the usual size at the price per kilogram."""
        listed = tuple(sheet for sheet in self.sheets if sheet.label == stock.label)
        if listed:
            return listed
        length, width = self.usual_sheet
        mass = stock.mass_per_m2 * length * width * 1e-6
        price = _cents(self.price_per_kg(stock) * Decimal(str(mass)))
        return (SheetSize(stock.label, length, width, price, BY_WEIGHT),)

    def price_per_kg(self, stock: Stock) -> Decimal:
        """Money per kilogram of this stock, where no price is listed."""
        prices = self.prices_per_kg.get(stock.material.kind) or self.prices_per_kg[OTHER]
        return prices.get(stock.section.shape, prices[OTHER])

    def rate_for(self, task: str) -> Decimal:
        """Money per hour for a task; the shop's own rate where the task has none."""
        return self.rates.get(task, self.rates["shop"])

    def _estimated(self, stock: Stock, length: float) -> StockLength:
        mass = stock.mass_per_m * length / 1000
        price = _cents(self.price_per_kg(stock) * Decimal(str(mass)))
        return StockLength(stock.label, length, price, basis=BY_WEIGHT)


def groove_size(section: Section) -> tuple[str, float] | None:
    """The die a section needs: shape (round, square, flat, angle) and outside size [mm]; None where none takes it."""
    if isinstance(section, RoundTube):
        return "round", section.od
    if isinstance(section, RoundBar):
        return "round", section.diameter
    if isinstance(section, RectTube) and abs(section.width - section.height) < SAME_DIE_MM:
        return "square", section.width
    if isinstance(section, Flat) and not isinstance(section, Lumber):
        square = abs(section.width - section.thickness) < SAME_DIE_MM
        return ("square" if square else "flat"), section.width
    return ("angle", max(section.leg_a, section.leg_b)) if isinstance(section, Angle) else None


def _cents(money: Decimal) -> Decimal:
    return money.quantize(CENT, ROUND_HALF_UP)
