"""Which cautions stand at which step."""

from __future__ import annotations

from fitwright.making.plan.model import Caution
from fitwright.making.plan.rates import table

ALWAYS = "always"


def cautions_at(kind: str, true: frozenset[str]) -> tuple[Caution, ...]:
    """The cautions of one kind of step, for a job of which these words are true."""
    return tuple(
        Caution(row["words"], row["basis"])
        for row in table("cautions")["caution"]
        if kind in row["at"] and (row["when"] == ALWAYS or row["when"] in true)
    )
