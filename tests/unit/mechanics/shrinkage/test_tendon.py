from __future__ import annotations

import itertools
import math

import pytest

from fitwright.mechanics.shrinkage import ShrinkageError, bow_range, pull_range, tendon_force
from fitwright.mechanics.shrinkage.tendon import okerblom_force, plastic_limit
from fitwright.stock import RoundTube

TUBE = RoundTube(30.0, 2.0)


def test_without_eccentricity_the_section_bears_its_squash_load() -> None:
    assert plastic_limit(100.0, 500.0, 0.0, 250.0) == pytest.approx(25000.0)


def test_far_out_it_bears_its_plastic_moment() -> None:
    assert plastic_limit(100.0, 500.0, 1e4, 250.0) == pytest.approx(500.0 * 250.0 / 1e4, rel=1e-3)


def test_the_limit_lies_on_the_interaction_curve() -> None:
    pull = plastic_limit(176.0, 1571.0, 14.0, 250.0)
    assert pull * 14.0 / (1571.0 * 250.0) == pytest.approx(math.cos(math.pi / 2 * pull / (176.0 * 250.0)))


def test_more_heat_never_pulls_less_and_stops_at_the_limit() -> None:
    found = [pull_range(TUBE, heat, 14.0, 250.0, 200000.0) for heat in (1.0, 10.0, 50.0, 200.0, 2000.0)]
    for one, next_one in itertools.pairwise(found):
        assert one.low <= next_one.low
        assert one.likely <= next_one.likely
        assert one.high <= next_one.high
    assert found[-1].high == pytest.approx(plastic_limit(TUBE.area, TUBE.z_plastic_u, 14.0, 250.0))
    assert all(one.low <= one.likely <= one.high for one in found)


def test_the_range_says_where_it_comes_from() -> None:
    assert "tendon force" in pull_range(TUBE, 5.0, 14.0, 250.0, 200000.0).basis
    assert "capped" in pull_range(TUBE, 500.0, 14.0, 250.0, 200000.0).basis


def test_bow_goes_with_the_square_of_length() -> None:
    short = bow_range(TUBE, 100.0, 14.0, 300.0, 250.0, 200000.0)
    long = bow_range(TUBE, 100.0, 14.0, 600.0, 250.0, 200000.0)
    assert long.likely == pytest.approx(4 * short.likely)


def test_stainless_pulls_more_and_an_unknown_metal_is_refused() -> None:
    assert okerblom_force(100.0, 200000.0, "stainless") > okerblom_force(100.0, 200000.0)
    assert tendon_force(0.0) == 0.0
    with pytest.raises(ShrinkageError, match="'brass'"):
        okerblom_force(100.0, 100000.0, "brass")
