from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from fitwright.making.bending import BendError, springback
from fitwright.making.bending.springback import kept_angle, rolled_radius, section_inertia, section_moment
from fitwright.stock import Angle, Flat, RoundTube, parse_stock

TUBE = parse_stock("round tube 32 x 2")
RIGHT = math.pi / 2


def test_a_prior_holds_its_command_between_its_limits() -> None:
    prior = springback(TUBE.section, TUBE.material, 100.0, RIGHT)
    assert prior.command == pytest.approx(RIGHT / prior.kept)
    assert prior.low < prior.command < prior.high
    assert prior.spread == pytest.approx((prior.high - prior.low) / 3.29)


def test_stronger_steel_springs_back_more() -> None:
    strong = replace(TUBE.material, fy=500.0)
    assert (
        springback(TUBE.section, strong, 100.0, RIGHT).command
        > springback(TUBE.section, TUBE.material, 100.0, RIGHT).command
    )


def test_what_has_no_yield_stress_needs_a_trial() -> None:
    oak = parse_stock("board 20 x 95 oak")
    with pytest.raises(BendError, match="record a trial bend"):
        springback(oak.section, oak.material, 500.0, RIGHT, np.array([0, 1.0]))


def test_an_elastic_bend_is_none() -> None:
    with pytest.raises(BendError, match="springs back straight"):
        springback(TUBE.section, TUBE.material, 60_000.0, RIGHT)


def test_nearly_elastic_says_how_little_it_knows() -> None:
    """Near the elastic limit the stronger steel of the range would not stay bent at all."""
    prior = springback(TUBE.section, TUBE.material, 8_000.0, RIGHT)
    assert prior.kept < 0.5
    assert prior.high == pytest.approx(2 * prior.command)


def test_a_section_that_is_not_round_needs_its_direction() -> None:
    with pytest.raises(BendError, match="give the direction across the bend"):
        kept_angle(parse_stock("angle 30 x 30 x 3").section, 200.0, 235, 200_000)


def test_a_flat_bent_askew_is_summed_over_its_fibres() -> None:
    """At 45 degrees a square is as stiff as straight, by Mohr's circle; its plastic modulus is a^3 sqrt(2) / 6."""
    square = Flat(10, 10)
    askew = np.array([1.0, 1.0]) / math.sqrt(2)
    assert section_inertia(square, askew) == pytest.approx(10**4 / 12, rel=1e-6)
    assert section_moment(square, 1e3, 1.0, 1.0, askew) == pytest.approx(10**3 * math.sqrt(2) / 6, rel=0.03)


def test_an_angle_bends_about_the_axis_that_halves_its_area() -> None:
    """Fully plastic about the u axis: half the area above, half below; by hand from two sharp rectangles."""
    sharp = Angle(30, 30, 3)
    area = 30 * 3 + 27 * 3
    level = area / 2 / 30  # within the flat leg, which is 30 wide
    below = 30 * level * level / 2
    above = 30 * (3 - level) ** 2 / 2 + 27 * 3 * (3 - level + 27 / 2)
    found = section_moment(sharp, 1e3, 1.0, 1.0, np.array([0.0, 1.0]))
    assert found == pytest.approx(below + above, rel=0.01)


def test_too_small_a_ring_is_refused() -> None:
    with pytest.raises(BendError, match="too small to roll"):
        rolled_radius(RoundTube(32, 2), 16.0, 235, 200_000)
