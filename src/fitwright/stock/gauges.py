"""Gauge numbers: one table for the walls of tube, others for sheet by its metal."""

from __future__ import annotations

from functools import cache

from fitwright.stock.mistakes import StockError
from fitwright.stock.tables import inch_mm, rows
from fitwright.units import INCH

SAME_MM = 0.0005 * INCH


def tube_gauge(number: int) -> float:
    """Wall [mm] of tube of a gauge number: Birmingham gauge, as tube is sold in the US trade.

    Raises StockError for a number that is not in the table.

    >>> round(tube_gauge(14) / 25.4, 3)
    0.083
    """
    return _thickness("tube", number)


def sheet_gauge(number: int, metal: str = "steel") -> float:
    """Thickness [mm] of sheet of a gauge number; each metal (steel, galvanised, stainless, aluminium) has its own.

    Raises StockError for a number or a metal that is not in the table.

    >>> round(sheet_gauge(14) / 25.4, 4)
    0.0747
    """
    return _thickness(metal, number)


def gauge_of(thickness: float, table: str) -> int | None:
    """The gauge number of a thickness [mm] in a table (tube, steel, …), None when it is none."""
    return next((number for number, mm in _table(table).items() if abs(mm - thickness) < SAME_MM), None)


def _thickness(table: str, number: int) -> float:
    known = _table(table)
    if number not in known:
        raise StockError(
            f"{number} ga is not in the {table} gauge table: {min(known)} to {max(known)} ga are, or give the thickness"
        )
    return known[number]


@cache
def _table(name: str) -> dict[int, float]:
    if name == "gauge" or name not in rows("gauges")[0]:
        raise StockError(
            f"there is no gauge table for {name!r}: tube, steel, galvanised, stainless and aluminium have one"
        )
    return {int(row["gauge"]): inch_mm(row[name]) for row in rows("gauges") if row[name]}
