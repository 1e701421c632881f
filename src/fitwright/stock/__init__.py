"""Sections and materials: properties, weights, what slides inside what."""

from fitwright.stock.angles import Angle
from fitwright.stock.bought import Stock
from fitwright.stock.gauges import sheet_gauge, tube_gauge
from fitwright.stock.materials import Material, find_material, materials, wood_density
from fitwright.stock.mistakes import StockError
from fitwright.stock.rectangles import Flat, Lumber, RectTube
from fitwright.stock.rounds import Pipe, RoundBar, RoundTube
from fitwright.stock.section import Section
from fitwright.stock.sheet_goods import SheetGoods
from fitwright.stock.sizes import dressed, pipe_size, surfaced
from fitwright.stock.sleeves import Fit, SleeveFit, fits_inside, sleeves_for
from fitwright.stock.spelling import parse_stock

__all__ = [
    "Angle",
    "Fit",
    "Flat",
    "Lumber",
    "Material",
    "Pipe",
    "RectTube",
    "RoundBar",
    "RoundTube",
    "Section",
    "SheetGoods",
    "SleeveFit",
    "Stock",
    "StockError",
    "dressed",
    "find_material",
    "fits_inside",
    "materials",
    "parse_stock",
    "pipe_size",
    "sheet_gauge",
    "sleeves_for",
    "surfaced",
    "tube_gauge",
    "wood_density",
]
