"""A small stand of mitred square tube: all of it is worked out in about a second."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from functools import cache
from typing import Any

from fitwright.assess import Assessment, assess
from fitwright.job import parse_job
from fitwright.pricing.exploring import Figures
from fitwright.shop import Shop, default_shop
from fitwright.shop.learning import Learnt

TEXT = """\
job: {name: Stand, unit: mm, client: Quay Gardens}
brief: {use: plant pots, loads: {side: 20 kg}, budget: 900}
dims: {width: 400, depth: 320, height: 450, rails: 2}
stock:
  frame: square tube 25 x 25 x 2
parts:
  side:
    stock: frame
    outside: [[0, 0, 0], [0, 0, height], [width, 0, height], [width, 0, 0]]
    corners: mitred
    repeat: {y: [0, depth - frame.width]}
  rail:
    stock: frame
    path: [[frame.width / 2, frame.width, 200], [frame.width / 2, depth - frame.width, 200]]
    repeat: {x: {every: width - frame.width, count: rails}}
finish: {steel: "degrease, prime, two coats of enamel"}
"""
SHOP = default_shop("mm")


@cache
def stand() -> Assessment:
    """The stand in the metric shop."""
    return assess(parse_job(TEXT), SHOP)


def with_prices(shop: Shop, **changes: Any) -> Shop:
    """The shop with other prices."""
    return replace(shop, prices=replace(shop.prices, **changes))


def with_pricing(shop: Shop, **changes: Any) -> Shop:
    """The shop with another way from cost to price."""
    return with_prices(shop, pricing=replace(shop.prices.pricing, **changes))


def quick_judge(text: str, shop: Shop, learnt: Learnt | None) -> Figures:
    """Something like a judge that takes no time: what it says hangs on the job's width alone."""
    job = parse_job(text)
    wide = Decimal(str(job.dims["width"].value))
    if wide == 450:
        raise ZeroDivisionError("a width of 450 is not for this judge")
    return figures(net=1000 + wide, give=100 / float(wide), mass=float(wide) / 40)


def figures(
    net: Decimal | int | None = 1000, give: float | None = 0.5, mass: float = 10.0, verdict: str = "holds"
) -> Figures:
    """Figures of no job in particular."""
    price = None if net is None else Decimal(net)
    return Figures(price, price, Decimal(800), 12.0, mass, 1.0, 2.0, give, 0.97, verdict, "")


def missing(prices: Mapping[str, Any], name: str) -> dict[str, Any]:
    """The same without one."""
    return {key: value for key, value in prices.items() if key != name}
