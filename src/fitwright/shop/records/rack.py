"""Bars and offcuts on hand: what the shop can cut from, and what a job takes off the rack and puts on it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING

from fitwright.shop.model import Shop, StockLength
from fitwright.shop.records.errors import RecordsError
from fitwright.shop.records.model import Built, OnHand, Price, Purchase

if TYPE_CHECKING:
    from fitwright.shop.records.keeping import Change, Records

ON_HAND, PRICED = "on the rack, by the records", "a price in the records"
LEAST_KEPT_MM = 300.0
"""Shorter offcuts are scrap (common practice)."""
SAME_MM = 0.5
"""Lengths nearer than this are the same bar."""


class AlreadyBuilt(RecordsError, ValueError):
    """The bars of this job were taken off the rack before."""


class NotOnRack(RecordsError, LookupError):
    """A bar that the plan takes is not on the rack any more."""

    def __str__(self) -> str:
        return str(self.args[0])


@dataclass(frozen=True)
class BarUsed:
    """A bar that a cutting plan uses [mm]: whether it comes off the rack, what is left of it, and what it costs."""

    label: str
    length: float
    remnant: float
    from_rack: bool
    heat: str = ""
    price: Decimal = Decimal(0)


@dataclass(frozen=True)
class UsedUp:
    """What a job did to the rack: bars taken, offcuts put, bars that the shop file lists and that have to be crossed
    out there, and offcuts too short to keep."""

    taken: tuple[BarUsed, ...]
    put: tuple[OnHand, ...]
    not_recorded: tuple[BarUsed, ...]
    scrap: int
    bought: tuple[Purchase, ...] = ()


def with_rack(shop: Shop, stock: Sequence[OnHand], prices: Sequence[Price]) -> Shop:
    """The shop with what the records say is on hand, and with their newest prices in the place of listed ones."""
    newest: dict[tuple[str, int], Price] = {}
    for price in sorted(prices, key=lambda one: (one.day, one.id)):
        newest[price.label, round(price.length / SAME_MM)] = price
    listed = [bar for bar in shop.stock_lengths if bar.on_hand is not None or not _repriced(bar, newest.values())]
    bought = [StockLength(one.label, one.length, one.price, basis=PRICED) for one in newest.values()]
    return replace(shop, stock_lengths=(*listed, *bought, *_held(stock)))


def _held(stock: Sequence[OnHand]) -> Iterator[StockLength]:
    """One entry for all bars alike, wherever they lie."""
    counted: Counter[tuple[str, float, Decimal, bool]] = Counter()
    for one in stock:
        counted[one.label, one.length, one.price, one.offcut] += one.count
    for (label, length, price, offcut), count in counted.items():
        if count > 0:
            yield StockLength(label, length, price, count, offcut, ON_HAND)


def _repriced(bar: StockLength, prices: Iterable[Price]) -> bool:
    return any(one.label == bar.label and abs(one.length - bar.length) < SAME_MM for one in prices)


def use_up(
    records: Records,
    job: str,
    bars: Sequence[BarUsed],
    day: date,
    *,
    again: bool = False,
    bought: bool = False,
    least: float = LEAST_KEPT_MM,
) -> UsedUp:
    """Take a job's bars off the rack and put its usable offcuts on it, all at once.

    least: offcuts shorter than this [mm] are scrap. again: although it was done before for a job of that name.
    bought: keep the bars that were not on the rack as purchases, at the prices that they were planned with.
    Raises AlreadyBuilt, and NotOnRack when the records have fewer of a bar than the plan takes.
    """
    with records.changing() as change:
        before = [one for one in change.all(Built) if one.job == job]
        if before and not again:
            raise AlreadyBuilt(
                f"the bars of {job} were taken off the rack on {before[-1].day}: "
                "say so (--again) if it was built once more"
            )
        taken, missing = _taken(change, [bar for bar in bars if bar.from_rack])
        put = tuple(change.add(one) for one in _left(bars, least, job))
        purchases = tuple(change.add(one) for one in _purchases(bars, job, day)) if bought else ()
        change.add(Built(day, job, len(taken), sum(one.count for one in put)))
    scrap = sum(0 < bar.remnant < least for bar in bars)
    return UsedUp(taken, put, missing, scrap, purchases)


def _taken(change: Change, bars: Sequence[BarUsed]) -> tuple[tuple[BarUsed, ...], tuple[BarUsed, ...]]:
    """The bars that the records had, and those of labels and lengths that they never had: the shop file's own."""
    taken, missing = [], []
    for bar in bars:
        alike = [o for o in change.all(OnHand) if o.label == bar.label and abs(o.length - bar.length) < SAME_MM]
        held = next((one for one in alike if one.count > 0), None)
        if held is not None:
            change.replace(replace(held, count=held.count - 1))
            taken.append(bar)
        elif alike:
            raise NotOnRack(
                f"{bar.label}, {bar.length:.0f} mm: the plan takes more of it than there are on the rack; "
                "somebody has used it: look at the cutting plan again"
            )
        else:
            missing.append(bar)
    return tuple(taken), tuple(missing)


def _purchases(bars: Sequence[BarUsed], job: str, day: date) -> Iterator[Purchase]:
    counted = Counter((bar.label, bar.length, bar.price) for bar in bars if not bar.from_rack)
    for (label, length, price), count in counted.items():
        yield Purchase(day, label, count, price, length, job=job)


def _left(bars: Sequence[BarUsed], least: float, job: str) -> Iterator[OnHand]:
    """One entry for each label, length and heat of what is left over."""
    counted: dict[tuple[str, float, str], int] = {}
    for bar in bars:
        if bar.remnant >= least:
            key = (bar.label, round(bar.remnant, 1), bar.heat)
            counted[key] = counted.get(key, 0) + 1
    for (label, length, heat), count in counted.items():
        yield OnHand(label, length, count, Decimal(0), offcut=True, heat=heat, note=f"left from {job}"[:400])
