"""Why a kind of cost, or a step, costs what it does."""

from __future__ import annotations

from fitwright.pricing import Cost, CostLine, Kind
from fitwright.sheets.quote.client import money
from fitwright.web.errors import NotThere
from fitwright.web.pages.why.reason import Input, Reason

MOST_LINES = 60


def reason_of_kind(cost: Cost, name: str) -> Reason:
    """A kind of cost, line by line. Raises NotThere."""
    lines = [line for line in cost.lines if str(line.kind) == name]
    if not lines:
        raise NotThere(f"nothing of this job is paid for {name[:40]!r}")
    told = "the hours of each step" if lines[0].kind is Kind.HOURS else "each line as bought or used"
    return _reason(f"what is paid for {name}", lines, cost, f"{told}; prices and rates from the shop file")


def reason_of_step(cost: Cost, number: int) -> Reason:
    """A step's hours and machine. Raises NotThere."""
    lines = [line for line in cost.lines if line.step == number]
    if not lines:
        raise NotThere(f"there is no step {number} in this job")
    share = cost.unsure.get(number, 0.0)
    basis = "time of the step as planned, at the shop's rate; the shop's own records where there are any"
    return _reason(f"step {number}, {lines[0].what}", lines, cost, f"{basis}. It makes {share:.0%} of what is unsure")


def _reason(title: str, lines: list[CostLine], cost: Cost, basis: str) -> Reason:
    total = sum(line.amount for line in lines)
    steps = [_line(line) for line in lines[:MOST_LINES]]
    if len(lines) > MOST_LINES:
        steps.append(f"and {len(lines) - MOST_LINES} more")
    bases = dict.fromkeys(line.basis for line in lines if line.basis)
    return Reason(
        title,
        f"{total:.2f} {cost.currency}",
        (*steps, f"= {total:.2f} {cost.currency}"),
        basis,
        (Input("all that it costs", f"{money(cost.total)} {cost.currency}", "/quote/shop"),),
        rows=tuple(("from", one) for one in list(bases)[:6]),
    )


def _line(line: CostLine) -> str:
    quantity = f", {line.quantity}" if line.quantity else ""
    return f"{money(line.amount)} {line.what}{quantity}"
