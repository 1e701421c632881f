"""Which points are tried."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.pricing.exploring import VaryError, grid, read_vary, sampled
from fitwright.pricing.exploring.points import Spread
from fitwright.units import Style
from tests.stand import TEXT

MM = Style.metric()
WIDTH, DEPTH, RAILS = (read_vary(said, TEXT, MM) for said in ("width=400..500", "depth=300..400", "rails=1|2|3"))


def test_a_grid_has_every_combination_once_and_in_order() -> None:
    points = grid([read_vary("width=400..500:3", TEXT, MM), RAILS])
    assert [point.number for point in points] == list(range(1, 10))
    assert [point.words for point in points[:4]] == [
        "width 400, rails 1", "width 400, rails 2", "width 400, rails 3", "width 450, rails 1",
    ]  # fmt: skip
    assert len({point.settings for point in points}) == 9


def test_a_grid_takes_no_range_without_a_count() -> None:
    with pytest.raises(VaryError, match="range without a count"):
        grid([WIDTH])


@pytest.mark.parametrize("spread", ["sobol", "latin"])
def test_a_sample_is_the_same_for_the_same_seed(spread: Spread) -> None:
    one, two, other = (sampled([WIDTH, DEPTH, RAILS], 40, seed, spread) for seed in (3, 3, 4))
    assert one == two
    assert one != other


@pytest.mark.parametrize("spread", ["sobol", "latin"])
def test_a_sample_is_spread_evenly(spread: Spread) -> None:
    """Each eighth of each range has its share of 64: what such sequences are made for."""
    points = sampled([WIDTH, DEPTH], 64, 1, spread)
    for at in (0, 1):
        values = np.array([float(point.settings[at].value) for point in points])
        counts, _ = np.histogram(values, bins=8, range=(values.min() - 1e-9, values.max() + 1e-9))
        assert counts.min() >= 5
        assert values.max() <= (500, 400)[at]


def test_equal_points_are_tried_once() -> None:
    points = sampled([RAILS], 50, 0)
    assert sorted(point.settings[0].value for point in points) == ["1", "2", "3"]
    assert [point.number for point in points] == [1, 2, 3]


@pytest.mark.parametrize("count", [0, 30_000])
def test_samples_that_cannot_be(count: int) -> None:
    with pytest.raises(VaryError, match="1 to 20000"):
        sampled([WIDTH], count)


def test_too_many_of_a_grid_nothing_and_twice_the_same() -> None:
    fine = [read_vary(f"{name}=1..900:200", TEXT, MM) for name in ("width", "depth")]
    with pytest.raises(VaryError, match="too many"):
        grid(fine)
    with pytest.raises(VaryError, match="nothing to vary"):
        grid([])
    with pytest.raises(VaryError, match="twice"):
        grid([RAILS, RAILS])
