"""Dew points of a printed paint chart, air in F across and humidity in % down.

Printed charts differ from the Magnus formula (17.62, 243.12 C) when hot, dry or below freezing, where a chart may show
the frost point: 2 F is allowed where one paints (40 to 90 F, 35 % and more), 3.2 F elsewhere. Rule: steel at least 3 C
(5 F) above the dew point (galvanizing manual; ISO 12944-7).
"""

from __future__ import annotations

import pytest

from fitwright.making.finishing import dew_point, least_surface

AIR_F = (20, 30, 40, 50, 60, 70, 80, 90, 100, 110, 120)
CHART = {
    90: (18, 28, 37, 47, 57, 67, 77, 87, 97, 107, 117),
    85: (17, 26, 36, 45, 55, 65, 75, 84, 95, 104, 113),
    80: (16, 25, 34, 44, 54, 63, 73, 82, 93, 102, 110),
    75: (15, 24, 33, 42, 52, 62, 71, 80, 91, 100, 108),
    70: (13, 22, 31, 40, 50, 60, 68, 78, 88, 96, 105),
    65: (12, 20, 29, 38, 47, 57, 66, 76, 85, 93, 103),
    60: (11, 19, 27, 36, 45, 55, 64, 73, 83, 92, 101),
    55: (9, 17, 25, 34, 43, 53, 61, 70, 80, 89, 98),
    50: (6, 15, 23, 31, 40, 50, 59, 67, 77, 86, 94),
    45: (4, 13, 21, 29, 37, 47, 56, 64, 73, 82, 91),
    40: (1, 11, 18, 26, 35, 43, 52, 61, 69, 78, 87),
    35: (-2, 8, 16, 23, 31, 40, 48, 57, 65, 74, 83),
    30: (-6, 4, 13, 20, 28, 36, 44, 52, 61, 69, 77),
}


def of_f(fahrenheit: float) -> float:
    return (fahrenheit - 32.0) / 1.8


def to_f(celsius: float) -> float:
    return celsius * 1.8 + 32.0


@pytest.mark.parametrize("humidity", CHART)
def test_chart(humidity: int) -> None:
    for air, printed in zip(AIR_F, CHART[humidity], strict=True):
        if printed is not None:
            allowed = 2.0 if humidity >= 35 and 40 <= air <= 90 else 3.2
            assert to_f(dew_point(of_f(air), humidity)) == pytest.approx(printed, abs=allowed), f"{air} F, {humidity} %"


def test_worked_values() -> None:
    assert to_f(dew_point(of_f(70), 65)) == pytest.approx(57.7, abs=0.05)
    assert to_f(dew_point(of_f(75), 35)) == pytest.approx(45.5, abs=0.05)


def test_steel_of_the_chart() -> None:
    """The chart's example: dew point 57 F, steel at least 62 F."""
    assert to_f(least_surface(of_f(70), 65)) == pytest.approx(62.0, abs=2.0)


def test_saturated_air() -> None:
    assert dew_point(15.0, 100.0) == pytest.approx(15.0, abs=1e-9)
