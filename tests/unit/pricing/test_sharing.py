"""A sum shared out in coins."""

from __future__ import annotations

from decimal import Decimal

import pytest

from fitwright.pricing.errors import PricingError
from fitwright.pricing.sharing import shared

CENT = Decimal("0.01")


def test_what_is_left_over_goes_to_the_largest_remainder() -> None:
    """By hand: 100 over 1:2:3 is 16.67, 33.33, 50.00; the first has the largest remainder."""
    told = shared(Decimal("100.00"), [Decimal(1), Decimal(2), Decimal(3)], CENT)
    assert told == (Decimal("16.67"), Decimal("33.33"), Decimal("50.00"))


def test_nothing_for_no_weight() -> None:
    assert shared(Decimal("5.00"), [Decimal(0), Decimal(3)], CENT) == (Decimal(0), Decimal("5.00"))


@pytest.mark.parametrize("weights", [[], [Decimal(0)], [Decimal(-1), Decimal(3)]])
def test_weights_that_say_nothing(weights: list[Decimal]) -> None:
    with pytest.raises(PricingError, match="weights"):
        shared(Decimal(1), weights or [Decimal(0)], CENT)


def test_a_total_between_two_coins() -> None:
    with pytest.raises(PricingError, match="round it first"):
        shared(Decimal("1.005"), [Decimal(1)], CENT)
