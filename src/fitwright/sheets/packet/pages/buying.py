"""What to buy, and what to take from the rack of hardware."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from fitwright.assess import Assessment
from fitwright.piece.model import Mark
from fitwright.pricing import Bought
from fitwright.sheets.packet.model import Json, Page
from fitwright.sheets.packet.tables import ColumnTold, table

SHORT = 9  # rows that may stand under another sheet

RACK: list[ColumnTold] = [("what", "text", 5), ("size", "number", None), ("take", "number", None)]


def buying_page(assessment: Assessment) -> Page | None:
    """Bars, sheets, boards and hardware with their prices and the basis of each; what is on hand is told apart."""
    rows, rack = assessment.buying, _from_the_rack(assessment)
    tables = [_to_buy(rows, assessment.shop.currency)] if rows else []
    tables += [table(RACK, rack, title="Take from the rack")] if rack else []
    if not tables:
        return None
    return Page("listing", "Buying list", {"tables": tables}, joins=len(rows) + len(rack) <= SHORT)


def _to_buy(rows: Sequence[Bought], currency: str) -> Json:
    columns: list[ColumnTold] = [
        ("what, and where its price comes from", "text", 5), ("size", "number", None), ("buy", "number", None),
        ("each", "money", None), ("sum", "money", None),
    ]  # fmt: skip
    told = [
        (
            (row.what, row.basis) if row.basis else row.what,
            row.size,
            str(row.quantity),
            "" if row.price is None else f"{row.price:.2f}",
            "ask" if row.price is None else f"{row.price * row.quantity:.2f}",
        )
        for row in rows
    ]
    total = sum((row.price * row.quantity for row in rows if row.price is not None), Decimal(0))
    unknown = sum(row.price is None for row in rows)
    notes = [f"{unknown} without a price: not in the total."] if unknown else []
    return table(columns, told, total={"label": f"total {currency}", "value": f"{total:.2f}"}, notes=notes)


def _from_the_rack(assessment: Assessment) -> list[tuple[str, str, str]]:
    """Bars and offcuts on hand that the cutting plans use up."""
    style = assessment.job.style
    return [
        (f"{label}, {'offcut' if bar.offcut else 'bar'}", style.length(bar.length), str(count))
        for label, plan in assessment.cutting_plans.items()
        for bar, count in plan.from_hand
    ]


def hardware_page(assessment: Assessment) -> Page | None:
    """Bought things by mark, with where they go."""
    marks = [mark for mark in assessment.piece.marks if mark.kind == "hardware"]
    if not marks:
        return None
    columns: list[ColumnTold] = [
        ("mark", "mark", None), ("what", "text", 4), ("needed", "number", None), ("each weighs", "number", None),
        ("what is known of it", "text", 3), ("here", "boxes", None),
    ]  # fmt: skip
    rows = [_hardware_row(assessment, mark) for mark in marks]
    return Page("listing", "Hardware list", {"tables": [table(columns, rows)]}, joins=len(rows) <= SHORT)


def _hardware_row(assessment: Assessment, mark: Mark) -> tuple[object, ...]:
    style = assessment.job.style
    items = [item for item in assessment.piece.hardware if item.name in mark.names]
    first, count = items[0], sum(item.each for item in items)
    return (
        mark.mark,
        (first.label, first.part),
        str(count),
        style.weight(first.mass) if first.mass else "",
        "; ".join(_property(name, value, assessment) for name, value in first.properties.items() if value is not False),
        1,
    )


# properties that are loads [N], not lengths
LOADS = ("rated",)


def _property(name: str, value: float | str | bool, assessment: Assessment) -> str:
    style = assessment.job.style
    if isinstance(value, bool):
        return name
    if isinstance(value, str):
        return f"{name} {value}"
    return f"{name} {style.force(value) if name in LOADS else style.length(value)}".replace("_", " ")
