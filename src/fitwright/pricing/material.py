"""Material as it is bought: whole bars less what is left to use, sheets, hardware."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from fitwright.making.blocks_sawn import DROP
from fitwright.making.cutting import CuttingPlan, PlannedBar
from fitwright.pricing.buying import Bought
from fitwright.pricing.model import CostLine, Group, Kind, Missing
from fitwright.shop import Shop
from fitwright.stock import Stock
from fitwright.units import Style

KEPT = "shop file: pricing, offcut_value of what it cost by length"


@dataclass
class Lines:
    """Lines of cost as they are found, with the prices that are missing."""

    shop: Shop
    lines: list[CostLine] = field(default_factory=list)
    missing: list[Missing] = field(default_factory=list)

    def add(
        self, kind: Kind, group: Group, what: str, quantity: str, amount: Decimal, basis: str, step: int | None = None
    ) -> None:
        """One more line, its amount rounded as the shop rounds."""
        coins = self.shop.prices.pricing.coins(amount)
        self.lines.append(CostLine(kind, group, what, quantity, coins, basis, step))

    def lack(self, what: str, where: str) -> None:
        """One more price that nobody has given."""
        self.missing.append(Missing(what, where))


def add_bars(found: Lines, plans: Mapping[str, CuttingPlan], stocks: Mapping[str, Stock], style: Style) -> None:
    """Bars of each stock as they are bought or taken from the rack, and what is left over that is worth keeping.

    A stock with a piece longer than every bar has no plan, and so no price.
    """
    for label, stock in stocks.items():
        if label not in plans:
            found.lack(f"a bar of {label} that is long enough", "stock in the shop file")
            continue
        _add_bought(found, label, plans[label], stock, style)
        _add_kept(found, label, plans[label], stock, style)


def _add_bought(found: Lines, label: str, plan: CuttingPlan, stock: Stock, style: Style) -> None:
    basis = {bar.length: bar.basis for bar in found.shop.bars_for(stock) if bar.on_hand is None}
    for bar, count in plan.buy:
        told = f"{count} of {style.length(bar.length, feet=True)}"
        found.add(Kind.MATERIAL, Group.MATERIAL, label, told, bar.price * count, basis.get(bar.length, ""))
    for bar, count in plan.from_hand:
        if bar.label == DROP and bar.length < found.shop.prices.pricing.usable:
            continue  # scrap of the parts, which was not counted as worth anything either
        told = f"{count} of {style.length(bar.length)}"
        worth = bar.price * count if bar.price else worth_of(found.shop, stock, bar.length) * count
        whence = "drop of the parts used again" if bar.label == DROP else "from the rack"
        found.add(Kind.MATERIAL, Group.MATERIAL, f"{label}, {whence}", told, worth, KEPT)


def _add_kept(found: Lines, label: str, plan: CuttingPlan, stock: Stock, style: Style) -> None:
    kept = usable(plan.bars, found.shop.prices.pricing.usable)
    if not kept:
        return
    worth = sum((worth_of(found.shop, stock, length) for length in kept), Decimal(0))
    told = ", ".join(style.length(length) for length in kept)
    found.add(Kind.MATERIAL, Group.MATERIAL, f"{label}, left over and kept", told, -worth, KEPT)


def usable(bars: Sequence[PlannedBar], shortest: float) -> tuple[float, ...]:
    """The drops that are long enough to keep [mm], longest first."""
    return tuple(sorted((bar.remnant for bar in bars if bar.remnant >= shortest), reverse=True))


def worth_of(shop: Shop, stock: Stock, length: float) -> Decimal:
    """What a drop of this stock is worth: the stated share of what its length cost, at the dearest bar by length.

    length: [mm].
    """
    dearest = max(bar.price / Decimal(str(bar.length)) for bar in shop.bars_for(stock) if bar.on_hand is None)
    return dearest * Decimal(str(length)) * shop.prices.pricing.offcut_value


def add_goods(found: Lines, buying: Sequence[Bought], bars: Mapping[str, CuttingPlan]) -> None:
    """Sheets and hardware of the buying list; `bars`: what has been counted as bars."""
    for one in buying:
        if one.what in bars:
            continue
        kind = Kind.MATERIAL if one.size else Kind.HARDWARE
        if one.price is None:
            found.lack(f"the price of {one.what}", _where(one))
            continue
        told = f"{one.quantity} of {one.size}" if one.size else str(one.quantity)
        found.add(kind, Group.MATERIAL, one.what, told, one.price * one.quantity, one.basis)


def _where(one: Bought) -> str:
    if one.size:
        return "sheets in the shop file, large enough for the panel"
    return f"price at its part in the job file, or {one.what!r} under hardware in the shop file"
