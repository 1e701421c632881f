"""The shop's ways as the trades take them."""

from __future__ import annotations

from datetime import time

from fitwright.making.plan import usual_rates
from fitwright.making.ways import end_trim, own_air, own_hours, own_rates
from fitwright.shop import Saw
from fitwright.shop.working import Boards, ShopAir, StepTime, Working


def test_own_minutes_stand_in_the_place_of_the_usual_ones() -> None:
    rates = own_rates(Working(times={"bend": StepTime(each=3.0), "saw": StepTime(start=0.0)}))
    assert set(rates) == {"bend", "saw"}
    assert (rates["bend"].each, rates["bend"].setting) == (3.0, usual_rates()["bend"].setting)
    assert rates["saw"].start == 0.0
    assert rates["bend"].basis == "set by the shop"


def test_air_and_hours() -> None:
    assert (own_air(Working()).temperature, own_air(Working()).humidity) == (20.0, 50.0)
    assert own_air(Working(air=ShopAir(12.0, 70.0))).steel == 12.0
    hours = own_hours(Working(hours=6.0, opens=time(7), weekdays=(0, 1), off=()))
    assert (hours.hours, hours.opens, hours.weekdays) == (6.0, time(7), (0, 1))


def test_end_checks_come_off_boards_only_and_never_make_the_trim_less() -> None:
    saw, checked = Saw("saw", 3.0, end_trim=10.0), Working(boards=Boards(end_checks=30.0))
    assert end_trim(saw, checked, timber=True) == 60.0
    assert end_trim(saw, checked, timber=False) == 10.0
    assert end_trim(saw, Working(), timber=True) == 10.0
