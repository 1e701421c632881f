"""What is varied, as one writes it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from fitwright.pricing.exploring import VaryError, read_vary
from fitwright.pricing.exploring.varying import number_of, written
from fitwright.units import Style
from tests.demos import EXAMPLES
from tests.stand import TEXT

RACK = (EXAMPLES / "drying-rack" / "job.yaml").read_text(encoding="utf-8")
MM, INCH = Style.metric(), Style.inch()


@pytest.mark.parametrize(
    ("said", "path", "values"),
    [
        ("depth=22..28:4", ("dims", "depth"), ("22", "24", "26", "28")),
        ("depth = 22 1/2 .. 24 1/2 : 5", ("dims", "depth"), ("22 1/2", "23", "23 1/2", "24", "24 1/2")),
        ("depth=22..23:4", ("dims", "depth"), ("22", "22 5/16", "22 11/16", "23")),
        ("depth=22|25 1/2", ("dims", "depth"), ("22", "25 1/2")),
        ("shelves=3..5:3", ("dims", "shelves"), ("3", "4", "5")),
        ("shelves=3..5:9", ("dims", "shelves"), ("3", "4", "5")),
        ("depth=60 cm..70 cm:3", ("dims", "depth"), ("60 cm", "65 cm", "70 cm")),
        ("depth=60..70 cm:2", ("dims", "depth"), ("60 cm", "70 cm")),
        (
            "stock.frame=round tube 1 x 16 ga|round tube 1 1/8 x 14 ga",
            ("stock", "frame"),
            ("round tube 1 x 16 ga", "round tube 1 1/8 x 14 ga"),
        ),
        ("brief.loads.shelf=20..60 lb:3", ("brief", "loads", "shelf"), ("20 lb", "40 lb", "60 lb")),
        ("parts.hoop.radius=3|4", ("parts", "hoop", "radius"), ("3", "4")),
    ],
)
def test_what_is_meant(said: str, path: tuple[str, ...], values: tuple[str, ...]) -> None:
    vary = read_vary(said, RACK, INCH)
    assert (vary.path, vary.values) == (path, values)


def test_a_range_without_a_count_is_for_a_sample() -> None:
    vary = read_vary("width=400..500", TEXT, MM)
    assert not vary.values
    assert vary.between(Fraction(1, 3)) == "433.5"
    assert read_vary("rails=1..4", TEXT, MM).between(Fraction(2, 5)) == "2"


def test_stock_with_its_grade_apart() -> None:
    text = TEXT.replace("frame: square tube 25 x 25 x 2", "frame: {section: square tube 25 x 25 x 2, grade: s235}")
    assert read_vary("stock.frame=flat 25 x 3|flat 30 x 5", text, MM).path == ("stock", "frame", "section")


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("depth", "does not say what to vary"),
        ("=3", "does not say what to vary"),
        ("dept=3|4", "did you mean depth?"),
        ("stock.fram=a|b", "did you mean frame?"),
        ("parts.hoop=3|4", "is not a single value"),
        ("depth=28..22:4", "write the smaller end first"),
        ("depth=22 in..28 cm:4", "two units"),
        ("depth=22..28:1", "2 to 1000"),
        ("depth=22..28:5000", "2 to 1000"),
        ("depth=22||28", "empty value"),
        ("depth=a..b", "cannot be read as a range"),
        ("depth=1/0..3:2", "is not a number"),
    ],
)
def test_what_cannot_be_read_says_what_can(said: str, told: str) -> None:
    with pytest.raises(VaryError) as raised:
        read_vary(said, RACK, INCH)
    assert told in str(raised.value)


def test_numbers_as_makers_write_them() -> None:
    assert [number_of(said) for said in ("22", "22.5", "1/2", "22-1/2")] == [22, 22.5, 0.5, 22.5]
    assert written(Fraction(1, 3), Fraction(1, 16), "") == "5/16"
