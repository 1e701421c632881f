"""What one job has of its own for its price."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True)
class Extra:
    """Something charged that follows from nothing else: bought work, a rented van, an hour of drawing."""

    what: str
    price: Decimal


@dataclass(frozen=True)
class PriceSpec:
    """What a job says of its price; everything else comes from the shop.

    distance_km: the way to the place, one way; None for the shop's usual. margin: of the price, None for the shop's.
    extras: charged on top of what is worked out; scope, excluded: lines of the quote, besides those that follow.
    """

    distance_km: Decimal | None = None
    margin: Decimal | None = None
    extras: tuple[Extra, ...] = ()
    scope: tuple[str, ...] = ()
    excluded: tuple[str, ...] = ()
