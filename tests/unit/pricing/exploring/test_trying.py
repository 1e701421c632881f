"""One way of making the job."""

from __future__ import annotations

from fitwright.pricing.exploring import Base, Point, Setting, changed, tried
from tests.stand import SHOP, TEXT, quick_judge

BASE = Base(TEXT, SHOP)


def point(*settings: Setting) -> Point:
    return Point(1, "one", settings)


def test_only_what_is_set_changes_in_the_file() -> None:
    new = changed(TEXT, [Setting(("dims", "width"), "500"), Setting(("stock", "frame"), "square tube 30 x 30 x 2")])
    differ = [(a, b) for a, b in zip(TEXT.splitlines(), new.splitlines(), strict=True) if a != b]
    assert [old.split(":")[0].strip() for old, _ in differ] == ["dims", "frame"]
    assert new.startswith("# A low stand") or new.splitlines()[0] == TEXT.splitlines()[0]


def test_a_point_that_cannot_be_is_kept_in_words() -> None:
    found = tried(point(Setting(("stock", "frame"), "square tube 25 x 25 x 20")), BASE, quick_judge)
    assert found.figures is None
    assert "stock.frame" in found.wrong


def test_even_what_nobody_foresaw_is_kept_in_words() -> None:
    found = tried(point(Setting(("dims", "width"), "450")), BASE, quick_judge)
    assert found.wrong == "ZeroDivisionError: a width of 450 is not for this judge"


def test_a_point_that_can_be() -> None:
    found = tried(point(Setting(("dims", "width"), "500")), BASE, quick_judge)
    assert found.figures is not None
    assert found.figures.net == 1500
