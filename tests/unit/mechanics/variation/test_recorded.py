from __future__ import annotations

import math
from dataclasses import asdict

import pytest

from fitwright.mechanics.variation import spreads_of_shop, usual_spreads, with_spreads
from fitwright.shop.learning import Learnt
from fitwright.shop.learning.sources import TELLS, ErrorsRead


def test_nothing_read_is_the_default() -> None:
    assert spreads_of_shop(Learnt()) == usual_spreads()


def test_readings_change_the_spreads_that_they_tell_of_and_no_others() -> None:
    off = tuple(math.radians(one) for one in (0.8, -0.7, 0.9, -1.0, 0.6, -0.8) * 5)
    found = spreads_of_shop(Learnt(read=(ErrorsRead(("bend_angle_setup", "bend_angle"), off, (0.0,) * 30),)))
    usual = usual_spreads()
    assert math.hypot(found.bend_angle, found.bend_angle_setup) == pytest.approx(math.radians(0.74), rel=0.1)
    assert found.bend_angle / found.bend_angle_setup == pytest.approx(usual.bend_angle / usual.bend_angle_setup)
    assert {k: v for k, v in asdict(found).items() if "bend_angle" not in k} == {
        k: v for k, v in asdict(usual).items() if "bend_angle" not in k
    }


def test_the_shops_own_spreads_are_what_was_known_before() -> None:
    own = with_spreads({"trim": 2.0})
    assert spreads_of_shop(Learnt(), own).trim == 2.0
    found = spreads_of_shop(Learnt(read=(ErrorsRead(("trim",), (0.1, -0.1), (0.0, 0.0)),)), own)
    assert 1.5 < found.trim < 2.0


def test_every_error_that_readings_tell_of_is_one_of_the_virtual_build() -> None:
    assert {name for _, names, _ in TELLS for name in names} <= set(asdict(usual_spreads()))
