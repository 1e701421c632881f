"""What a client might have instead."""

from __future__ import annotations

import pytest

from fitwright.job import parse_job
from fitwright.job.model import MemberSpec
from fitwright.pricing.exploring import Point, alternatives_of, changed
from fitwright.pricing.exploring.alternatives import neighbours
from fitwright.stock import parse_stock
from tests.demos import EXAMPLES, NAMES, assessed
from tests.stand import SHOP, TEXT


def of(name: str) -> dict[str, Point]:
    found = assessed(name)
    text = (EXAMPLES / name / "job.yaml").read_text(encoding="utf-8")
    return {point.words: point for point in alternatives_of(text, found.job, found.shop)}


@pytest.mark.parametrize("name", NAMES)
def test_every_alternative_of_the_demos_is_a_job_that_differs(name: str) -> None:
    text = (EXAMPLES / name / "job.yaml").read_text(encoding="utf-8")
    points = list(of(name).values())
    assert points[0].settings == ()
    texts = {changed(text, point.settings) for point in points}
    assert len(texts) == len(points) >= 4
    for one in texts:
        assert parse_job(one).parts


def test_the_racks() -> None:
    words = set(of("drying-rack"))
    assert {
        "as it is", "heavier frame: round tube 1 1/8 x 14 ga", "shelves: 3 instead of 4",
        "hardwood: all timber in white oak", "powder coated steel",
    } <= words  # fmt: skip


def test_a_heavier_tube_of_the_same_outside_first() -> None:
    listed = [
        parse_stock(f"round tube {size}", unit="inch") for size in ("1 x 16 ga", "1 1/8 x 14 ga", "1 1/4 x 16 ga")
    ]
    heavier, lighter = neighbours(parse_stock("round tube 1 1/8 x 16 ga", unit="inch"), listed)
    assert heavier is not None
    assert heavier.label == "round tube 1 1/8 x 14 ga"
    assert lighter is not None
    assert lighter.label.startswith("round tube 1 in")


def test_other_shapes_and_materials_are_no_neighbours() -> None:
    listed = [
        parse_stock("square tube 25 x 25 x 2", unit="mm"),
        parse_stock("round tube 25 x 2 stainless 304", unit="mm"),
    ]
    assert neighbours(parse_stock("round tube 25 x 1.5", unit="mm"), listed) == (None, None)


def test_one_less_only_of_what_is_counted() -> None:
    job = parse_job(TEXT)
    words = [point.words for point in alternatives_of(TEXT, job, SHOP)]
    assert "rails: 1 instead of 2" in words
    one = TEXT.replace("rails: 2", "rails: 1")
    assert not any("instead of" in point.words for point in alternatives_of(one, parse_job(one), SHOP))


def test_stock_with_its_grade_apart_stays_so() -> None:
    text = TEXT.replace("frame: square tube 25 x 25 x 2", "frame: {section: square tube 25 x 25 x 2, grade: s235}")
    points = alternatives_of(text, parse_job(text), SHOP)
    (heavier,) = [point for point in points if point.words.startswith("heavier frame")]
    part = parse_job(changed(text, heavier.settings)).parts[0]
    assert isinstance(part, MemberSpec)
    assert part.stock.label == "square tube 30 x 30 x 2 mm"
