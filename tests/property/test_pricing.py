"""The quote is the sum of its lines, whatever the amounts; rounding loses nothing; what is kept is beaten by none."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from fitwright.pricing import price_at
from fitwright.pricing.exploring.front import front_of
from fitwright.pricing.exploring.varying import number_of, written
from fitwright.pricing.hours import Part, Spread, shares, together
from fitwright.pricing.quoting import client_lines
from fitwright.pricing.sharing import shared
from fitwright.shop.pricing import ROUNDINGS
from tests.stand import SHOP, stand, with_pricing

money = st.decimals(min_value=0, max_value=10**6, places=2)
fractions = st.decimals(min_value=0, max_value=Decimal("0.9"), places=3)
quick = settings(max_examples=60, deadline=None)
coins = st.sampled_from([Decimal("0.01"), Decimal("0.05"), Decimal(1)])


@quick
@given(total=money, weights=st.lists(money, min_size=1, max_size=12), coin=coins)
def test_shares_add_up_and_are_fair(total: Decimal, weights: list[Decimal], coin: Decimal) -> None:
    total = (total / coin).to_integral_value() * coin
    if sum(weights) == 0:
        weights[0] = Decimal(1)
    told = shared(total, weights, coin)
    assert sum(told) == total
    whole = sum(weights, Decimal(0))
    for share, weight in zip(told, weights, strict=True):
        assert abs(share - total * weight / whole) < coin


@quick
@given(
    margin=fractions, overhead=fractions, coin=coins, step=st.sampled_from([Decimal("0.01"), Decimal(1), Decimal(5)]),
    tax=fractions, deposit=fractions, rounding=st.sampled_from(sorted(ROUNDINGS)),
)  # fmt: skip
def test_a_quote_is_the_sum_of_its_lines(
    margin: Decimal, overhead: Decimal, coin: Decimal, step: Decimal, tax: Decimal, deposit: Decimal, rounding: str
) -> None:
    pricing = with_pricing(
        SHOP, overhead=overhead, smallest=coin, price_step=step, tax=tax, deposit=deposit, rounding=rounding
    ).prices.pricing
    cost = stand().cost
    price = price_at(cost.total, margin, pricing)
    lines = client_lines(cost, price, pricing)
    assert sum(amount for _, amount in lines) == price.net
    assert price.net + price.tax == price.total == price.deposit + price.balance
    assert price.net * (1 - margin) >= cost.total
    assert price.net - step < cost.total / (1 - margin)


@quick
@given(cost=money, low=fractions, high=fractions)
def test_a_larger_margin_never_makes_a_smaller_price(cost: Decimal, low: Decimal, high: Decimal) -> None:
    low, high = sorted((low, high))
    pricing = SHOP.prices.pricing
    assert price_at(cost, low, pricing).net <= price_at(cost, high, pricing).net


@quick
@given(amount=st.decimals(min_value=-(10**6), max_value=10**6, places=4), coin=coins)
def test_rounding_is_off_by_half_a_coin_at_most(amount: Decimal, coin: Decimal) -> None:
    for rounding in ROUNDINGS:
        pricing = with_pricing(SHOP, smallest=coin, rounding=rounding).prices.pricing
        assert abs(pricing.coins(amount) - amount) <= coin / 2
        assert pricing.coins(pricing.coins(amount)) == pricing.coins(amount)


OF_KIND = {"saw": 0.0, "weld": 0.1, "paint": 0.25}
parts = st.lists(
    st.builds(
        lambda mean, kind, own: Part(mean, kind, own, OF_KIND[kind]),
        st.floats(0.01, 100),
        st.sampled_from(sorted(OF_KIND)),
        st.floats(0, 1),
    ),
    min_size=1,
    max_size=8,
)


@quick
@given(steps=parts, common=st.floats(0, 0.5))
def test_shares_of_what_is_unsure_add_up(steps: list[Part], common: float) -> None:
    spread = together(steps, common)
    assert spread.mean > 0
    if spread.deviation > 1e-6:
        assert abs(sum(shares(steps, common)) - 1) < 1e-6
        assert spread.low <= spread.quantile(0.5) <= spread.high


@quick
@given(mean=st.floats(0.1, 1e4), share=st.floats(0.001, 1.5), value=st.floats(0.01, 1e5))
def test_a_chance_is_one_and_grows_with_the_money(mean: float, share: float, value: float) -> None:
    spread = Spread(mean, mean * share)
    assert 0 <= spread.at_most(value) <= spread.at_most(value * 1.5) <= 1


points = st.lists(st.tuples(*[st.integers(0, 6)] * 3), min_size=1, max_size=40)


@quick
@given(points=points)
def test_the_front_against_the_definition(points: list[tuple[int, int, int]]) -> None:
    """Brute force, pair by pair, from the definition of dominance."""

    def beats(one: tuple[int, int, int], other: tuple[int, int, int]) -> bool:
        return all(a <= b for a, b in zip(one, other, strict=True)) and one != other

    wanted = [not any(beats(other, one) for other in points) for one in points]
    assert front_of(np.array(points, dtype=float)).tolist() == wanted
    assert any(wanted)


@quick
@given(
    value=st.fractions(min_value=0, max_value=5000, max_denominator=64),
    step=st.sampled_from([Fraction(1, 16), Fraction(1, 64), Fraction(1, 2), Fraction(1, 10), Fraction(1)]),
)
def test_a_value_is_written_as_it_is_read(value: Fraction, step: Fraction) -> None:
    assert number_of(written(value, step, "")) == round(value / step) * step
