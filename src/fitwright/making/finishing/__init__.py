"""Finishing: true areas, grinding, cleaning, coats and tins, waiting times and the dew point."""

from fitwright.making.finishing.areas import areas_of
from fitwright.making.finishing.coverage import quantity, spread, spread_us, wet_film
from fitwright.making.finishing.errors import FinishError
from fitwright.making.finishing.model import (
    Air,
    Coat,
    Consumable,
    FinishWork,
    Flush,
    Grinding,
    PartArea,
    Tins,
)
from fitwright.making.finishing.tables import Product, product, products
from fitwright.making.finishing.tinning import sold, tins_for
from fitwright.making.finishing.weather import dew_point, least_surface, wait_at
from fitwright.making.finishing.work import finish_work

__all__ = [
    "Air",
    "Coat",
    "Consumable",
    "FinishError",
    "FinishWork",
    "Flush",
    "Grinding",
    "PartArea",
    "Product",
    "Tins",
    "areas_of",
    "dew_point",
    "finish_work",
    "least_surface",
    "product",
    "products",
    "quantity",
    "sold",
    "spread",
    "spread_us",
    "tins_for",
    "wait_at",
    "wet_film",
]
