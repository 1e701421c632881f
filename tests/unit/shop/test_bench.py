"""The bench section: holes, pins, stops, squares and clamps as they are read."""

from __future__ import annotations

import pytest

from fitwright.shop import ShopError, default_shop, shop_from_text
from fitwright.units import INCH

HEAD = "name: a\nunit: inch\n"


def test_the_shipped_bench_has_what_a_set_up_needs() -> None:
    bench = default_shop("inch").bench
    assert bench.holes == (30, 18)
    assert bench.pins
    assert bench.stops
    assert bench.squares
    assert {clamp.holds for clamp in bench.clamps} == {"hole", "edge"}
    assert default_shop("mm").bench.holes == (30, 20)


def test_what_is_left_out_is_filled_in() -> None:
    text = HEAD + (
        "bench:\n  length: 48\n  width: 24\n  height: 36\n  hole pitch: 2\n  hole diameter: 3/4\n"
        "  stops:\n    - {name: flat, face: 1, width: 2, height: 2, count: 4}\n"
        "    - {name: sliding, face: 1, farthest: 3 1/2, width: 2, height: 2, count: 4}\n"
    )
    bench = shop_from_text(text, "s").bench
    assert bench.first_hole == pytest.approx((INCH, INCH))
    assert bench.corner == "front left"
    assert [stop.slides for stop in bench.stops] == [False, True]
    assert bench.stops[1].farthest == pytest.approx(3.5 * INCH)
    assert bench.pins == ()


def test_a_bench_without_a_pitch_has_no_holes() -> None:
    assert shop_from_text(HEAD + "bench: {length: 48, width: 24, height: 36}\n", "s").bench.holes == (0, 0)


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("corner: front", "front left"),
        ("pins: [{name: p, diameter: 1, height: 2, cout: 3}]", "did you mean 'count'"),
        ("pins: [{name: p, diameter: 1, height: 2, count: 0}]", "bench.pins[1].count"),
        ("clamps: [{name: c, reach: 6, opening: 6, count: 2, holds: hol}]", "did you mean 'hole'"),
        ("stops: [{name: s, face: x, width: 2, height: 2, count: 2}]", "bench.stops[1].face"),
    ],
)
def test_mistakes_are_told(line: str, told: str) -> None:
    with pytest.raises(ShopError) as wrong:
        shop_from_text(HEAD + f"bench:\n  length: 48\n  width: 24\n  height: 36\n  {line}\n", "s")
    assert told in str(wrong.value)
