"""The lists of one job."""

from __future__ import annotations

from decimal import Decimal

from fitwright.assess import Assessment
from fitwright.findings import by_urgency
from fitwright.sheets.lists.listing import Cell, Column, Listing
from fitwright.sheets.wording import amount


def listings(assessment: Assessment) -> tuple[Listing, ...]:
    """Cut list, buying, hardware, welds and findings, in this order."""
    return (
        cut_list(assessment), buying(assessment), hardware(assessment), welds(assessment), findings(assessment)
    )  # fmt: skip


def cut_list(assessment: Assessment) -> Listing:
    """One row a stop setting."""
    style = assessment.job.style
    columns = (
        Column("stock", 34),
        Column("setting", 8),
        Column("cut length", 14),
        Column("cut_length_mm", 14),
        Column("quantity", 9),
        Column("marks", 18),
        Column("angle_start_deg", 15),
        Column("angle_finish_deg", 15),
    )
    rows = tuple(
        (
            group.stock,
            number,
            style.length(group.setting_mm),
            _figures(group.setting_mm),
            group.quantity,
            " ".join(group.marks),
            _figures(group.angle_start_deg),
            _figures(group.angle_end_deg),
        )
        for number, group in enumerate((*assessment.cut_groups, *assessment.blocks.groups), 1)
    )
    return Listing("cut-list", "Cut list", columns, rows)


def buying(assessment: Assessment) -> Listing:
    """One row a thing to buy; the sum of a row is empty where its price is not known."""
    currency = assessment.shop.currency
    columns = (
        Column("what", 38),
        Column("size", 16),
        Column("quantity", 9),
        Column(f"price each {currency}", 14, money=True),
        Column(f"sum {currency}", 14, money=True),
        Column("basis", 30),
    )
    rows = tuple(
        (row.what, row.size, row.quantity, row.price, _sum(row.price, row.quantity), row.basis)
        for row in assessment.buying
    )
    return Listing("buying", "Buying", columns, rows)


def hardware(assessment: Assessment) -> Listing:
    """One row a mark."""
    columns = (
        Column("mark", 8),
        Column("what", 50),
        Column("kind", 12),
        Column("quantity", 9),
        Column("mass_each_kg", 14),
        Column(f"price each {assessment.shop.currency}", 14, money=True),
    )
    rows = []
    for mark in assessment.piece.marks:
        if mark.kind == "hardware":
            items = [item for item in assessment.piece.hardware if item.name in mark.names]
            first, count = items[0], sum(item.each for item in items)
            rows.append((mark.mark, first.label, first.kind, count, _figures(first.mass), first.price))
    return Listing("hardware", "Hardware", columns, tuple(rows))


def welds(assessment: Assessment) -> Listing:
    """One row a weld; order: the numbers of its runs in the order proposed."""
    columns = (
        Column("weld", 7),
        Column("name", 34),
        Column("marks", 10),
        Column("kind", 9),
        Column("leg", 12),
        Column("leg_mm", 9),
        Column("length", 12),
        Column("length_mm", 11),
        Column("tacks", 7),
        Column("order", 12),
    )
    plan, style, mark_of = assessment.welding, assessment.job.style, assessment.piece.mark_of
    if plan is None:
        return Listing("welds", "Welds", columns, ())
    orders = {point.weld: ", ".join(str(order) for order in point.orders) for point in plan.map_points}
    rows: list[tuple[Cell, ...]] = [
        (
            weld.number,
            weld.name,
            f"{mark_of.get(weld.first, weld.first)} {mark_of.get(weld.second, weld.second)}",
            weld.kind.value,
            style.length(weld.leg),
            _figures(weld.leg),
            style.length(weld.length),
            _figures(weld.length),
            sum(tack.weld == weld.number for tack in plan.tacks),
            orders[weld.number],
        )
        for weld in plan.welds
    ]
    return Listing("welds", "Welds", columns, tuple(rows))


def findings(assessment: Assessment) -> Listing:
    """One row a finding, worst first; value, limit and margin are numbers in the unit told."""
    columns = (
        Column("verdict", 12),
        Column("area", 12),
        Column("subject", 20),
        Column("check", 36),
        Column("value", 14),
        Column("value_number", 12),
        Column("limit", 14),
        Column("limit_number", 12),
        Column("margin_number", 12),
        Column("unit", 8),
        Column("advice", 60),
        Column("basis", 50),
    )
    style = assessment.job.style
    rows: list[tuple[Cell, ...]] = [
        (
            found.verdict.value,
            found.area,
            found.subject,
            found.check,
            amount(found.value, found.unit, style),
            _figures(found.value),
            amount(found.limit, found.unit, style),
            _figures(found.limit),
            _figures(found.margin),
            found.unit,
            found.advice,
            found.basis,
        )
        for found in by_urgency(list(assessment.all_findings))
    ]
    return Listing("findings", "Findings", columns, tuple(rows))


def _figures(value: float | None) -> float | None:
    return None if value is None else round(float(value), 4) + 0.0


def _sum(price: Decimal | None, quantity: int) -> Decimal | None:
    return None if price is None else price * quantity
