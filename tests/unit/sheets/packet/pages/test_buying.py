from __future__ import annotations

from decimal import Decimal

from fitwright.pricing import Bought
from fitwright.sheets.packet.pages.buying import buying_page, hardware_page
from tests.unit.sheets.packet.jobs import of_text, plain, stand


def test_the_total_is_the_sum_of_the_lines() -> None:
    assessment = stand()
    page = buying_page(assessment)
    assert page is not None
    listed = page.content["tables"][0]
    assert Decimal(listed["total"]["value"]) == sum(Decimal(row[4]) for row in listed["rows"])
    assert Decimal(listed["total"]["value"]) == sum(
        (row.price or Decimal(0)) * row.quantity for row in assessment.buying
    )


def test_what_has_no_price_is_asked_for_and_said() -> None:
    assessment = plain()
    assessment.__dict__["buying"] = (
        Bought("tube", "20'", 2, Decimal("31.50"), "listed"),
        Bought("odd thing", "", 1, None, "no price given"),
    )
    page = buying_page(assessment)
    assert page is not None
    listed = page.content["tables"][0]
    assert listed["rows"] == [
        [["tube", "listed"], "20'", "2", "31.50", "63.00"],
        [["odd thing", "no price given"], "", "1", "", "ask"],
    ]
    assert listed["total"]["value"] == "63.00"
    assert listed["notes"] == ["1 without a price: not in the total."]


def test_nothing_to_buy_is_no_page() -> None:
    assessment = plain()
    assessment.__dict__.update(buying=(), cutting_plans={})
    assert buying_page(assessment) is None


def test_offcuts_that_are_used_up_are_taken_from_the_rack() -> None:
    # the shipped inch shop has offcuts of 1 1/8 x 14 ga tube of 31 and 44 1/2 in
    text = """
job: {name: Rail, unit: inch}
stock: {tube: round tube 1 1/8 x 14 ga}
parts: {rail: {stock: tube, path: [[0, 0, 0], [40, 0, 0]], ends: free}}
"""
    page = buying_page(of_text(text))
    taken = None if page is None else page.content["tables"][0]["rows"]
    assert taken == [["round tube 1 1/8 x 14 ga, offcut", '44 1/2"', "1"]]


def test_hardware_is_counted_and_described() -> None:
    page = hardware_page(stand())
    assert page is not None
    (row,) = page.content["tables"][0]["rows"]
    assert row[1:4] == [["swivel caster", "caster"], "4", "0.300 kg"]
    assert "wheel 50.0 mm" in row[4]
    assert "rated 392 N" in row[4]  # 40 kg as a weight
    assert "swivel" in row[4]


def test_no_hardware_is_no_page() -> None:
    assert hardware_page(plain()) is None
