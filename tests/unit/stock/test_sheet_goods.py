"""Sheets have a thickness and nothing else until they are cut."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.stock import SheetGoods, StockError


def test_thickness() -> None:
    sheet = SheetGoods(18.0, "plywood")
    assert (sheet.shape, sheet.dimensions) == ("plywood", {"thickness": 18.0})
    with pytest.raises(StockError):
        SheetGoods(0.0)


@pytest.mark.parametrize("what", ["area", "centroid", "i_u", "j", "z_plastic_u", "z_plastic_v", "extents", "s_u"])
def test_no_property_of_a_cut_section(what: str) -> None:
    with pytest.raises(StockError, match="until it is cut"):
        getattr(SheetGoods(1.5), what)


def test_no_outline_either() -> None:
    with pytest.raises(StockError):
        SheetGoods(1.5).outline()
    with pytest.raises(StockError):
        SheetGoods(1.5).distance(np.zeros(2))
