"""A piece of stock as it is bought: a section in a material, with the words for it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from fitwright.stock.materials import Material
from fitwright.stock.mistakes import StockError
from fitwright.stock.section import Section
from fitwright.stock.sheet_goods import SheetGoods


@dataclass(frozen=True)
class Stock:
    """Stock. key: its short name in the job; label: the normalised words, the same for the same stock."""

    key: str
    section: Section
    material: Material
    label: str

    @cached_property
    def mass_per_m(self) -> float:
        """Mass of a metre [kg/m], from the nominal wall. Raises StockError for sheet goods."""
        if isinstance(self.section, SheetGoods):
            raise StockError(f"{self.label} is sold by area: ask its mass per square metre")
        return self.section.metal_area * self.material.density * 1e-6

    @cached_property
    def mass_per_m2(self) -> float:
        """Mass of a square metre [kg/m2] of sheet goods. Raises StockError for anything else."""
        if not isinstance(self.section, SheetGoods):
            raise StockError(f"{self.label} is sold by length: ask its mass per metre")
        return self.section.thickness * self.material.density * 1e-3
