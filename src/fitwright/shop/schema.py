"""What a shop file may hold, checked by pydantic; lengths as makers write them, a bare number in the shop's unit."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BeforeValidator, Field, ValidationInfo
from pydantic_core import PydanticCustomError

from fitwright.errors import FitwrightError
from fitwright.shop.entry import Count, Entry, Length, Money, Name, Offset, Size, one_of, unit_of
from fitwright.shop.model import MAX_ANGLE, SAW_TURNS
from fitwright.shop.pricing_schema import DeliveryEntry, MoneyByName, Prices, PricingEntry, TermsEntry, TinPrices
from fitwright.shop.records.where import ACCEPTED, accepted
from fitwright.shop.working_schema import AirEntry, BoardsEntry, SpreadsByName, Times, WorkEntry
from fitwright.stock import parse_stock
from fitwright.units import parse_angle

SHAPES = (
    *("round tube", "pipe", "square tube", "rectangular tube", "round bar", "square bar", "flat", "angle"),
    *("lumber", "plywood", "sheet", "other"),
)
KINDS = ("steel", "stainless", "aluminium", "softwood", "hardwood", "plywood", "other")


def _angle(value: Any) -> Any:
    try:
        return parse_angle(value)
    except FitwrightError as wrong:
        raise PydanticCustomError("angle", "{message}", {"message": str(wrong)}) from None


def _label(value: Any, info: ValidationInfo) -> Any:
    """The stock's label as `Stock.label` writes it, so that every spelling of it is found again."""
    if not isinstance(value, str):
        raise PydanticCustomError("stock", "is not a stock in words, such as round tube 1 1/8 x 14 ga")
    try:
        return parse_stock(value, unit=unit_of(info)).label
    except FitwrightError as wrong:
        raise PydanticCustomError("stock", "{message}", {"message": str(wrong)}) from None


def _holds(name: str) -> Any:
    def complete(value: dict[str, Any]) -> dict[str, Any]:
        if name not in value:
            raise PydanticCustomError("incomplete", "'{name}' is not given", {"name": name})
        return value

    return AfterValidator(complete)


def _where(value: str) -> str:
    if not accepted(value):
        raise PydanticCustomError("incomplete", "is {given}: give {said}", {"given": value, "said": ACCEPTED})
    return value


Turn = Annotated[float, BeforeValidator(_angle), Field(gt=0, le=6.3)]
Shape = Annotated[str, one_of(SHAPES)]
Kind = Annotated[str, one_of(KINDS)]
Label = Annotated[str, BeforeValidator(_label)]
Corner = tuple[Offset, Offset, Offset]


class SawEntry(Entry):
    """A saw."""

    name: Name
    kerf: Length
    end_trim: Length = 0.0
    longest_stop: Size | None = None
    cuts: Literal["metal", "timber"] = "metal"
    turns_to: Turn = SAW_TURNS


class BenderEntry(Entry):
    """A bending machine."""

    name: Name
    height: Size | None = None
    body: tuple[Corner, Corner] | None = None


class DieEntry(Entry):
    """A die; what is not given of lead and between is the grip."""

    name: Name
    shape: Literal["round", "square", "flat", "angle"] = "round"
    od: Size
    radius: Size
    grip: Length
    lead: Length | None = None
    between: Length | None = None
    offset: Offset = 0.0
    take_up: Annotated[float, Field(gt=0.5, lt=1.5)] = 1.0
    max_angle: Turn = MAX_ANGLE
    kind: Literal["rotary draw", "rolls"] = "rotary draw"
    machine: str = ""


class BarEntry(Entry):
    """Lengths of one stock: to buy, with the price of each; and on hand."""

    stock: Label
    lengths: dict[Size, Money] = Field(default_factory=dict)
    offcuts: list[Size] = Field(default_factory=list)


class SheetEntry(Entry):
    """A whole sheet to buy."""

    stock: Label
    size: tuple[Size, Size]
    price: Money


class PinEntry(Entry):
    """A round pin for a hole of the bench."""

    name: Name
    diameter: Size
    height: Size
    count: Count


class StopEntry(Entry):
    """A stop with a flat face."""

    name: Name
    face: Size
    farthest: Size | None = None
    width: Size
    height: Size
    count: Count


class SquareEntry(Entry):
    """A square that stands on the bench."""

    name: Name
    height: Size
    length: Size
    count: Count


class ClampEntry(Entry):
    """A clamp."""

    name: Name
    reach: Size
    opening: Size
    count: Count
    holds: Literal["hole", "edge"] = "hole"


class BenchEntry(Entry):
    """The fixture table; where the first hole is not given it lies half a pitch from both edges."""

    name: str = "bench"
    length: Size
    width: Size
    height: Size
    thickness: Length = 0.0
    hole_pitch: Length = 0.0
    hole_diameter: Length = 0.0
    first_hole: tuple[Size, Size] | None = None
    corner: Literal["front left", "front right", "back left", "back right"] = "front left"
    pins: list[PinEntry] = Field(default_factory=list)
    stops: list[StopEntry] = Field(default_factory=list)
    squares: list[SquareEntry] = Field(default_factory=list)
    clamps: list[ClampEntry] = Field(default_factory=list)


class WeldingEntry(Entry):
    """How the shop welds."""

    process: str
    wire: Size
    reach: Size
    gas: str = ""


class ShopFile(Entry):
    """A whole shop file."""

    name: Name
    unit: Literal["inch", "mm", "cm"]
    currency: Annotated[str, Field(min_length=1, max_length=12)]
    trim_allowance: Length = 25.0
    saws: Annotated[list[SawEntry], Field(min_length=1)]
    benders: list[BenderEntry] = Field(default_factory=list)
    dies: list[DieEntry] = Field(default_factory=list)
    stock: list[BarEntry] = Field(default_factory=list)
    sheets: list[SheetEntry] = Field(default_factory=list)
    usual_lengths: Annotated[dict[Shape, Annotated[list[Size], Field(min_length=1)]], _holds("other")]
    usual_sheet: tuple[Size, Size]
    prices_per_kg: Annotated[dict[Kind, Annotated[dict[Shape, Money], _holds("other")]], _holds("other")]
    bench: BenchEntry
    welding: WeldingEntry
    rates: Annotated[dict[str, Money], _holds("shop")]
    work: WorkEntry = WorkEntry()
    times: Times = Field(default_factory=dict)
    boards: BoardsEntry = BoardsEntry()
    air: AirEntry | None = None
    spreads: SpreadsByName = Field(default_factory=dict)
    pricing: PricingEntry
    consumables: Prices
    paint: TinPrices
    hardware: MoneyByName
    outside_work: Prices
    machine_rates: MoneyByName
    delivery: DeliveryEntry
    terms: TermsEntry
    records: Annotated[str, AfterValidator(_where)] = ""
