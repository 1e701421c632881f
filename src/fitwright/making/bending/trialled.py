"""What is known of one die in one stock: physics, trials, what they say together, and what to doubt."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Sequence
from contextlib import suppress
from dataclasses import dataclass

import numpy as np

from fitwright.making.bending.errors import BendError
from fitwright.making.bending.recorded import by_trials, slope_prior
from fitwright.making.bending.springback import Springback, springback
from fitwright.shop import Die
from fitwright.shop.learning import (
    BendLaw,
    Drift,
    Learnt,
    Outlier,
    SlopePrior,
    Worth,
    drift,
    outliers,
    trials_worth,
)
from fitwright.stock import Stock
from fitwright.units import Style

USUAL_ANGLE = math.radians(90)
# What a bend may be off before it is taken back (common practice), and how many are reckoned with at a time.
TOLERANCE, BENDS = math.radians(0.5), 4
CURVE_FROM, CURVE_TO, CURVE_POINTS = math.radians(10), math.radians(130), 25
EASY_WAY = np.array([0.0, 1.0])


@dataclass(frozen=True)
class CurvePoint:
    """Springback for a bend to `asked`: the mean, and the 90 % range of the next bend [rad]."""

    asked: float
    mean: float
    low: float
    high: float


@dataclass(frozen=True, eq=False)
class Trialled:
    """A die and a stock. physics: for a right angle; now: the same with the trials.

    law: None without trials; outliers and drift name trials by their place in `law.trials`.
    """

    die: Die
    stock: Stock
    physics: Springback
    prior: SlopePrior
    now: Springback
    law: BendLaw | None
    outliers: tuple[Outlier, ...]
    drift: Drift | None
    worth: Worth

    def curve(self) -> tuple[CurvePoint, ...]:
        """Springback over the angle bent to, physics with its range where there are no trials."""
        law = self.law or BendLaw((), self.prior, "")
        return tuple(_point(law, asked) for asked in np.linspace(CURVE_FROM, CURVE_TO, CURVE_POINTS).tolist())

    def by_physics(self, asked: float) -> float:
        """Springback from physics alone for a bend to `asked` [rad]."""
        return self.prior.slope * asked

    def told(self, style: Style) -> list[str]:
        """All of it in words."""
        angle, now = style.angle, self.now
        said = [
            f"For {angle(USUAL_ANGLE)} bend to {angle(now.command)}, {angle(now.low)} to {angle(now.high)} (90 %): "
            f"from {now.basis}.",
        ]
        if self.law is not None and not now.trials:
            said.append("The trials contradict one another too much to set a machine by: see which are wrong.")
        elif self.law is not None:
            said.append(f"Physics alone says {angle(self.physics.command)}.")
        said += _worth_told(self.worth, style)
        if self.law is not None:
            said += doubts_told(self.law, self.outliers, self.drift, style)
        return said


def trialled(die: Die, stock: Stock, learnt: Learnt, bends: int = BENDS, tolerance: float = TOLERANCE) -> Trialled:
    """What is known of a die in a stock, bent the easy way.

    bends, tolerance [rad]: what further trials are held against. Raises BendError for a die that does not take the
    stock, rolls, and stock that springs back straight.
    Holds for and Source: as `springback`, `BendLaw`, `trials_worth`, `outliers` and `drift`.
    """
    if die.rolls or not die.fits(stock.section):
        raise BendError(f"{die.name} {'are rolls' if die.rolls else f'does not take {stock.label}'}: no trial is kept")
    radius = die.radius + float(stock.section.centroid @ EASY_WAY)
    physics = springback(stock.section, stock.material, radius, USUAL_ANGLE, EASY_WAY)
    prior = slope_prior(physics, USUAL_ANGLE)
    law = learnt.bend_law(die.name, stock.label, prior)
    trials = law.trials if law else ()
    now = by_trials(physics, die, stock.label, USUAL_ANGLE, learnt)
    worth = trials_worth(law or BendLaw((), prior, ""), USUAL_ANGLE, tolerance, bends)
    return Trialled(die, stock, physics, prior, now, law, outliers(trials, prior), drift(trials, prior), worth)


def trials_asked(
    bent: Iterable[tuple[str, Stock, int]], dies: Sequence[Die], learnt: Learnt | None
) -> dict[tuple[str, str], int]:
    """Trial bends worth making before a job's own, by die and stock; never none, as a new bar may be of another heat.

    bent: of each bent mark its die, its stock and how many bends it has in all.
    Holds for and Source: as `trials_worth`; rolls and stock that no die takes get one.
    """
    bends: Counter[tuple[str, str]] = Counter()
    stocks: dict[str, Stock] = {}
    for name, stock, count in bent:
        bends[name, stock.label] += count
        stocks[stock.label] = stock
    found = {}
    for (name, label), count in bends.items():
        die = next((one for one in dies if one.name == name), None)
        found[name, label] = 1
        if die is not None:
            with suppress(BendError):
                found[name, label] = max(trialled(die, stocks[label], learnt or Learnt(), count).worth.trials, 1)
    return found


def doubts_told(law: BendLaw, odd: Sequence[Outlier], drifts: Drift | None, style: Style) -> list[str]:
    """Outliers and drift in words; trials counted from 1."""
    said = [
        f"Trial {one.place + 1} came out at {style.angle(one.got)} where the others lead to expect "
        f"{style.angle(one.expected)}: measure it again, or leave it out."
        for one in odd
    ]
    if drifts is not None:
        way = "more" if drifts.by > 0 else "less"
        said.append(
            f"From trial {drifts.since + 1} on bends open {style.angle(abs(drifts.by))} {way} than before: "
            "a new heat, a worn die, or another setting? Note the heat, or leave the old trials out."
        )
    return said


def _point(law: BendLaw, asked: float) -> CurvePoint:
    opening = law.opening(asked)
    return CurvePoint(asked, opening.mean, *opening.interval())


def _worth_told(worth: Worth, style: Style) -> list[str]:
    right = f"a bend is right at once (within {style.angle(TOLERANCE)}) in {100 * worth.now:.0f} of 100"
    if not worth.trials:
        return [f"No further trial pays for {BENDS} bends: {right}."]
    count = f"{worth.trials} more trial{'s' if worth.trials != 1 else ''}"
    return [f"{count} would pay for {BENDS} bends: now {right}, then in {100 * worth.after:.0f}."]
