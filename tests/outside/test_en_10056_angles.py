"""Equal angle against EN 10056-1: area [cm2] and distance of the centroid from the heel's face [cm].

Source: two open profile tables that name the standard. Met to half a unit of the last figure printed.
"""

from __future__ import annotations

import pytest

from fitwright.stock import parse_stock

AREAS = {
    "angle 20 x 20 x 3": 1.12,  # one of the two prints 1.13, with a weight of 0.885 kg/m that says 1.127
    "angle 30 x 30 x 3": 1.74,
    "angle 30 x 30 x 4": 2.27,
    "angle 35 x 35 x 4": 2.67,
    "angle 40 x 40 x 4": 3.08,
    "angle 40 x 40 x 5": 3.79,
    "angle 45 x 45 x 4": 3.49,
    "angle 45 x 45 x 5": 4.30,
}
CENTROIDS = {
    "angle 30 x 30 x 3": 0.835,
    "angle 30 x 30 x 4": 0.878,
    "angle 40 x 40 x 4": 1.12,
}  # from memory; the tables seen print fewer figures, cut off rather than rounded


@pytest.mark.parametrize(("text", "area"), AREAS.items())
def test_area(text: str, area: float) -> None:
    assert parse_stock(text).section.area / 100 == pytest.approx(area, abs=0.005)


@pytest.mark.parametrize(("text", "centre"), CENTROIDS.items())
def test_centroid(text: str, centre: float) -> None:
    assert parse_stock(text).section.centroid[0] / 10 == pytest.approx(centre, abs=0.005)
