"""What is said of the price: what is not known, whether it is within the budget, whether it covers the hours."""

from __future__ import annotations

from fitwright.findings import Finding, at_least, at_most, needs_input
from fitwright.job.model import Job
from fitwright.pricing.model import Cost
from fitwright.pricing.price import Price

AREA = "price"
LEAST_COVERED = 0.9
NEARLY = 0.05


def price_findings(cost: Cost, price: Price, job: Job) -> list[Finding]:
    """The findings of the price; with a price missing, what hangs on it is not judged."""
    lacking = [needs_input(AREA, one.what, "cost", one.where) for one in cost.missing]
    if lacking:
        return lacking
    return [*_budget(price, job), _covered(cost, price)]


def _budget(price: Price, job: Job) -> list[Finding]:
    budget = job.brief.budget
    if budget is None:
        return []
    total, limit = float(price.total), float(budget)
    return [
        at_most(
            AREA, "the whole", "price with tax within the budget", total, limit, "currency",
            tight=limit * job.brief.rules.tight, basis="the budget in the job's brief",
            advice="show the client the alternatives, or agree on another budget",
            formula=f"{price.net:.2f} + {price.tax:.2f} tax = {total:.2f}, at most {limit:.2f}",
        )
    ]  # fmt: skip


def _covered(cost: Cost, price: Price) -> Finding:
    chance = 100 * cost.covered_by(price.net)
    return at_least(
        AREA, "the hours", "chance that the price covers the cost", chance, 100 * LEAST_COVERED, "%",
        tight=100 * NEARLY, basis="common practice: one job in ten may lose money",
        advice="ask for a larger margin, or find out what makes the hours unsure",
        formula=(
            f"{cost.hours.mean:.1f} h, nine times in ten under {cost.hours.high:.1f} h; "
            f"cost {cost.total:.2f}, price before tax {price.net:.2f}"
        ),
    )  # fmt: skip
