"""The shop: machines, dies, saws, bench, stock with prices, rates."""

from fitwright.shop.errors import ShopError, ShopMistake
from fitwright.shop.model import (
    Bench,
    BenchClamp,
    BenchPin,
    BenchSquare,
    BenchStop,
    Bender,
    Die,
    Saw,
    SheetSize,
    Shop,
    StockLength,
    Welding,
)
from fitwright.shop.pricing import Prices, Pricing, Terms, UnitPrice
from fitwright.shop.read import default_shop, load_shop, shipped_profile, shop_from_text

__all__ = [
    "Bench",
    "BenchClamp",
    "BenchPin",
    "BenchSquare",
    "BenchStop",
    "Bender",
    "Die",
    "Prices",
    "Pricing",
    "Saw",
    "SheetSize",
    "Shop",
    "ShopError",
    "ShopMistake",
    "StockLength",
    "Terms",
    "UnitPrice",
    "Welding",
    "default_shop",
    "load_shop",
    "shipped_profile",
    "shop_from_text",
]
