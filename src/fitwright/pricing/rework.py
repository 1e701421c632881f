"""What has to be made again, on average: the doubt of each demand times what is done about it."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from importlib.resources import files

from fitwright.making.plan import Step
from fitwright.mechanics.variation import VirtualBuilds
from fitwright.pricing.material import Lines
from fitwright.pricing.model import Group, Kind

BASIS = "common practice: what a small shop does about it, once; chances from virtual builds"
FITS, WANTED = "fits", "fits as wanted"


@dataclass(frozen=True)
class Remedy:
    """What is done when a demand is not met: kinds of step done again and what share of each, share of the metal."""

    words: str
    steps: tuple[str, ...]
    share: Decimal
    metal: Decimal


@cache
def remedies() -> Mapping[str, Remedy]:
    """What is done about each demand."""
    text = files(__package__).joinpath("data/rework.toml").read_text(encoding="utf-8")
    return {
        name: Remedy(row["words"], tuple(row["steps"]), Decimal(str(row["share"])), Decimal(str(row["metal"])))
        for name, row in tomllib.loads(text).items()
    }


def doubts(builds: VirtualBuilds) -> Mapping[str, float]:
    """By demand, how likely it is not met, 0 to 1; what is too large for its place is not counted as tight as well.

    Where a demand is made in several directions their doubts are added, which is never too little.
    Source: Boole's inequality.
    """
    found: dict[str, float] = {}
    for chance in builds.chances:
        found[chance.name] = min(found.get(chance.name, 0.0) + 1.0 - chance.value, 1.0)
    if WANTED in found:
        found[WANTED] = max(found[WANTED] - found.get(FITS, 0.0), 0.0)
    return found


def add_rework(found: Lines, builds: VirtualBuilds | None, steps: tuple[Step, ...]) -> None:
    """The expected cost of making again, a line for each demand in doubt; nothing for a piece without virtual builds.

    Holds for one repetition: after it the piece is measured and matched.
    """
    if builds is None:
        return
    kinds = {step.number: step.kind for step in steps}
    metal = sum((line.amount for line in found.lines if line.kind is Kind.MATERIAL), Decimal(0))
    work = [(kinds[line.step], line.amount) for line in found.lines if line.step is not None]
    for name, doubt in doubts(builds).items():
        remedy = remedies().get(name)
        if remedy is None or doubt <= 0:
            continue
        done = sum((amount for kind, amount in work if kind in remedy.steps), Decimal(0))
        money = (done * remedy.share + metal * remedy.metal) * Decimal(str(round(doubt, 6)))
        if found.shop.prices.pricing.coins(money):
            found.add(Kind.REWORK, Group.WORK, remedy.words, f"{doubt:.2%} of the time", money, BASIS)
