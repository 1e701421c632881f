"""How long it takes and how sure that is, against drawn numbers and by hand."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.pricing.hours import Part, Spread, shares, together

PARTS = [Part(3.0, "weld", 0.3, 0.1), Part(5.0, "weld", 0.3, 0.1), Part(4.0, "paint", 0.4), Part(2.0, "saw", 0.2)]
COMMON = 0.12


def drawn(count: int = 200_000) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    """Sums of lognormal times with the factors of step, kind and job drawn each by itself."""
    random = np.random.default_rng(7)

    def factor(deviation: float, size: int = count) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
        width = np.sqrt(np.log1p(deviation**2))
        return random.lognormal(-(width**2) / 2, width, size)

    of_kind = {"weld": factor(0.1), "paint": np.ones(count), "saw": np.ones(count)}
    times = [part.mean * factor(part.own) * of_kind[part.kind] for part in PARTS]
    return np.asarray(factor(COMMON) * np.sum(times, axis=0))


def test_mean_and_deviation_are_those_of_drawn_times() -> None:
    """A Monte Carlo of 200 000 jobs: three standard errors of a deviation are half a per cent."""
    found, sample = together(PARTS, COMMON), drawn()
    assert found.mean == pytest.approx(sample.mean(), rel=2e-3)
    assert found.deviation == pytest.approx(sample.std(), rel=1e-2)


def test_the_tenths_are_those_of_drawn_times() -> None:
    found, sample = together(PARTS, COMMON), drawn()
    assert found.low == pytest.approx(np.quantile(sample, 0.1), rel=5e-3)
    assert found.high == pytest.approx(np.quantile(sample, 0.9), rel=5e-3)
    assert found.at_most(16.0) == pytest.approx((sample <= 16.0).mean(), abs=5e-3)


def test_independent_steps_average_out_and_common_ones_do_not() -> None:
    """By hand: 100 steps of 1 h, each off by 0.5 h, are off by 5 h together; a common 10 % of them is 10 h."""
    steps = [Part(1.0, "saw", 0.5) for _ in range(100)]
    assert together(steps, 0.0).deviation == pytest.approx(5.0)
    assert together([Part(1.0, "saw", 0.0)] * 100, 0.1).deviation == pytest.approx(10.0)
    assert together([Part(1.0, "saw", 0.0, 0.1)] * 100, 0.0).deviation == pytest.approx(10.0)


def test_quantile_undoes_at_most() -> None:
    spread = Spread(20.0, 5.0)
    for share in (0.01, 0.3, 0.5, 0.9):
        assert spread.at_most(spread.quantile(share)) == pytest.approx(share)


def test_what_is_sure_is_sure() -> None:
    sure = Spread(8.0, 0.0)
    assert (sure.low, sure.high) == (8.0, 8.0)
    assert (sure.at_most(7.9), sure.at_most(8.0)) == (0.0, 1.0)
    assert shares([Part(8.0, "saw", 0.0)], 0.0) == (0.0,)


def test_shares_add_up_and_go_with_what_is_unsure() -> None:
    found = shares(PARTS, COMMON)
    assert sum(found) == pytest.approx(1.0)
    assert max(found) == found[1]
