"""What to buy: whole bars from the cutting plans, whole sheets, and hardware."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from fitwright.making.cutting import CuttingPlan
from fitwright.piece.model import Hardware, Panel
from fitwright.shop import SheetSize, Shop
from fitwright.stock import Stock
from fitwright.units import Style


@dataclass(frozen=True)
class Bought:
    """One line of the buying list; price: for one, None when nobody has said."""

    what: str
    size: str
    quantity: int
    price: Decimal | None
    basis: str


def buying_list(
    plans: Mapping[str, CuttingPlan],
    stocks: Mapping[str, Stock],
    panels: Sequence[Panel],
    hardware: Sequence[Hardware],
    shop: Shop,
    style: Style,
) -> tuple[Bought, ...]:
    """Everything to buy for a job: bars by stock and length, sheets, hardware.

    plans and stocks: by stock label. Sheets are counted by area with nothing allowed for the saw, so a panel with
    many odd shapes may need one more; the basis says so.
    """
    bars = [row for label, plan in plans.items() for row in _bars(label, stocks[label], plan, shop, style)]
    return (*bars, *_sheets(panels, shop, style), *_hardware(hardware, shop))


def _bars(label: str, stock: Stock, plan: CuttingPlan, shop: Shop, style: Style) -> list[Bought]:
    basis = {bar.length: bar.basis for bar in shop.bars_for(stock) if bar.on_hand is None}
    return [
        Bought(label, style.length(bar.length, feet=True), count, bar.price, basis.get(bar.length, ""))
        for bar, count in plan.buy
    ]


def _sheets(panels: Sequence[Panel], shop: Shop, style: Style) -> list[Bought]:
    boards: dict[str, list[tuple[float, float]]] = {}
    stocks: dict[str, Stock] = {}
    for panel in panels:
        for board in panel.boards:
            if board.role == "sheet":
                stocks[board.stock.label] = board.stock
                boards.setdefault(board.stock.label, []).append((board.length, board.width))
    return [_sheet(stocks[label], sizes, shop, style) for label, sizes in boards.items()]


def _sheet(stock: Stock, sizes: list[tuple[float, float]], shop: Shop, style: Style) -> Bought:
    sheets = shop.sheets_for(stock)
    fitting = [sheet for sheet in sheets if all(_goes_in(size, sheet) for size in sizes)]
    if not fitting:
        return Bought(stock.label, "no sheet is large enough", len(sizes), None, "join two, or ask for a larger sheet")
    area = sum(length * width for length, width in sizes)
    sheet = min(fitting, key=lambda one: one.price * _count(area, one))
    size = f"{style.length(sheet.length)} x {style.length(sheet.width)}"
    return Bought(stock.label, size, _count(area, sheet), sheet.price, f"{sheet.basis}; counted by area")


def _goes_in(size: tuple[float, float], sheet: SheetSize) -> bool:
    """The longer side of a panel along the sheet's longer side, grain or not."""
    return max(size) <= max(sheet.length, sheet.width) + 1e-6 and min(size) <= min(sheet.length, sheet.width) + 1e-6


def _count(area: float, sheet: SheetSize) -> int:
    return max(1, math.ceil(area / (sheet.length * sheet.width) - 1e-9))


def _hardware(hardware: Sequence[Hardware], shop: Shop) -> list[Bought]:
    """By label and price; the shop's own price where the job gives none."""
    parts: dict[tuple[str, Decimal | None], int] = {}
    for item in hardware:
        key = (item.label, item.price)
        parts[key] = parts.get(key, 0) + item.each
    return [_thing(label, price, count, shop) for (label, price), count in parts.items()]


def _thing(label: str, price: Decimal | None, count: int, shop: Shop) -> Bought:
    if price is not None:
        return Bought(label, "", count, price, "price in the job file")
    own = shop.prices.hardware.get(label)
    return Bought(label, "", count, own, "no price given" if own is None else "listed in the shop file")
