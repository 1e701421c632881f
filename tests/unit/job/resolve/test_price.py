"""The price section of a job file."""

from __future__ import annotations

from decimal import Decimal

import pytest

from fitwright.job import JobFileError, parse_job
from fitwright.job.price import Extra, PriceSpec
from tests.stand import TEXT


def test_without_it_the_shops_ways_hold() -> None:
    assert parse_job(TEXT).price == PriceSpec()


def test_all_of_it() -> None:
    said = (
        "price: {distance: 9 miles, margin: 25 %, extras: [{what: a van for a day, price: 45.50}],"
        " scope: [carried up], excluded: [the old one]}\n"
    )
    price = parse_job(TEXT + said).price
    assert price.distance_km == Decimal("14.484096")
    assert price.margin == Decimal("0.25")
    assert price.extras == (Extra("a van for a day", Decimal("45.50")),)
    assert (price.scope, price.excluded) == (("carried up",), ("the old one",))


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ("{distance: far}", "is not a distance: write 14 km or 9 miles"),
        ("{distance: 30000 km}", "farther than any way"),
        ("{margin: 99 %}", "leaves nothing for the cost"),
        ("{extras: [{what: van}]}", "price"),
        ("{profit: 3}", "profit"),
    ],
)
def test_mistakes_are_told(wrong: str, said: str) -> None:
    with pytest.raises(JobFileError) as raised:
        parse_job(f"{TEXT}price: {wrong}\n")
    assert said in str(raised.value)
