"""The error of the room."""

from __future__ import annotations

import pytest

from fitwright.errors import FitwrightError
from fitwright.stock import StockError
from fitwright.stock.mistakes import nearest, positive


def test_the_nearest_word() -> None:
    assert nearest("stainles", ["stainless", "steel"]) == ", did you mean 'stainless'?"
    assert nearest("qqq", ["stainless", "steel"]) == ";"


def test_stock_error_is_both() -> None:
    assert issubclass(StockError, FitwrightError)
    assert issubclass(StockError, ValueError)
    with pytest.raises(StockError, match="outer radius of tube is -1 mm"):
        positive("tube", outer_radius=-1.0)
