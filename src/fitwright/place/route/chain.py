"""The legs one after another: the easiest way of holding for each, turned over only where there is height for it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from fitwright.place.route.legs import Leg
from fitwright.place.route.model import Bulk, Stance, Trial
from fitwright.place.route.search import Looked
from fitwright.place.route.stances import height, rests, tallest_when_turned, tilted

TURNING_OVER = 1.0  # what it costs to change the way of holding, against the effort of holding
TIGHT = 4.0  # what it costs to leave no room for hands where some was wanted, and in part less
NO_ROOM = 1000.0
AT_PLACE = "its place"


@dataclass(frozen=True, eq=False)
class Turnover:
    """The piece turned over before a leg: from one way of holding to another, the height that takes and that is there.

    before: the number of the leg; that of all legs where it is stood up at its place. has: None where no ceiling was
    surveyed. [mm]
    """

    before: int
    start: Stance
    finish: Stance
    needs: float
    has: float | None

    @property
    def fits(self) -> bool:
        """Whether there is height for it, as far as is known."""
        return self.has is None or self.needs <= self.has

    def where(self, legs: Sequence[Leg]) -> str:
        """The name of what comes next."""
        return legs[self.before].name if self.before < len(legs) else AT_PLACE

    def when(self, legs: Sequence[Leg]) -> str:
        """When it is turned over, in words."""
        return f"before “{legs[self.before].name}”" if self.before < len(legs) else f"in {AT_PLACE}"


@dataclass(frozen=True)
class Standing:
    """The place at the end of the way, in which the piece has to stand upright. height: of its opening [mm], if known.

    The room before an opening may be higher than it: where the opening is too low to stand the piece up in, its height
    says nothing. A corridor at the end of the way says how high it is there.
    """

    height: float | None = None

    def ceiling(self, last: Leg, needs: float) -> float | None:
        """Height known where it is stood up [mm], None where nothing says it."""
        known = self.height or 0.0
        if last.kind == "corridor" and last.ceiling is not None:
            return max(known, last.ceiling)
        return known if known >= needs else None


def chosen(legs: Sequence[Looked], bulk: Bulk, standing: Standing | None = None) -> tuple[list[Trial], list[Turnover]]:
    """A fitting trial for each leg so that the whole is easiest, and where the piece is turned over between.

    standing: where it is stood up at the end; None where it need not be. Every leg must have one that fits. The least
    cost over all chains, by dynamic programming.
    """
    options = [[trial for trial in leg.trials if trial.fits] for leg in legs]
    costs = [_cost(trial, legs[0].leg) for trial in options[0]]
    came: list[list[int]] = []
    for at in range(1, len(legs)):
        ceiling = ceiling_between(legs[at - 1].leg, legs[at].leg)
        changes = [[_change(one, other, bulk, ceiling) for one in options[at - 1]] for other in options[at]]
        best = [_least([cost + more for cost, more in zip(costs, row, strict=True)]) for row in changes]
        costs = [
            costs[k] + row[k] + _cost(trial, legs[at].leg)
            for k, row, trial in zip(best, changes, options[at], strict=True)
        ]
        came.append(best)
    last = legs[-1].leg
    ends = [_stood_up(trial.stance, len(legs), last, bulk, standing) for trial in options[-1]]
    at = _least([cost + _turning(end) for cost, end in zip(costs, ends, strict=True)])
    picks = [at]
    for back in reversed(came):
        picks.append(back[picks[-1]])
    trials = [options[k][pick] for k, pick in enumerate(reversed(picks))]
    end = ends[at]
    return trials, turnovers(trials, [leg.leg for leg in legs], bulk) + ([end] if end is not None else [])


def _least(values: Sequence[float]) -> int:
    return min(range(len(values)), key=lambda at: values[at])


def turnovers(trials: Sequence[Trial], legs: Sequence[Leg], bulk: Bulk) -> list[Turnover]:
    """Where the way of holding changes between legs."""
    return [
        Turnover(at, one, other, _needs(one, other, bulk), ceiling_between(legs[at - 1], legs[at]))
        for at, (one, other) in enumerate(pairwise([trial.stance for trial in trials]), 1)
        if _differ(one, other)
    ]


def _stood_up(stance: Stance, number: int, last: Leg, bulk: Bulk, standing: Standing | None) -> Turnover | None:
    """From how it is held on the last leg to upright; None where it stands so, or need not."""
    upright = rests()[0]
    if standing is None or not _differ(stance, upright):
        return None
    needs = _needs(stance, upright, bulk)
    return Turnover(number, stance, upright, needs, standing.ceiling(last, needs))


def _turning(turn: Turnover | None) -> float:
    return 0.0 if turn is None else TURNING_OVER + (0.0 if turn.fits else NO_ROOM)


def ceiling_between(one: Leg, other: Leg) -> float | None:
    """Height between two legs [mm]: the higher of what is known beside it, None where nothing is."""
    known = [leg.ceiling for leg in (one, other) if leg.ceiling is not None]
    return max(known) if known else None


def _differ(one: Stance, other: Stance) -> bool:
    return one.rest != other.rest or abs(one.tilt - other.tilt) > 1e-6 or one.onto != other.onto


def _needs(one: Stance, other: Stance, bulk: Bulk) -> float:
    """Height that the change takes [mm]: that of all tilts between the rests which it passes."""
    tilting = max(_tallest_tilting(bulk, one), _tallest_tilting(bulk, other))
    if one.rest != other.rest:
        return max(tilting, tallest_when_turned(bulk, one.rest, other.rest))
    return tilting


def _tallest_tilting(bulk: Bulk, stance: Stance) -> float:
    """How high it gets on the way from its rest to its tilt [mm]."""
    passed = (one for one in tilted() if (one.rest, one.onto) == (stance.rest, stance.onto) and one.tilt < stance.tilt)
    rest = next(one for one in rests() if one.rest == stance.rest)
    return max(height(bulk, one) for one in (stance, rest, *passed))


def _change(one: Trial, other: Trial, bulk: Bulk, ceiling: float | None) -> float:
    if not _differ(one.stance, other.stance):
        return 0.0
    short = ceiling is not None and _needs(one.stance, other.stance, bulk) > ceiling
    return TURNING_OVER + (NO_ROOM if short else 0.0)


def _cost(trial: Trial, leg: Leg) -> float:
    spare = max(leg.obstacle.spare, 1.0)
    return trial.stance.effort + TIGHT * max(1 - trial.side / spare, 0.0)
