"""Springback from trials: the prior without any, the data with many, and an interval that means what it says."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import pytest

from fitwright.shop.learning import BendLaw, BendTrial, LearningError, SlopePrior
from fitwright.shop.learning.springback import BEND_NOISE, HEAT_SPREAD, ZERO_SPREAD

D = math.radians(1.0)
PRIOR = SlopePrior(0.03, 0.03)
SHOPS = 1500  # the share of 90 % is then known to 0.8 %
WITHIN = 0.03


@dataclass(frozen=True)
class SyntheticShop:
    """A shop whose springback is known."""

    zero: float
    slope: float
    sigma: float
    heats: dict[str, float]

    def trials(self, rng: np.random.Generator, count: int, heats: tuple[str, ...] = ("a",)) -> tuple[BendTrial, ...]:
        found = []
        for k in range(count):
            asked, heat = float(rng.uniform(30, 130)) * D, heats[k % len(heats)]
            found.append(BendTrial(asked, asked - self.opened(rng, asked, heat), heat))
        return tuple(found)

    def opened(self, rng: np.random.Generator, asked: float, heat: str) -> float:
        return self.zero + (self.slope + self.heats[heat]) * asked + float(rng.normal(0, self.sigma))


def shop_of(rng: np.random.Generator, slope: float) -> SyntheticShop:
    among = HEAT_SPREAD * PRIOR.slope
    variance = BEND_NOISE.weight * BEND_NOISE.deviation**2 / rng.chisquare(BEND_NOISE.weight)
    heats = {name: float(rng.normal(0, among)) for name in ("a", "b", "c", "new")}
    return SyntheticShop(float(rng.normal(0, ZERO_SPREAD)), slope, math.sqrt(variance), heats)


@pytest.mark.parametrize(("count", "heats", "asked_for"), [
    (1, ("a",), "a"), (3, ("a",), "a"), (10, ("a", "b"), "b"), (30, ("a", "b", "c"), "a"), (6, ("a", "b"), "new"),
])  # fmt: skip
def test_the_90_percent_interval_covers_90_percent(count: int, heats: tuple[str, ...], asked_for: str) -> None:
    """Shops as the prior has them; the next bend, at an angle of its own, falls in the interval in 90 ± 3 %."""
    rng = np.random.default_rng(count * 100 + len(heats))
    inside = 0
    for _ in range(SHOPS):
        shop = shop_of(rng, float(rng.normal(PRIOR.slope, PRIOR.spread)))
        law = BendLaw(shop.trials(rng, count, heats), PRIOR, asked_for)
        asked = float(rng.uniform(30, 130)) * D
        low, high = law.opening(asked).interval(0.9)
        inside += low <= shop.opened(rng, asked, asked_for) <= high
    assert inside / SHOPS == pytest.approx(0.9, abs=WITHIN)


def test_the_interval_covers_in_shops_that_are_not_as_the_prior_has_them() -> None:
    """Springback of one to three times the physics, and a straying from bend to bend of 0.15° to 0.4°; five trials."""
    rng = np.random.default_rng(11)
    inside = 0
    for _ in range(SHOPS):
        shop = SyntheticShop(float(rng.uniform(-0.7, 0.7)) * D, float(rng.uniform(0.03, 0.09)),
                             float(rng.uniform(0.15, 0.4)) * D, {"a": 0.0})  # fmt: skip
        law = BendLaw(shop.trials(rng, 5), PRIOR, "a")
        asked = float(rng.uniform(60, 120)) * D
        low, high = law.opening(asked).interval(0.9)
        inside += low <= shop.opened(rng, asked, "a") <= high
    assert inside / SHOPS == pytest.approx(0.9, abs=WITHIN)


def test_without_trials_it_is_the_physics() -> None:
    law = BendLaw((), PRIOR, "")
    assert law.opening(90 * D).mean == pytest.approx(0.03 * 90 * D)
    assert law.overbend(90 * D).command == pytest.approx(90 * D / 0.97)


def test_with_thirty_trials_it_is_the_data() -> None:
    """Within a twentieth of a degree of the least squares line through them, though physics says less than half."""
    rng = np.random.default_rng(2)
    shop = SyntheticShop(0.4 * D, 0.07, 0.2 * D, {"a": 0.0})
    trials = shop.trials(rng, 30)
    law = BendLaw(trials, PRIOR, "a")
    line = np.polyfit([one.asked for one in trials], [one.opened for one in trials], 1)
    for asked in (60 * D, 90 * D, 120 * D):
        assert law.mean_opening(asked).mean == pytest.approx(float(np.polyval(line, asked)), abs=0.05 * D)
    assert law.fit.noise == pytest.approx(0.2 * D, rel=0.35)


def test_the_overbend_gives_the_angle_wanted() -> None:
    rng = np.random.default_rng(4)
    shop = SyntheticShop(0.3 * D, 0.05, 0.2 * D, {"a": 0.0})
    law = BendLaw(shop.trials(rng, 20), PRIOR, "a")
    found = law.overbend(90 * D)
    assert found.command - law.mean_opening(found.command).mean == pytest.approx(90 * D)
    assert found.command == pytest.approx((90 + 0.3) * D / 0.95, abs=0.3 * D)
    assert found.low < found.command < found.high
    assert law.got(found.command)[0] == pytest.approx(90 * D)


def test_a_new_heat_is_less_sure_than_one_that_was_tried() -> None:
    rng = np.random.default_rng(6)
    shop = SyntheticShop(0.0, 0.05, 0.1 * D, {"a": 0.0})
    trials = shop.trials(rng, 20)
    tried, new = BendLaw(trials, PRIOR, "a").overbend(90 * D), BendLaw(trials, PRIOR, "b").overbend(90 * D)
    assert (tried.same_heat, new.same_heat) == (20, 0)
    assert new.strays > tried.strays
    assert new.command == pytest.approx(tried.command, abs=0.3 * D)


def test_trials_that_cannot_be_are_told() -> None:
    for got in (3, 32):
        trials = tuple(BendTrial(90 * D, got * D) for _ in range(20))
        with pytest.raises(LearningError, match="look for wrong ones"):
            BendLaw(trials, PRIOR, "").overbend(90 * D)
    steep = tuple(BendTrial(asked * D, 0.4 * asked * D) for asked in range(20, 120, 2))
    with pytest.raises(LearningError, match="keeps 40 % of its angle"):
        BendLaw(steep, SlopePrior(0.4, 0.4), "").overbend(90 * D)
