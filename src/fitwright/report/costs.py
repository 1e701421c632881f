"""Cost, price and alternatives as plain JSON; money as texts, so that no coin is lost."""

from __future__ import annotations

from decimal import Decimal

from fitwright.assess import Assessment
from fitwright.pricing import Cost, Price, Spread
from fitwright.pricing.dominating import by_kind, by_step
from fitwright.pricing.exploring.trying import Tried
from fitwright.report.figures import Json, number


def costs(assessment: Assessment, price: Price | None = None) -> Json:
    """The cost line by line, and the price, at the job's own margin unless another is given."""
    cost, pricing = assessment.cost, assessment.shop.prices.pricing
    asked = price or assessment.price
    return {
        "currency": cost.currency,
        "cost": str(cost.total),
        "price": _price(asked, cost),
        "hours": _spread(cost.hours),
        "labour": _spread(cost.labour),
        "by_kind": {str(kind): str(amount) for kind, amount in cost.by_kind.items()},
        "by_step": [_weight(one.what, one.amount, one.share, one.tenth, one.unsure)
                    for one in by_step(cost, asked.margin, pricing)],
        "by_weight": [_weight(one.what, one.amount, one.share, one.tenth, one.unsure)
                      for one in by_kind(cost, asked.margin, pricing)],
        "lines": [
            {
                "kind": str(line.kind),
                "group": str(line.group),
                "what": line.what,
                "quantity": line.quantity,
                "amount": str(line.amount),
                "basis": line.basis,
                "step": line.step,
            }
            for line in cost.lines
        ],
        "missing": [{"what": one.what, "where": one.where} for one in cost.missing],
        "rounding": f"{pricing.smallest} ({pricing.rounding})",
    }  # fmt: skip


def _price(price: Price, cost: Cost) -> Json:
    return {
        "margin": str(price.margin),
        "before_tax": str(price.net),
        "tax": str(price.tax),
        "total": str(price.total),
        "deposit": str(price.deposit),
        "earned": str(price.earned),
        "chance_covered": number(cost.covered_by(price.net)),
    }


def _spread(spread: Spread) -> Json:
    return {
        "mean": number(spread.mean),
        "deviation": number(spread.deviation),
        "low": number(spread.low),
        "high": number(spread.high),
    }


def _weight(what: str, amount: Decimal, share: float, tenth: Decimal, unsure: float) -> Json:
    return {
        "what": what, "amount": str(amount), "share": number(share), "a_tenth_more": str(tenth),
        "share_of_unsure": number(unsure),
    }  # fmt: skip


def tried_as_json(tried: Tried) -> Json:
    """One way of making it, with what it comes to or why it cannot be worked out."""
    figures = tried.figures
    told: Json = {
        "number": tried.point.number,
        "words": tried.point.words,
        "settings": {".".join(setting.path): setting.value for setting in tried.point.settings},
        "wrong": tried.wrong,
    }
    if figures is None:
        return {**told, "figures": None}
    return {
        **told,
        "figures": {
            "before_tax": None if figures.net is None else str(figures.net),
            "total": None if figures.total is None else str(figures.total),
            "cost": str(figures.cost),
            "hours": number(figures.hours),
            "mass_kg": number(figures.mass),
            "sag_mm": number(figures.sag),
            "sway_mm": number(figures.sway),
            "give": number(figures.give),
            "chance": number(figures.chance),
            "verdict": figures.verdict,
            "finding": figures.finding,
        },
    }
