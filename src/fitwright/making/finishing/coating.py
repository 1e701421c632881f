"""Coats: how much of each, and how long each takes to dry."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fitwright.making.finishing.coverage import quantity, spread, wet_film
from fitwright.making.finishing.model import Air, Coat, PartArea, Tins
from fitwright.making.finishing.reading import Asked
from fitwright.making.finishing.tables import Product, table
from fitwright.making.finishing.tinning import sold, tins_for
from fitwright.making.finishing.weather import wait_at
from fitwright.units import Unit

BRUSH, SPRAY = "brush", "spray"


def coats_of(areas: Sequence[PartArea], asked: Asked, metal: bool, method: str, air: Air, first: int) -> Iterator[Coat]:
    """Each coat in order, numbered from `first`.

    method: "brush" or "spray". The first coat goes on all that is bare, also where panels will stay; later coats of
    paint go on what shows then.
    """
    own = [area for area in areas if area.metal is metal]
    number = first
    for product, count in asked.coats:
        for _ in range(count):
            everywhere = product.role != "top" or (number == first)
            area = sum(one.bare if everywhere or not metal else one.shown for one in own) / 1e6
            yield _coat(number, metal, product, area, method, air)
            number += 1


def _coat(number: int, metal: bool, product: Product, area: float, method: str, air: Air) -> Coat:
    lost = loss_of(product, metal, method)
    film = product.solids is not None and product.dry is not None
    goes = spread(product.solids or 1.0, product.dry or 1.0) if film else float(product.spread or 1.0)
    waits = [wait_at(hours, product.at, air.temperature) for hours in (product.recoat, product.handle, product.hard)]
    return Coat(
        number=number,
        metal=metal,
        product=product,
        area_m2=area,
        spread=goes,
        loss=lost,
        litres=quantity(area, goes, lost),
        wet=wet_film(product.dry or 1.0, product.solids or 1.0) if film else None,
        dry=product.dry,
        recoat=waits[0],
        handle=waits[1],
        hard=waits[2],
    )


def loss_of(product: Product, metal: bool, method: str) -> float:
    """The fraction that does not end up on the work; open work of tubes and bars loses more than a board."""
    loss = table("coatings")["loss"]
    if product.role == "oil" or product.spread is not None:
        return float(loss["wiped"])
    return float(loss[method]) + (float(loss["open_work"]) if metal else 0.0)


def tins_of(coats: Sequence[Coat], unit: Unit) -> tuple[Tins, ...]:
    """What to buy of each product for all its coats together."""
    litres: dict[str, float] = {}
    for coat in coats:
        litres[coat.product.name] = litres.get(coat.product.name, 0.0) + coat.litres
    return tuple(Tins(name, need, tins_for(need, sold(unit))) for name, need in litres.items())
