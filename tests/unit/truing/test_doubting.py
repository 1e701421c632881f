"""A reading that the shop does not explain is questioned, and the slip is named."""

from __future__ import annotations

import math

import pytest

from fitwright.job.readings import Of, Quantity, Reading
from fitwright.truing.doubting import slip_of
from fitwright.units import INCH, Style
from tests.unit.truing.samples import read

WIDTH, BEND = Of(Quantity.WIDTH), Of(Quantity.BEND, "A1", 1)


@pytest.mark.parametrize(
    ("of", "value", "expected", "style", "words"),
    [
        (WIDTH, 610.0, 600.2, Style.metric(), "10 mm (the centimetre misread): too much"),
        (WIDTH, 500.0, 600.3, Style.metric(), "100 mm (the tape held at its 100 mm mark): too little"),
        (WIDTH, 826.0, 600.6, Style.metric(), "no usual slip explains it"),
        (WIDTH, 31.6 * INCH, 30.6 * INCH, Style.inch(), "an inch"),
        (WIDTH, 31.5, 31.5 * INCH, Style.inch(), "inches were entered as millimetres"),
        (WIDTH, 6002.0, 600.2, Style.metric(), "a digit too many"),
        (WIDTH, 627.0, 672.0, Style.metric(), "two digits changed over: 672.0"),
        (BEND, math.radians(60), math.radians(120.2), Style.metric(), "the angle between the legs was entered"),
        (BEND, math.radians(9.02), math.radians(90.1), Style.metric(), "the point stands one place too far left"),
    ],
)
def test_the_likeliest_slip(of: Of, value: float, expected: float, style: Style, words: str) -> None:
    spread = math.radians(0.4) if of.angle else 0.5
    assert words in slip_of(Reading(of, value), expected, spread, style)


def test_a_slip_of_ten_millimetres_is_questioned_and_nothing_follows_from_it() -> None:
    truing = read("cut length of B1: 410").truing
    assert truing is not None
    assert [truing.taken[doubt.number].reading.of.thing for doubt in truing.doubts] == ["B1"]
    assert not truing.taken[0].believed
    assert not truing.anything
    assert not truing.touches


def test_read_twice_it_is_believed() -> None:
    drawn = read("cut length of B1: 390").truing
    assert drawn is not None
    size = drawn.taken[0].drawn
    truing = read(f"cut length of B1: {size + 10}", f"cut length of B1: {size + 10.2}").truing
    assert truing is not None
    assert not truing.doubts
    assert truing.taken[0].word == "read again since"
    assert truing.taken[1].now == pytest.approx(size + 10.2, abs=1.0)


def test_a_bend_that_is_off_as_springback_is_unknown_is_believed() -> None:
    truing = read("bend 1 of hoop 1: 91.2", "bend 2 of hoop 1: 91.1").truing
    assert truing is not None
    assert not truing.doubts
    assert math.degrees(truing.taken[0].now) == pytest.approx(91.1, abs=0.15)


def test_a_wrong_one_among_good_ones_is_found() -> None:
    good = [
        "diagonal 1 at the bottom: 695",
        "diagonal 2 at the bottom: 695.6",
        "width at the bottom of the piece: 600.4",
    ]
    good += [f"height of foot {n}: 0.{n} mm" for n in range(1, 5)]
    truing = read(*good, "width at the middle of the piece: 610").truing
    assert truing is not None
    assert [str(truing.taken[doubt.number].reading.of) for doubt in truing.doubts] == [
        "width at the middle of the piece"
    ]
    assert "10 mm" in truing.doubts[0].slip
