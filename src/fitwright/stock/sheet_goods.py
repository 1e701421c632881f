"""Sheet goods: plywood, sheet and plate, known by thickness until a panel is cut from them."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.stock.mistakes import StockError, positive
from fitwright.stock.section import Points, Section


@dataclass(frozen=True)
class SheetGoods(Section):
    """Sheet of a thickness [mm]; made_of: `sheet` or `plywood`; nominal: what it is sold as, empty when as it is.

    It has no outline and no area across: asking for one raises StockError.
    """

    thickness: float
    made_of: str = "sheet"
    nominal: str = ""

    def __post_init__(self) -> None:
        positive(self.made_of, thickness=self.thickness)

    @property
    def shape(self) -> str:
        """The shape in trade words."""
        return self.made_of

    def outline(self, n: int = 72) -> Points:
        """Raises StockError: a sheet has none until it is cut."""
        raise self._no("outline")

    def fibres(self) -> Points:
        """Raises StockError: a sheet has none until it is cut."""
        raise self._no("fibres")

    def distance(self, uv: Points) -> Points:
        """Raises StockError: a sheet has none until it is cut."""
        raise self._no("distance")

    @property
    def extents(self) -> tuple[float, float, float, float]:
        """Raises StockError: a sheet has none until it is cut."""
        raise self._no("extents")

    @property
    def j(self) -> float:
        """Raises StockError: a sheet has none until it is cut."""
        raise self._no("torsion constant")

    @property
    def z_plastic_u(self) -> float:
        """Raises StockError: a sheet has none until it is cut."""
        raise self._no("plastic modulus")

    @property
    def z_plastic_v(self) -> float:
        """Raises StockError: a sheet has none until it is cut."""
        raise self._no("plastic modulus")

    @property
    def dimensions(self) -> dict[str, float]:
        """The sizes by trade word [mm]."""
        return {"thickness": self.thickness}

    def _no(self, what: str) -> StockError:
        return StockError(
            f"{self.made_of} of {self.thickness:g} mm has no {what} until it is cut: "
            f"use it for a panel, or flat for a member"
        )
