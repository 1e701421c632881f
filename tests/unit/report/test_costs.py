"""Cost and price as JSON."""

from __future__ import annotations

import json
from decimal import Decimal

from fitwright.pricing import price_at
from fitwright.pricing.exploring import Point, Setting, Tried
from fitwright.report.costs import costs, tried_as_json
from tests.stand import SHOP, figures, stand


def test_the_lines_add_up_to_the_cost_without_a_lost_coin() -> None:
    told = json.loads(json.dumps(costs(stand())))
    assert sum(Decimal(line["amount"]) for line in told["lines"]) == Decimal(told["cost"]) == stand().cost.total
    assert Decimal(told["price"]["before_tax"]) + Decimal(told["price"]["tax"]) == Decimal(told["price"]["total"])
    assert told["rounding"] == "0.01 (half even)"


def test_at_another_margin() -> None:
    price = price_at(stand().cost.total, Decimal("0.5"), SHOP.prices.pricing)
    assert costs(stand(), price)["price"]["margin"] == "0.5"


def test_ways_of_making_it() -> None:
    point = Point(3, "wider", (Setting(("dims", "width"), "500"),))
    told = tried_as_json(Tried(point, figures()))
    assert told["settings"] == {"dims.width": "500"}
    assert told["figures"]["before_tax"] == "1000"
    assert tried_as_json(Tried(point, None, "too wide"))["wrong"] == "too wide"
