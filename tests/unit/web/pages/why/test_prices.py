"""A kind of cost, or a step, answers with lines that add up."""

from __future__ import annotations

from decimal import Decimal

import pytest

from fitwright.pricing import Kind
from fitwright.web.errors import NotThere
from fitwright.web.pages.why.prices import reason_of_kind, reason_of_step
from tests.stand import stand


def sums(steps: tuple[str, ...]) -> tuple[Decimal, Decimal]:
    """What the lines come to, and what the last says they do."""
    amounts = [Decimal(step.split(" ")[0].replace("−", "-").replace("\u00a0", "")) for step in steps[:-1]]
    return sum(amounts, Decimal(0)), Decimal(steps[-1].split(" ")[1])


@pytest.mark.parametrize("kind", [Kind.MATERIAL, Kind.HOURS, Kind.CONSUMABLES, Kind.OVERHEAD])
def test_a_kind(kind: Kind) -> None:
    reason = reason_of_kind(stand().cost, str(kind))
    lines, total = sums(reason.steps)
    assert lines == total == stand().cost.by_kind[kind]
    assert reason.rows


def test_a_step() -> None:
    for step in stand().steps:
        reason = reason_of_step(stand().cost, step.number)
        lines, total = sums(reason.steps)
        assert lines == total == stand().cost.of_step(step.number)
        assert "unsure" in reason.basis


def test_what_is_not_there() -> None:
    with pytest.raises(NotThere):
        reason_of_kind(stand().cost, "gold")
    with pytest.raises(NotThere):
        reason_of_step(stand().cost, 999)
