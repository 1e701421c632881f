"""Rates of the steps by the shop's recorded hours."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from fitwright.making.plan.rates import Rate, rates_with
from fitwright.shop.learning import HoursFactor


def recorded_rates(factors: Mapping[str, HoursFactor], own: Mapping[str, Rate] | None = None) -> Mapping[str, Rate]:
    """The rates, each kind of step that has recorded times by as much slower or quicker as these say.

    factors: by kind of step, as `Learnt.hours` has them; kinds that there are not are passed over. own: see
    `rates_with`.

    Holds for times that stray in proportion, setting up included.
    """
    rates = rates_with(own)
    return {kind: _by(rate, factors[kind]) if kind in factors else rate for kind, rate in rates.items()}


def _by(rate: Rate, factor: HoursFactor) -> Rate:
    times = factor.factor
    basis = f"{rate.basis}; {times:.2f} times that by {factor.basis}"
    return replace(rate, start=rate.start * times, setting=rate.setting * times, each=rate.each * times, basis=basis)
