"""From a maker's words to stock, and to one label for the same stock."""

from __future__ import annotations

import pytest

from fitwright.stock import Angle, Flat, Lumber, Pipe, RectTube, RoundTube, SheetGoods, StockError, parse_stock
from fitwright.stock.spelling import corner_radius
from fitwright.units import INCH

LABELS = [
    ("round tube 1 1/8 x 14 ga", "inch", "round tube 1 1/8 x 14 ga"),
    ('Round Tube 1-1/8" × 14 gauge', "mm", "round tube 1 1/8 x 14 ga"),
    ("tube 1⅛″ x .083", "inch", "round tube 1 1/8 x 14 ga"),
    ("round tube 32 x 2 mm", "inch", "round tube 32 x 2 mm"),
    ("round tube 32 x 2", "mm", "round tube 32 x 2 mm"),
    ("round tube 3.2 x .2 cm", "mm", "round tube 32 x 2 mm"),
    ("chs 32 x 2", "mm", "round tube 32 x 2 mm"),
    ("rhs 30 x 20 x 2", "mm", "rectangular tube 30 x 20 x 2 mm"),
    ("round tube 1 x 16 ga", "inch", "round tube 1 in x 16 ga"),
    ("round tube 1 x 16 ga", "in", "round tube 1 in x 16 ga"),
    ("hss 2 x 1 x 11 ga", "inch", "hss 2 x 1 in x 11 ga"),
    ("hss 1 x 2 x 1/8", "inch", "hss 2 x 1 x 1/8"),
    ("round tube 38.1 mm x 14 ga", "inch", "round tube 38.1 mm x 14 ga"),
    ("round tube 1 1/4 x 0.1", "inch", "round tube 1 1/4 x 0.1"),
    ("tubing 1 1/2 x 1/8", "inch", "round tube 1 1/2 x 1/8"),
    ("square tube 1 1/2 x 11 ga", "inch", "square tube 1 1/2 x 11 ga"),
    ("square tube 1 1/2 x 1 1/2 x 11 ga", "inch", "square tube 1 1/2 x 11 ga"),
    ("square tube 40 x 40 x 2", "mm", "square tube 40 x 40 x 2 mm"),
    ("square tube 40 x 2", "mm", "square tube 40 x 40 x 2 mm"),
    ("tube 30 x 20 x 2", "mm", "rectangular tube 30 x 20 x 2 mm"),
    ("rect tube 1 x 2 x 14 ga", "inch", "rectangular tube 2 x 1 in x 14 ga"),
    ("hss 1 1/2 x 1 1/2 x 1/8", "inch", "hss 1 1/2 x 1 1/2 x 1/8"),
    ("hss 1.66 x .14", "inch", "hss 1.66 x 0.14 in"),
    ("pipe 1 1/4 sch 40", "mm", "pipe 1 1/4 sch 40"),
    ("pipe 1-1/4 schedule 40", "mm", "pipe 1 1/4 sch 40"),
    ("pipe dn 32 sch 40", "mm", "pipe 1 1/4 sch 40"),
    ("angle 1 1/4 x 1 1/4 x 1/8", "inch", "angle 1 1/4 x 1 1/4 x 1/8"),
    ("angle 30 x 30 x 3", "mm", "angle 30 x 30 x 3 mm"),
    ("angle iron 30 x 3", "mm", "angle 30 x 30 x 3 mm"),
    ("angle 30 x 50 x 5", "mm", "angle 50 x 30 x 5 mm"),
    ("flat 1 x 1/4", "inch", "flat 1 x 1/4"),
    ("flat 1/4 by 1", "inch", "flat 1 x 1/4"),
    ("flat bar 5 x 20", "mm", "flat 20 x 5 mm"),
    ("flat 1/2 x 1/2", "inch", "square bar 1/2"),
    ("round bar 3/8", "inch", "round bar 3/8"),
    ("rod 10", "mm", "round bar 10 mm"),
    ("square bar 1/2", "inch", "square bar 1/2"),
    ("lumber 1x4 white pine", "mm", "lumber 1x4 eastern white pine"),
    ("lumber 2 x 4", "inch", "lumber 2x4 spruce-pine-fir"),
    ("timber 5/4x6 cedar", "inch", "lumber 5/4x6 western red cedar"),
    ("board 20 x 95 oak", "mm", "board 20 x 95 mm northern red oak"),
    ("board 3/4 x 5 1/2 oak", "inch", "board 3/4 x 5 1/2 northern red oak"),
    ("board 4/4 x 6 cherry", "inch", "board 4/4 x 6 in black cherry"),
    ("plywood 3/4 birch", "inch", "plywood 3/4 birch plywood"),
    ("plywood 18", "mm", "plywood 18 mm birch plywood"),
    ("sheet 16 ga", "inch", "sheet 16 ga"),
    ("sheet .0598", "inch", "sheet 16 ga"),
    ("sheet 1.5", "mm", "sheet 1.5 mm"),
    ("sheet 16 ga stainless", "inch", "sheet 16 ga stainless 304"),
    ("sheet 16 ga galvanized", "inch", "sheet 16 ga galvanised steel"),
    ("plate 3/16", "inch", "plate 3/16"),
    ("round tube 25 x 2 aluminum", "mm", "round tube 25 x 2 mm aluminium 6061-T6"),
]


@pytest.mark.parametrize(("text", "unit", "label"), LABELS)
def test_labels(text: str, unit: str, label: str) -> None:
    assert parse_stock(text, unit=unit).label == label


@pytest.mark.parametrize("unit", ["inch", "mm", "cm"])
@pytest.mark.parametrize(("text", "first_unit", "label"), LABELS)
def test_a_label_reads_the_same_in_any_job(text: str, first_unit: str, label: str, unit: str) -> None:
    first, again = parse_stock(text, unit=first_unit), parse_stock(label, unit=unit)
    assert again.label == label
    assert again.material == first.material
    assert type(again.section) is type(first.section)
    assert again.section.dimensions == pytest.approx(first.section.dimensions, abs=0.02)


def test_sections() -> None:
    tube = parse_stock("round tube 1 1/8 x 14 ga", unit="inch").section
    assert tube == RoundTube(28.575, 0.083 * INCH)
    assert isinstance(parse_stock("pipe 1 sch 40").section, Pipe)
    square = parse_stock("square tube 40 x 40 x 2").section
    assert square == RectTube(40.0, 40.0, 2.0, 4.0)
    hss = parse_stock("hss 2 x 2 x 1/8 in").section
    assert isinstance(hss, RectTube)
    assert hss.design_wall == pytest.approx(0.116 * INCH)
    assert hss.outer_radius == pytest.approx(0.25 * INCH)
    assert hss.strength_radius == pytest.approx(0.232 * INCH)
    assert parse_stock("angle 30 x 30 x 3").section == Angle(30.0, 30.0, 3.0, 5.0, 2.5)
    assert parse_stock("flat 20 x 5").section == Flat(20.0, 5.0)
    assert parse_stock("lumber 2x4").section == Lumber(88.9, 38.1, "2x4")
    assert parse_stock("board 4/4 x 6 in oak").section == Lumber(152.4, 20.6375, "4/4")
    assert parse_stock("plywood 3/4 in").section == SheetGoods(18.25625, "plywood", "3/4")
    assert parse_stock("sheet 16 ga stainless").section.dimensions["thickness"] == pytest.approx(INCH / 16)


def test_key_and_grade() -> None:
    stock = parse_stock("round tube 32 x 2", key="frame", grade="stainless 316")
    assert (stock.key, stock.material.name) == ("frame", "stainless 316")
    assert parse_stock("round tube 32 x 2 stainless 304", grade="stainless 316").material.name == "stainless 304"
    assert parse_stock("round tube 32 x 2", grade="mild steel").label == "round tube 32 x 2 mm"
    assert (
        parse_stock("round tube 1 x 14 ga", grade="A36", unit="inch").label == "round tube 1 in x 14 ga mild steel A36"
    )
    assert parse_stock("pipe 1 sch 40 stainless").label == "pipe 1 sch 40 stainless 304"


def test_usual_grades() -> None:
    usual = {
        "round tube 1 1/8 x 14 ga": "mild steel A513",
        "round tube 32 x 2 mm": "mild steel S235",
        "hss 2 x 2 x 1/8": "mild steel A500",
        "pipe 1 sch 40": "mild steel A53",
        "angle 1 1/4 x 1/8": "mild steel A36",
        "sheet 16 ga": "sheet steel A1011",
        "board 20 x 95 mm": "eastern white pine",
    }
    assert {text: parse_stock(text).material.name for text in usual} == usual


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("rund tube 32 x 2", "did you mean 'round tube'"),
        ("angel 30 x 30 x 3", "did you mean 'angle'"),
        ("", "write it as in"),
        ("32 x 2", "does not start with a shape"),
        ("round tube", "has 0 sizes and round tube needs 2"),
        ("round tube 32", "has 1 sizes"),
        ("round tube 32 x 20", "has to be less than 16"),
        ("square tube 32 x 16", "for a gauge ga"),
        ("pipe dn 33 sch 40", "nominal pipe size"),
        ("board 20", "has 1 sizes"),
        ("hss 32", "has 1 sizes"),
        ("lumber 4", "nominal thickness and width"),
        ("round tube 1 x 14 ga", "has to be less than"),
        ("round tube 32 x 99 ga", "gauge table"),
        ("round tube 32 x 1.5 ga", "whole one|whole number"),
        ("round tube 14 ga x 2", "not a size across"),
        ("round tube 32 x 2 stainles", "did you mean 'stainless'"),
        ("round tube 32 x 2 oak", "is not a material"),
        ("square tube 40 x 30 x 2", "is not square"),
        ("pipe 1 1/4", "pipe 1 1/4 sch 40"),
        ("pipe 1 1/4 sch 41", "no schedule '41'"),
        ("lumber 1x4 pein", "did you mean 'pine'"),
        ("lumber 1x13", "for actual sizes write board"),
        ("lumber 1/0 x 4", "not a nominal lumber size"),
        ("flat 1/0 x 20", "divides by zero"),
        ("round tube 32000 x 2", "check its unit"),
        ("round tube 0 x 0", "more than 0"),
        ("x" * 500, "write it as in"),
    ],
)
def test_what_is_not_stock_says_what_is(text: str, says: str) -> None:
    with pytest.raises(StockError, match=says):
        parse_stock(text)


def test_other_things_are_not_stock() -> None:
    with pytest.raises(StockError):
        parse_stock(None)  # type: ignore[arg-type]


def test_corner_radii_where_none_is_stated() -> None:
    assert corner_radius(2.0, metric=True) == 4.0
    assert corner_radius(8.0, metric=True) == 20.0
    assert corner_radius(0.083 * INCH, metric=False) == pytest.approx((5 / 64 + 1 / 8) / 2 * INCH)
    assert corner_radius(0.5 * INCH, metric=False) == pytest.approx(1.5 * INCH)
