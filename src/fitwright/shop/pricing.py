"""How the shop prices a job: margin, overhead, tax, rounding, and what everything that is used up costs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from typing import Any

# what one of each unit is of the first unit of its row; source: NIST Handbook 44 (2024), Appendix C, exact definitions
MASSES = {"kg": Decimal(1), "lb": Decimal("0.45359237")}
VOLUMES = {
    "litre": Decimal(1),
    "decilitre": Decimal("0.1"),
    "pint": Decimal("0.473176473"),
    "quart": Decimal("0.946352946"),
    "gallon": Decimal("3.785411784"),
    "cubic foot": Decimal("28.316846592"),
}
AREAS = {"square metre": Decimal(1), "square foot": Decimal("0.09290304")}
PIECES = {"piece": Decimal(1)}
MEASURES = (PIECES, MASSES, VOLUMES, AREAS)
UNITS_SOLD = tuple(name for measure in MEASURES for name in measure)

KM_PER = {"km": Decimal(1), "mile": Decimal("1.609344")}

ROUNDINGS = {"half even": ROUND_HALF_EVEN, "half up": ROUND_HALF_UP}


@dataclass(frozen=True)
class UnitPrice:
    """Money for one unit of something; least: what it costs at least, however little is taken."""

    price: Decimal
    per: str = "piece"
    least: Decimal = Decimal(0)

    def for_one(self, unit: str) -> Decimal | None:
        """Money for one of another unit of the same measure; None where the two do not measure the same.

        >>> UnitPrice(Decimal("4.50"), "lb").for_one("kg").quantize(Decimal("0.001"))
        Decimal('9.921')
        >>> UnitPrice(Decimal(3), "litre").for_one("kg") is None
        True
        """
        measure = next(one for one in MEASURES if self.per in one)
        return self.price * measure[unit] / measure[self.per] if unit in measure else None


@dataclass(frozen=True)
class Delivery:
    """What it costs to bring a piece: for each delivery, and for each `unit` of the way there and back.

    usual: the way one way [in `unit`] where the job does not say.
    """

    each: Decimal
    per_distance: Decimal
    unit: str
    usual: Decimal

    def way(self, km: Decimal | None) -> Decimal:
        """The way one way in the shop's unit."""
        return self.usual if km is None else km / KM_PER[self.unit]


@dataclass(frozen=True)
class Terms:
    """What the shop writes under a quote, in its own words.

    valid_days: how long it stands. lines: the terms. excluded: what is never part of it. care: by what the piece has
    (steel, timber, oil, paint, casters, …), how to look after it.
    """

    valid_days: int = 30
    lines: tuple[str, ...] = ()
    excluded: tuple[str, ...] = ()
    care: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class Pricing:
    """From cost to price; fractions, not percents.

    margin: of the price before tax, not on top of the cost; margins: those told side by side. overhead: of all other
    cost. deposit: of what the client pays. smallest: the coin that every line is rounded to by `rounding`;
    price_step: the price before tax is a multiple of it, rounded up. usable: shortest drop worth keeping [mm], and
    what it is worth then of its cost. step_spread: one deviation of the time of a single step, as a fraction of it;
    job_spread: of all steps of one job together, when the whole estimate is off.
    """

    margin: Decimal
    margins: tuple[Decimal, ...]
    overhead: Decimal
    tax_name: str
    tax: Decimal
    deposit: Decimal
    smallest: Decimal
    rounding: str
    price_step: Decimal
    usable: float
    offcut_value: Decimal
    step_spread: float
    job_spread: float

    def coins(self, amount: Decimal) -> Decimal:
        """An amount rounded to the smallest coin, as the shop rounds.

        Source: half even is rule A and half up rule B of ISO 80000-1:2009, annex B (from memory), for positive amounts.
        """
        return (amount / self.smallest).quantize(Decimal(1), ROUNDINGS[self.rounding]) * self.smallest


@dataclass(frozen=True)
class Prices:
    """Everything about money that is not stock, and not an hour of work.

    consumables: by name; paint: by product, then by tin; hardware: by label, where the job gives no price;
    outside_work: what is done elsewhere; machine_rates: money an hour by what a step keeps busy.
    """

    pricing: Pricing
    consumables: Mapping[str, UnitPrice]
    paint: Mapping[str, Mapping[str, Decimal]]
    hardware: Mapping[str, Decimal]
    outside_work: Mapping[str, UnitPrice]
    machine_rates: Mapping[str, Decimal]
    delivery: Delivery
    terms: Terms


def prices_of(held: Mapping[str, Any]) -> Prices:
    """The sections about money of a shop file, as its schema has checked them."""
    return Prices(
        pricing=_pricing(held["pricing"]),
        consumables={name: UnitPrice(**entry) for name, entry in held["consumables"].items()},
        paint=held["paint"],
        hardware=held["hardware"],
        outside_work={name: UnitPrice(**entry) for name, entry in held["outside_work"].items()},
        machine_rates=held["machine_rates"],
        delivery=Delivery(**held["delivery"]),
        terms=Terms(**{**held["terms"], **{name: tuple(held["terms"][name]) for name in ("lines", "excluded")}}),
    )


def _pricing(held: Mapping[str, Any]) -> Pricing:
    own = {name: value for name, value in held.items() if name not in ("tax", "usable_offcut")}
    return Pricing(
        **{
            **own,
            "margins": tuple(held["margins"]),
            "tax_name": held["tax"]["name"],
            "tax": held["tax"]["rate"],
            "usable": held["usable_offcut"],
            "step_spread": float(held["step_spread"]),
            "job_spread": float(held["job_spread"]),
        }
    )
