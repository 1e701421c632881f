"""Whether the air lets one paint, and how long paint takes to dry in it."""

from __future__ import annotations

import math

from fitwright.findings import Finding, at_least, at_most
from fitwright.making.finishing.errors import FinishError
from fitwright.making.finishing.model import Air
from fitwright.making.finishing.tables import Product, table

# Magnus form over water, Sonntag 1990; from -45 to 60 C
B, C = 17.62, 243.12
COLDEST, HOTTEST = -45.0, 60.0
AREA = "finish"


def dew_point(temperature: float, humidity: float) -> float:
    """Dew point [C] of air at a temperature [C] and a relative humidity [%].

    Raises FinishError for air outside its range. Holds from -45 to 60 C over water.
    Source: Magnus formula with the coefficients 17.62 and 243.12 C (WMO guide to instruments).

    >>> round(dew_point(20.0, 50.0), 1)
    9.3
    """
    if not COLDEST <= temperature <= HOTTEST:
        raise FinishError(f"air of {temperature:g} C is outside {COLDEST:g} to {HOTTEST:g} C")
    if not 0.0 < humidity <= 100.0:
        raise FinishError(f"a humidity of {humidity:g} % cannot be: give more than 0 and up to 100")
    g = math.log(humidity / 100.0) + B * temperature / (C + temperature)
    return C * g / (B - g)


def least_surface(temperature: float, humidity: float) -> float:
    """The coldest surface that may be painted [C]: 3 C above the dew point.

    Source: ISO 12944-7.
    """
    return dew_point(temperature, humidity) + float(table("coatings")["dew"]["above"])


def wait_at(hours: float, at: float, temperature: float) -> float:
    """Hours that a wait takes at a temperature [C], given what it takes at another: twice for every 10 C colder.

    Warmer air is not reckoned to be quicker than the data sheet. Source: common practice.

    >>> wait_at(24.0, 25.0, 15.0), wait_at(24.0, 25.0, 30.0)
    (48.0, 24.0)
    """
    return float(hours * 2.0 ** (max(at - temperature, 0.0) / table("coatings")["waits"]["doubles"]))


def air_findings(air: Air, products: tuple[Product, ...]) -> list[Finding]:
    """Whether this air lets one paint: steel above the dew point, humidity, the coldest that a product stands."""
    dew, basis = dew_point(air.temperature, air.humidity), table("coatings")["dew"]["basis"]
    limits = table("coatings")["dew"]
    found = [
        at_least(
            AREA, "steel", "above the dew point before painting", air.steel - dew, limits["above"], "C", tight=1.0,
            basis=basis, advice="warm the steel, or dry the air, and measure again",
            formula=f"{air.steel:.1f} C - dew point {dew:.1f} C at {air.temperature:g} C and {air.humidity:g} %",
        ),
        at_most(
            AREA, "air", "humidity while painting", air.humidity, limits["humidity"], "%", tight=5.0, basis=basis,
            advice="wait for dry weather, or warm the room",
        ),
    ]  # fmt: skip
    for product in products:
        found.append(
            at_least(
                AREA, product.name, "temperature while it is put on", min(air.temperature, air.steel), product.least,
                "C", tight=2.0, basis=product.basis, advice=f"warm the room to at least {product.least:g} C",
            )
        )  # fmt: skip
    return found
