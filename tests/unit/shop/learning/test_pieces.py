from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.shop.learning.errors import LearningError
from fitwright.shop.learning.pieces import TrialPiece, offset_of, take_up_of, taken_up
from fitwright.shop.learning.pieces import offset as offset_in

R = 100.0


def piece(
    take_up: float, offset: float, angle: float = math.pi / 2, noise: tuple[float, ...] = (0, 0, 0)
) -> TrialPiece:
    """A piece bent with this take-up and offset: start leg 250 mm to the corner."""
    tangent = 250.0 - R * math.tan(angle / 2)
    blank = 620.0
    end = blank - tangent - take_up * R * angle + R * math.tan(angle / 2)
    return TrialPiece(R, angle, blank + noise[0], 250.0 + noise[1], end + noise[2], tangent + offset)


def test_a_measured_piece_gives_back_what_it_was_made_with() -> None:
    """By hand: legs of 250 and 313.16 to the corner from a blank of 520: 520 - 563.16 + 200 = 156.84."""
    one = TrialPiece(R, math.pi / 2, 520.0, 250.0, 313.16)
    assert taken_up(one) == pytest.approx(156.84)
    assert taken_up(piece(0.97, -4.0)) == pytest.approx(0.97 * R * math.pi / 2)
    assert offset_in(piece(0.97, -4.0)) == pytest.approx(-4.0)
    assert taken_up(piece(1.02, 3.0, angle=math.radians(35))) == pytest.approx(1.02 * R * math.radians(35))


def test_one_piece_nearly_decides_and_more_are_surer() -> None:
    one, many = take_up_of([piece(0.96, -4.0)]), take_up_of([piece(0.96, -4.0)] * 6)
    assert one is not None
    assert many is not None
    assert one.value == pytest.approx(0.96, abs=0.004)
    assert many.value == pytest.approx(0.96, abs=0.001)
    assert many.high - many.low < 0.6 * (one.high - one.low)
    off = offset_of([piece(0.96, -4.0)] * 6)
    assert off is not None
    assert off.value == pytest.approx(-4.0, abs=0.1)
    assert (one.count, many.count, off.count) == (1, 6, 6)


def test_the_interval_covers() -> None:
    """Tape readings of half a millimetre each; the 90 % interval of the take-up holds the true one in 90 ± 3 %."""
    rng = np.random.default_rng(3)
    inside, shops = 0, 1200
    for _ in range(shops):
        true = float(rng.normal(1.0, 0.03))
        some = [
            piece(true, 0.0, math.radians(float(rng.uniform(45, 120))), tuple(rng.normal(0, 0.55, 3))) for _ in range(3)
        ]
        found = take_up_of(some)
        assert found is not None
        inside += found.low <= true <= found.high
    assert inside / shops == pytest.approx(0.9, abs=0.03)


def test_what_was_not_measured_is_not_learnt() -> None:
    assert take_up_of([TrialPiece(R, 1.5)]) is None
    assert offset_of([TrialPiece(R, 1.5, 600.0, 250.0, 300.0)]) is None
    with pytest.raises(LearningError, match="no corner to measure to"):
        taken_up(TrialPiece(R, math.radians(170), 600.0, 250.0, 300.0))
