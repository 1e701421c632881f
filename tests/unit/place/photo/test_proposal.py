"""Dims from readings, worked by hand: in logarithms a proposal is a weighted mean."""

from __future__ import annotations

import math

import pytest

from fitwright.place.photo import Proportion, Reading, WishError, Wishes, propose
from fitwright.place.photo.proposal import Why

OLD = {"width": Reading(1000, 10), "depth": Reading(500, 5), "height": Reading(2000, 20)}
FINE = 1e-6


def test_a_held_dim_sets_the_size_of_all() -> None:
    new = propose(OLD, Wishes(held={"width": 800}, step=FINE))
    assert new["width"].value == 800
    assert new["depth"].value == pytest.approx(400, rel=1e-4)
    assert new["height"].value == pytest.approx(1600, rel=1e-4)
    assert new.scale == pytest.approx(0.8, rel=1e-4)
    assert [one.why for one in new.dims] == [Why.HELD, Why.PHOTO, Why.PHOTO]


def test_the_old_size_unless_something_says_another() -> None:
    assert propose(OLD, Wishes(same_size=True, step=FINE))["depth"].value == pytest.approx(500, rel=1e-6)


def test_two_held_dims_share_the_size() -> None:
    """Both 1 % readings: the scale is the mean in logarithms of 0.8 and 0.9, and the third dim follows it."""
    new = propose(OLD, Wishes(held={"width": 800, "depth": 450}, step=FINE))
    assert new["height"].value == pytest.approx(2000 * math.sqrt(0.8 * 0.9), rel=1e-4)
    assert new["width"].off == pytest.approx(0.8 / math.sqrt(0.72) - 1, rel=1e-3)


def test_a_better_reading_counts_for_more() -> None:
    """Spreads of 1 % and 3 %: weights 9 to 1."""
    old = {**OLD, "depth": Reading(500, 15)}
    new = propose(old, Wishes(held={"width": 800, "depth": 450}, step=FINE))
    assert math.log(new.scale) == pytest.approx(0.9 * math.log(0.8) + 0.1 * math.log(0.9), rel=1e-3)


def test_a_proportion_that_matters_follows_its_partner() -> None:
    """Height was to width as 2 to 1: with a heavy weight it follows the width, and the depth pulls no more."""
    wishes = Wishes(held={"width": 800, "depth": 450}, proportions=(Proportion("height", "width", 100),), step=FINE)
    assert propose(OLD, wishes)["height"].value == pytest.approx(1600, rel=1e-3)


def test_bounds_of_the_space() -> None:
    wishes = Wishes(held={"width": 800}, most={"height": 1500}, least={"depth": 450}, step=FINE)
    new = propose(OLD, wishes)
    assert new["height"].value == pytest.approx(1500)
    assert new["depth"].value == pytest.approx(450)
    assert [new["height"].why, new["depth"].why] == [Why.MOST, Why.LEAST]


def test_stock_sizes_then_the_rest_again() -> None:
    old = {"width": Reading(1000, 10), "tube": Reading(30, 3)}
    new = propose(old, Wishes(held={"width": 1000}, stock={"tube": (25.4, 28.575, 31.75, 38.1)}))
    assert (new["tube"].value, new["tube"].why) == (28.575, Why.STOCK)
    limited = Wishes(held={"width": 1000}, stock={"tube": (25.4, 28.575, 31.75, 38.1)}, least={"tube": 30})
    assert propose(old, limited)["tube"].value == 31.75


def test_shop_fractions_stay_inside_the_bounds() -> None:
    new = propose(OLD, Wishes(held={"width": 803}, step=25.4 / 16, most={"depth": 401}))
    assert (new["height"].value / 25.4 * 16) == pytest.approx(round(new["height"].value / 25.4 * 16), abs=1e-9)
    assert new["depth"].value <= 401
    assert new["depth"].value == pytest.approx(400.05)


def test_a_bound_that_no_step_meets_is_itself_the_dim() -> None:
    new = propose(OLD, Wishes(held={"width": 800}, least={"depth": 401.1}, most={"depth": 401.2}, step=1.5875))
    assert 401.1 - 1e-6 <= new["depth"].value <= 401.2 + 1e-6


@pytest.mark.parametrize(
    ("wishes", "says"),
    [
        (Wishes(held={"girth": 3}), "girth is wished for and was not measured: measured are width, depth, height"),
        (Wishes(least={"width": 9}, most={"width": 8}), "width has to be at least 9 mm and at most 8 mm"),
        (Wishes(held={"width": 5}, least={"width": 9}), "width is held at 5 mm, outside"),
        (Wishes(stock={"depth": (1, 2)}, least={"depth": 3}), "no stock size of depth lies between"),
        (Wishes(proportions=(Proportion("width", "depth", 0),)), "greater than nothing"),
        (Wishes(step=0), "greater than nothing"),
    ],
)
def test_wishes_that_cannot_be_met(wishes: Wishes, says: str) -> None:
    with pytest.raises(WishError, match=says):
        propose(OLD, wishes)


@pytest.mark.parametrize("value", [0.0, -3.0, math.nan, math.inf])
def test_readings_that_are_no_lengths(value: float) -> None:
    with pytest.raises(WishError, match="greater than nothing"):
        propose({"width": Reading(value, 1)}, Wishes())
