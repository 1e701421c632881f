"""Cost, price and alternatives in a terminal."""

from __future__ import annotations

import sys
from collections.abc import Sequence

from fitwright.assess import Assessment
from fitwright.pricing import Price
from fitwright.pricing.dominating import by_kind, by_step
from fitwright.pricing.exploring.front import not_beaten
from fitwright.pricing.exploring.trying import Tried
from fitwright.sheets.quote.client import money
from fitwright.sheets.quote.costing import said_of
from fitwright.sheets.quote.weighing import tried_rows
from fitwright.units import Style

MOST_STEPS = 8


def print_costs(assessment: Assessment, price: Price) -> None:
    """Print the cost by kind, the steps that cost most, what is missing, and the price."""
    from rich.console import Console

    console = Console(width=None if sys.stdout.isatty() else 160)
    cost, pricing = assessment.cost, assessment.shop.prices.pricing
    total = cost.total
    kinds = [
        (str(kind), money(amount), f"{amount / total:.1%}" if total else "") for kind, amount in cost.by_kind.items()
    ]
    console.print(_table((f"cost, {cost.currency}", "", "share"), [*kinds, ("", "", ""), ("cost", money(total), "")]))
    steps = by_step(cost, price.margin, pricing)[:MOST_STEPS]
    console.print(
        _table(
            ("steps that cost most", "", "a tenth more", "of what is unsure"),
            [(one.what, money(one.amount), f"+{money(one.tenth)}", f"{one.unsure:.0%}") for one in steps],
        )
    )
    most = by_kind(cost, price.margin, pricing)
    if most:
        console.print(f"A tenth more on {most[0].what} makes the price {money(most[0].tenth)} more.")
    for words in said_of(cost, price):
        console.print(words)
    for one in cost.missing:
        console.print(f"? not known, and in no sum: {one.what}: give {one.where}")


def print_tried(rows: Sequence[Tried], style: Style) -> None:
    """Print ways of making it; * marks those that none is cheaper, stiffer and lighter than."""
    from rich.console import Console

    console = Console(width=None if sys.stdout.isatty() else 160)
    front = not_beaten(rows)
    told = []
    for row, cells in zip(rows, tried_rows(rows, style), strict=True):
        words = cells[0] if isinstance(cells[0], str) else " (".join(str(part) for part in cells[0]) + ")"  # type: ignore[attr-defined]
        told.append(("*" if row.point.number in front else "", words, *(str(cell) for cell in cells[1:])))
    heads = ("", "way", "before tax", "against the first", "weight", "of the movement allowed", "worst finding")
    console.print(_table(heads, told))
    console.print("* nothing else is as cheap, as stiff and as light, of what holds")


def _table(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> object:
    from rich.table import Table
    from rich.text import Text

    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0))
    for number, head in enumerate(heads):
        right = 0 < number < len(heads) and head not in ("way", "worst finding")
        table.add_column(head, justify="right" if right else "left", overflow="fold")
    for row in rows:
        table.add_row(*(Text(cell) for cell in row))
    return table
