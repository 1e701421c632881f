"""How long a step takes: from the table, or from the shop's own rates."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from fitwright.making.plan.errors import PlanError

DATA = Path(__file__).parent / "data"
OTHER = ("basis", "rest", "arc")
Table = Mapping[str, Any]


@dataclass(frozen=True)
class Rate:
    """Minutes of one kind of step: once, for each setting, for each of what `per` names."""

    start: float
    each: float
    per: str
    setting: float = 0.0
    whole: bool = False
    station: str = ""
    task: str = "shop"
    basis: str = ""

    def minutes(self, count: float, settings: float = 0.0) -> int:
        """How long so many take [min], rounded up.

        >>> Rate(5, 1.5, "cut", setting=3).minutes(10, 2)
        26
        """
        return int(-(-(self.start + self.setting * settings + self.each * count) // 1))


@cache
def table(file: str) -> Table:
    """The whole of data/FILE.toml."""
    return tomllib.loads((DATA / f"{file}.toml").read_text(encoding="utf-8"))


@cache
def usual_rates() -> Mapping[str, Rate]:
    """The rate of every kind of step."""
    told = table("rates")
    return {kind: Rate(basis=told["basis"], **row) for kind, row in told.items() if kind not in OTHER}


def rates_with(own: Mapping[str, Rate] | None) -> Mapping[str, Rate]:
    """The usual rates with the shop's own in their place. Raises PlanError for a kind of step that there is not."""
    usual = usual_rates()
    unknown = sorted(set(own or {}) - set(usual))
    if unknown:
        raise PlanError(f"{unknown[0]!r} is no kind of step: the kinds are {', '.join(usual)}")
    return {**usual, **(own or {})}
