from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.shop.learning.sources import ErrorsRead, errors_read, spreads_learnt
from fitwright.shop.learning.spreads import spread_from
from fitwright.shop.records import Measured
from tests.unit.shop.records.samples import DAY


def test_imprecise_readings_say_less() -> None:
    exact, rough = (spread_from([0.5] * 20, [p] * 20, 0.2).value for p in (0.0, 0.5))
    assert 0.2 < rough < exact


def test_many_readings_decide() -> None:
    rng = np.random.default_rng(2)
    noise = np.hypot(0.1, 0.3)
    assert spread_from(rng.normal(0, noise, 800).tolist(), [0.3] * 800, 0.2).value == pytest.approx(0.1, abs=0.05)
    assert spread_from(rng.normal(0, 0.1, 800).tolist(), [0.0] * 800, 1.0).value == pytest.approx(0.14, abs=0.01)


def reading(of: str, got: float, unit: str = "deg") -> Measured:
    return Measured(DAY, "Rack", of, 90.0, got, unit, 0.1)


def test_a_reading_tells_of_the_errors_that_it_shows() -> None:
    read = errors_read([reading("bend 1 of hoop 1", 90.4), reading("bend 2 of hoop 1", 89.5),
                        reading("height of foot 2", 91.0, "mm"), reading("bend 1 of hoop 2", 90.0, "mm")])  # fmt: skip
    (bends,) = read
    assert bends.names == ("bend_angle_setup", "bend_angle")
    assert bends.off == pytest.approx((math.radians(0.4), math.radians(-0.5)))


def test_errors_read_together_keep_their_proportion() -> None:
    usual = {"bend_angle_setup": 0.004, "bend_angle": 0.003}
    found = spreads_learnt([ErrorsRead(("bend_angle_setup", "bend_angle"), (0.01, -0.012, 0.009), (0.0,) * 3)], usual)
    assert found["bend_angle_setup"].value / found["bend_angle"].value == pytest.approx(4 / 3)
    assert found["bend_angle"].value > 0.003
    together = math.hypot(found["bend_angle"].value, found["bend_angle_setup"].value)
    assert together == pytest.approx(spread_from((0.01, -0.012, 0.009), (0.0,) * 3, 0.005).value)
