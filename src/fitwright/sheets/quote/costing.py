"""The shop's own sheet: cost by kind and step, price at three margins, what dominates, alternatives."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from fitwright.assess import Assessment
from fitwright.pricing import Cost, Kind, Price, Weight, price_at
from fitwright.pricing.dominating import by_kind, by_step
from fitwright.pricing.exploring.trying import Tried
from fitwright.sheets.drawing import Paper
from fitwright.sheets.packet.model import Head, Json, Page
from fitwright.sheets.packet.tables import ColumnTold, table
from fitwright.sheets.quote.client import money, share
from fitwright.sheets.quote.weighing import tried_rows
from fitwright.sheets.wording import percent

TITLE = "What it costs"
MOST_WEIGHTS = 8
EARNED = "earned: what is left when cost and overhead are paid; an hour: that, for each hour worked."
HANGS = "a tenth more: what the price would be more by; unsure: its part of what the hours leave open."


def head_of_cost(assessment: Assessment, paper: Paper, made_on: date) -> Head:
    """What stands at the foot."""
    job = assessment.job
    return Head(
        title=f"{TITLE}: {job.name}",
        job=f"{job.name}: what it costs, for the shop only",
        said=f"amounts in {assessment.cost.currency}; prices and rates from the shop file",
        made=made_on.isoformat(),
        paper="us-letter" if paper.name == "Letter" else "a4",
    )


def cost_page(assessment: Assessment, price: Price, tried: Sequence[Tried] = ()) -> Page:
    """The sheet; tried: alternatives, where they have been worked out."""
    cost, pricing = assessment.cost, assessment.shop.prices.pricing
    steps = by_step(cost, price.margin, pricing)
    content: Json = {
        "private": "for the shop only",
        "said": said_of(cost, price),
        "margins": _margins(assessment, price),
        "kinds": _kinds(cost),
        "weights": _weights(
            sorted([*by_kind(cost, price.margin, pricing), *steps], key=lambda one: -one.amount)[:MOST_WEIGHTS]
        ),
        "steps": _steps(cost, steps),
        "lines": _lines(cost),
        "missing": _missing(cost) if cost.missing else None,
        "alternatives": _alternatives(tried, assessment) if tried else None,
    }
    return Page("costing", f"{TITLE}: {assessment.job.name}", content)


def said_of(cost: Cost, price: Price) -> list[str]:
    """Price and hours in words."""
    hours = cost.hours
    return [
        f"Cost {money(cost.total)}, price {money(price.net)} before tax, {money(price.total)} with it.",
        f"{hours.mean:.1f} h of work in all; eight times in ten between {hours.low:.1f} and {hours.high:.1f} h. "
        f"The price covers the cost {percent(cost.covered_by(price.net))} of the time.",
    ]


def _margins(assessment: Assessment, own: Price) -> Json:
    cost, pricing = assessment.cost, assessment.shop.prices.pricing
    asked = sorted({*pricing.margins, own.margin})
    columns: list[ColumnTold] = [
        ("margin", "text", 1.2), ("price before tax", "money", 1), ("with tax", "money", 1),
        ("earned", "money", 1), ("an hour", "money", 1), ("covers the cost", "number", 1),
    ]  # fmt: skip
    rows = [_margin(price_at(cost.total, margin, pricing), cost, own) for margin in asked]
    return table(columns, rows, title="Price at other margins", notes=[EARNED])


def _margin(price: Price, cost: Cost, own: Price) -> tuple[str, ...]:
    hourly = money(price.earned / Decimal(str(round(cost.hours.mean, 4)))) if cost.hours.mean else ""
    told = f"{share(price.margin)}{', this price' if price.margin == own.margin else ''}"
    amounts = (money(price.net), money(price.total), money(price.earned))
    return (told, *amounts, hourly, percent(cost.covered_by(price.net)))


def _kinds(cost: Cost) -> Json:
    columns: list[ColumnTold] = [("kind", "text", 1), ("cost", "money", None), ("share", "number", None)]
    total = cost.total
    rows = [(str(kind), money(sum_), _share(sum_, total)) for kind, sum_ in cost.by_kind.items()]
    return table(columns, rows, title="By kind", total={"label": f"cost {cost.currency}", "value": money(total)})


def _share(part: Decimal, whole: Decimal) -> str:
    return f"{100 * part / whole:.1f} %" if whole else ""


def _weights(weights: Sequence[Weight]) -> Json:
    columns: list[ColumnTold] = [
        ("what", "text", 3), ("cost", "money", None), ("share", "number", None),
        ("a tenth more", "money", None), ("unsure", "number", None),
    ]  # fmt: skip
    rows = [
        (one.what, money(one.amount), f"{one.share:.1%}", f"+{money(one.tenth)}", f"{one.unsure:.0%}")
        for one in weights
    ]
    return table(columns, rows, title="What it hangs on", notes=[HANGS])


def _steps(cost: Cost, steps: Sequence[Weight]) -> Json:
    columns: list[ColumnTold] = [("step", "text", 4), ("hours and machine", "money", None), ("share", "number", None)]
    ordered = sorted(steps, key=lambda one: int(one.what.split(" ", 1)[0]))
    rows = [(one.what, money(one.amount), f"{one.share:.1%}") for one in ordered]
    total = sum((one.amount for one in steps), Decimal(0))
    return table(
        columns, rows, title="By step", total={"label": f"hours and machines {cost.currency}", "value": money(total)}
    )


def _lines(cost: Cost) -> Json:
    columns: list[ColumnTold] = [
        ("what, and the basis of its price", "text", 4), ("quantity", "text", 1.6), ("cost", "money", None),
    ]  # fmt: skip
    rows = [
        ((line.what, line.basis) if line.basis else line.what, line.quantity, money(line.amount))
        for line in cost.lines
        if line.kind not in (Kind.HOURS, Kind.MACHINES)
    ]
    return table(columns, rows, title="Everything that is not a step")


def _missing(cost: Cost) -> Json:
    columns: list[ColumnTold] = [("not known", "text", 2), ("where it belongs", "text", 3)]
    rows = [(one.what, one.where) for one in cost.missing]
    return table(columns, rows, title="Prices that are missing: not in any sum below")


def _alternatives(tried: Sequence[Tried], assessment: Assessment) -> Json:
    columns: list[ColumnTold] = [
        ("alternative", "text", 3), ("price before tax", "money", None), ("against this", "money", None),
        ("weight", "number", None), ("moves most", "number", None), ("worst finding", "text", 1.4),
    ]  # fmt: skip
    return table(columns, tried_rows(tried, assessment.job.style), title="Alternatives, each worked out whole")
