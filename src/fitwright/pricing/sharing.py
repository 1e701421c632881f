"""A sum shared out in coins, so that the shares add up to it exactly."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import ROUND_FLOOR, Decimal

from fitwright.pricing.errors import PricingError


def shared(total: Decimal, weights: Sequence[Decimal], coin: Decimal) -> tuple[Decimal, ...]:
    """A total in shares that go with the weights, each a multiple of the coin, which add up to the total.

    What is left over after rounding down goes to the largest remainders; of equals, to the first.
    Raises PricingError for weights below 0 or all 0, and for a total that is not a multiple of the coin.
    Source: the method of largest remainders (Hamilton), as in M. L. Balinski, H. P. Young, Fair Representation, 1982
    (from memory).

    >>> shared(Decimal("10.00"), [Decimal(1), Decimal(1), Decimal(1)], Decimal("0.01"))
    (Decimal('3.34'), Decimal('3.33'), Decimal('3.33'))
    """
    whole = sum(weights, Decimal(0))
    if whole <= 0 or min(weights) < 0:
        raise PricingError("shares go with weights of 0 and more, not all of them 0: leave the line out")
    coins = total / coin
    if coins != coins.to_integral_value():
        raise PricingError(f"{total} cannot be shared out in coins of {coin}: round it first")
    exact = [coins * weight / whole for weight in weights]
    down = [one.quantize(Decimal(1), ROUND_FLOOR) for one in exact]
    left = int(coins - sum(down, Decimal(0)))
    order = sorted(range(len(weights)), key=lambda k: down[k] - exact[k])
    given = set(order[:left])
    return tuple((amount + (k in given)) * coin for k, amount in enumerate(down))
