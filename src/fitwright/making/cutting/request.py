"""What is to be cut, and from what: cuts, bars, and what is wrong with them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from fitwright.errors import FitwrightError
from fitwright.units import Style


class CuttingError(FitwrightError, ValueError):
    """A cut, a bar or a saw that cannot be planned with."""


class CutTooLong(CuttingError):
    """Some piece is longer than every bar."""


class NotEnoughOnHand(CuttingError):
    """The bars on hand are too few, and none can be bought that helps."""


class NoPlanInTime(FitwrightError, TimeoutError):
    """No plan was found within the time limit, nor proof that there is none."""


@dataclass(frozen=True)
class Cut:
    """Pieces of one mark: length [mm] from end to end of the cut piece, and how many."""

    mark: str
    length_mm: float
    quantity: int = 1


@dataclass(frozen=True)
class Bar:
    """A stock length [mm] with its price, and how many there are; on_hand None: any number can be bought."""

    label: str
    length: float
    price: Decimal
    on_hand: int | None = None
    offcut: bool = False


def check(cuts: Sequence[Cut], bars: Sequence[Bar], kerf: float, end_trim: float, style: Style | None = None) -> None:
    """Raise CuttingError for anything that cannot be planned with, CutTooLong naming every piece that fits no bar."""
    said = (style or Style.metric()).fine()
    for cut in cuts:
        if not (math.isfinite(cut.length_mm) and cut.length_mm > 0):
            raise CuttingError(f"cut {cut.mark or '?'} has length {cut.length_mm} mm: give one above 0")
        if cut.quantity < 0:
            raise CuttingError(f"cut {cut.mark or '?'} has quantity {cut.quantity}: give 0 or more")
    for bar in bars:
        _check_bar(bar)
    for what, value in (("kerf", kerf), ("end trim", end_trim)):
        if not (math.isfinite(value) and value >= 0):
            told = said.length(value) if math.isfinite(value) else f"{value:g}"
            raise CuttingError(f"{what} is {told}: give 0 or more")
    _check_longest(cuts, bars, end_trim, said)


def _check_bar(bar: Bar) -> None:
    if not (math.isfinite(bar.length) and bar.length > 0):
        raise CuttingError(f"bar {bar.label or '?'} has length {bar.length} mm: give one above 0")
    if not bar.price.is_finite() or bar.price < 0:
        raise CuttingError(f"bar {bar.label or '?'} has price {bar.price}: give 0 or more")
    if bar.on_hand is not None and bar.on_hand < 0:
        raise CuttingError(f"bar {bar.label or '?'} has {bar.on_hand} on hand: give 0 or more, or nothing to buy any")


def _check_longest(cuts: Sequence[Cut], bars: Sequence[Bar], end_trim: float, said: Style) -> None:
    wanted = [cut for cut in cuts if cut.quantity]
    there = [bar for bar in bars if bar.on_hand != 0]
    if not wanted:
        return
    if not there:
        raise NotEnoughOnHand("there is no bar to cut from: give a stock length to buy, or one on hand")
    longest = max(there, key=lambda bar: bar.length)
    room = longest.length - end_trim
    long = [f"{cut.mark or 'a piece'} of {said.length(cut.length_mm)}" for cut in wanted if cut.length_mm > room + 1e-6]
    if long:
        raise CutTooLong(
            f"too long for every bar: {', '.join(dict.fromkeys(long))}; the longest bar is "
            f"{said.length(longest.length)} and {said.length(room)} once its end is squared: give a longer bar, or "
            "splice the piece"
        )
