"""Values with their units, as the job writes them."""

from __future__ import annotations

import pytest

from fitwright.sheets.wording import amount
from fitwright.units import Style


@pytest.mark.parametrize(
    ("value", "unit", "inch", "metric"),
    [
        (25.4, "mm", '1"', "25.5 mm"),
        (44.6, "N", "10.0 lb", "44.6 N"),
        (6.895, "MPa", "1000 psi", "6.89 MPa"),
        (40.9, "USD", "40.90 USD", "40.90 USD"),
        (9.94, "deg", "9.9°", "9.9°"),
        (3.14159, "threads", "3.14 threads", "3.14 threads"),
        (None, "mm", "", ""),
    ],
)
def test_a_value_with_its_unit(value: float | None, unit: str, inch: str, metric: str) -> None:
    assert amount(value, unit, Style.inch()) == inch
    assert amount(value, unit, Style.metric()) == metric
