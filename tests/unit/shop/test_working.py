"""The sections of a shop file about its work."""

from __future__ import annotations

import math
from datetime import date, time

import pytest

from fitwright.making.plan import usual_rates
from fitwright.mechanics.variation import spread_notes
from fitwright.shop import ShopError, default_shop, shop_from_text
from fitwright.shop.working import SPREADS, STEP_KINDS, Boards, ShopAir, StepTime, Working

HEAD = "name: a\nunit: {unit}\n"


def working(text: str, unit: str = "mm") -> Working:
    return shop_from_text(HEAD.format(unit=unit) + text, "shop.yaml").working


def test_the_words_of_the_file_are_those_of_plan_and_virtual_builds() -> None:
    assert set(STEP_KINDS) == set(usual_rates())
    assert {name: note.unit for name, note in spread_notes().items()} == SPREADS


def test_the_shipped_profiles_work_alone_eight_hours_on_five_days() -> None:
    for unit in ("inch", "mm"):
        one = default_shop(unit).working
        assert (one.people, one.hours, one.opens, one.weekdays) == (1, 8.0, time(8, 0), (0, 1, 2, 3, 4))
        assert one.air == ShopAir(20.0, 50.0)
        assert one.times == {}
        assert one.spreads == {}


def test_people_hours_and_days_off() -> None:
    one = working("work: {people: 2, hours: 6, opens: 7:30, days: [saturday, monday], off: [2027-08-02]}\n")
    assert (one.people, one.hours, one.opens, one.weekdays) == (2, 6.0, time(7, 30), (0, 5))
    assert one.off == (date(2027, 8, 2),)


def test_times_boards_air_and_spreads() -> None:
    one = working(
        "times: {bend: {each: 2.5}, set up: {setting: 30}}\nboards: {end_checks: 30, usable: {softwood: 80 %}}\n"
        "air: {temperature: 50 F, humidity: 65 %}\nspreads: {bend_angle: 0.3, saw_stop: 1/64 in}\n"
    )
    assert one.times == {"bend": StepTime(each=2.5), "set up": StepTime(setting=30)}
    assert one.boards == Boards(30.0, {"softwood": 0.8})
    assert one.air is not None
    assert one.air.temperature == pytest.approx(10.0)
    assert one.spreads == pytest.approx({"bend_angle": math.radians(0.3), "saw_stop": 25.4 / 64})


def test_a_bare_temperature_is_in_the_shops_own_scale() -> None:
    for unit, celsius in (("inch", 15.0), ("mm", 59.0)):
        if unit == "inch":
            air = working("air: {temperature: 59, humidity: 50 %}\n", unit).air
            assert air is not None
            assert air.temperature == pytest.approx(celsius)
        else:
            with pytest.raises(ShopError, match="no temperature of a shop"):
                working("air: {temperature: 59, humidity: 50 %}\n", unit)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("work: {people: 3}", "less than or equal to 2"),
        ("work: {opens: noon}", "is not a time of day"),
        ("work: {days: [mon]}", "did you mean 'monday'"),
        ("times: {bnd: {each: 1}}", "did you mean 'bend'"),
        ("times: {bend: {each: -1}}", "greater than or equal to 0"),
        ("boards: {usable: {softwood: 140 %}}", "less than or equal to 1"),
        ("air: {temperature: 20 K, humidity: 50 %}", "write 68 F or 20 C"),
        ("spreads: {sawstop: 0.2}", "did you mean 'saw_stop'"),
        ("spreads: {saw_stop: -1}", "0 or more"),
        ("spreads: {bend_angle: wide}", "bend_angle"),
    ],
)
def test_what_cannot_be_is_told_with_its_line(text: str, told: str) -> None:
    with pytest.raises(ShopError) as caught:
        working(f"{text}\n")
    assert told in str(caught.value)
    assert "line 3" in str(caught.value)
