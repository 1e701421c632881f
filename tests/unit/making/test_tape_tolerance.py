"""Tolerances of check numbers from spreads of the finished piece."""

from __future__ import annotations

import math

import pytest

from fitwright.making.tape_tolerance import LEAST_MM, NINETEEN_IN_TWENTY, tape_tolerance
from fitwright.mechanics.variation import Outcome, OutcomeSpread

OUTCOMES = tuple(
    OutcomeSpread(Outcome(name, kind, nominal), spread, ())
    for name, kind, nominal, spread in (
        ("width, front bottom", "width", 800.0, 1.0),
        ("width, front top", "width", 800.0, 1.5),
        ("height, front left", "height", 1600.0, 0.5),
        ("depth, left bottom", "depth", 400.0, 0.1),
        ("diagonals, front", "diagonals", 0.0, 2.0),
    )
)


def test_a_width_takes_the_worst_spread_of_those_that_long() -> None:
    assert tape_tolerance(OUTCOMES)("width", 825.0) == pytest.approx(NINETEEN_IN_TWENTY * 1.5)


def test_what_stands_up_on_the_bench_may_be_any_side_of_the_piece() -> None:
    assert tape_tolerance(OUTCOMES)("height", 810.0) == pytest.approx(NINETEEN_IN_TWENTY * 1.5)


def test_a_diagonal_adds_its_sides_and_half_of_how_far_the_two_differ() -> None:
    """By hand: 800 by 1600, sd 1.5 and 0.5: along it (800 x 1.5, 1600 x 0.5) / 1788.9; half of 2 for the lean."""
    length = math.hypot(800, 1600)
    along = math.hypot(800 * 1.5, 1600 * 0.5) / length
    assert tape_tolerance(OUTCOMES)("diagonal", length) == pytest.approx(NINETEEN_IN_TWENTY * math.hypot(along, 1.0))


def test_never_less_than_a_tape_tells() -> None:
    assert tape_tolerance(OUTCOMES)("width", 400.0) == LEAST_MM


def test_nothing_is_made_up_for_lengths_that_the_builds_do_not_know() -> None:
    assert tape_tolerance(OUTCOMES)("width", 200.0) is None
    assert tape_tolerance(OUTCOMES)("diagonal", 500.0) is None
    assert tape_tolerance(())("width", 800.0) is None
