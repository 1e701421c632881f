from __future__ import annotations

import pytest

from fitwright.checks.heavier import heavier
from fitwright.stock import parse_stock


@pytest.mark.parametrize(
    ("text", "first"),
    [
        ("round tube 1 1/8 x 16 ga", "round tube 1 1/8 x 14 ga"),
        ("round tube 32 x 2", "round tube 32 x 2.5 mm"),
        ("square tube 1 1/2 x 16 ga", "square tube 1 1/2 x 14 ga"),
        ("square tube 40 x 40 x 2", "square tube 40 x 40 x 2.5 mm"),
        ("rectangular tube 40 x 30 x 2", "rectangular tube 40 x 30 x 2.5 mm"),
        ("angle 1 1/4 x 1 1/4 x 1/8", "angle 1 1/4 x 1 1/4 x 3/16"),
        ("angle 30 x 30 x 3", "angle 30 x 30 x 4 mm"),
        ("flat 1 x 1/4", "flat 1 x 5/16"),
        ("pipe 1 1/4 sch 40", "pipe 1 1/4 sch 80"),
        ("round bar 3/8", "round bar 7/16"),
        ("square tube 40 x 40 x 2 aluminium 6061", "square tube 40 x 40 x 2.5 mm aluminium 6061-T6"),
    ],
)
def test_the_next_heavier(text: str, first: str) -> None:
    stock = parse_stock(text, key="part")
    more = heavier(stock)
    assert more[0].label == first
    assert {change.key for change in more} == {"part"}
    assert {change.material.name for change in more} == {stock.material.name}
    assert all(change.section.area > stock.section.area for change in more)


def test_walls_come_before_sizes() -> None:
    labels = [more.label for more in heavier(parse_stock("round tube 1 1/8 x 16 ga"))]
    assert labels[:4] == [f"round tube 1 1/8 x {wall} ga" for wall in (14, 13, 12, 11)]
    assert labels[4] == "round tube 1 1/4 x 16 ga"


def test_lumber_has_no_next() -> None:
    assert heavier(parse_stock("lumber 1x4 white pine")) == ()
