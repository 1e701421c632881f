"""Whether the lengths of a survey agree with one another, and which is the likeliest wrong one."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

import numpy as np

from fitwright.job.model import Measured, Opening, Space
from fitwright.place.survey.adjusting import chi2_beyond
from fitwright.place.survey.outline import Outline, outline, without
from fitwright.place.survey.tape import PLUMB_MM, USUAL, spread_of

# Of two lengths that may be the wrong one, the less likely is named too unless it is this many times less so.
AS_LIKELY = 4.0
SAME_PLACE_MM = 1.0
LEANING = ("left", "right")
DOUBTED, WRONG = 0.05, 0.001  # chances: the usual level of a test, and Baarda's for calling a measurement wrong


@dataclass(frozen=True)
class Suspect:
    """A length that may be wrong: its name, as measured, and what the others make it [mm]."""

    name: str
    measured: float
    others: float

    @property
    def off(self) -> float:
        """How far it is off what the others say [mm]."""
        return self.measured - self.others


@dataclass(frozen=True)
class Closure:
    """Lengths that should agree: by how much they miss [mm], how much of that is usual (19 times in 20), and how often
    careful measuring misses by as much. suspects: the likeliest wrong lengths, the likeliest first.
    """

    name: str
    miss: float
    usual: float
    chance: float
    suspects: tuple[Suspect, ...] = ()
    missing: str = ""


def closures(space: Space) -> tuple[Closure, ...]:
    """Every way in which the lengths of a survey check one another."""
    opening = space.opening
    if opening is None:
        return ()
    found = []
    if opening.plan is not None:
        found.append(_round(outline(opening, space.within)))
    found += _upward(opening, space.within)
    return tuple(found)


def _round(found: Outline) -> Closure:
    """The sides and diagonals seen from above."""
    name = "sides and diagonals"
    if found.adjusted.freedom < 1:
        return Closure(name, 0.0, 0.0, 1.0, missing="space: opening: plan: the second of the diagonals")
    suspects = _suspects(found) if found.adjusted.chance < DOUBTED else ()
    worst = int(np.argmax(np.abs(found.adjusted.normalised)))
    miss = suspects[0].off if suspects else float(found.adjusted.off[worst])
    return Closure(name, abs(miss), USUAL * float(found.adjusted.off_spread[worst]), found.adjusted.chance, suspects)


def _suspects(found: Outline) -> tuple[Suspect, ...]:
    """By how much the sum of squares falls when a length is left out, walls taken as nearly square."""
    falls = found.likely.normalised[: len(found.rows)] ** 2
    order = [int(k) for k in np.argsort(-falls)]
    kept = [k for k in order if falls[order[0]] - falls[k] < 2 * np.log(AS_LIKELY)]
    return tuple(Suspect(found.rows[k][0], float(found.rows[k][2]), without(found, found.rows[k][0])) for k in kept)


def _upward(opening: Opening, within: float | None) -> list[Closure]:
    """The width at the foot less that at the top is what both walls lean in between them.

    Depths do not check a lean so: they count from the front line, and nobody says that it is plumb.
    """
    sizes = sorted((m for m in opening.measures if m.what == "width" and m.station == 0.0), key=lambda m: m.at)
    if len(sizes) < 2 or any(side not in opening.lean for side in LEANING):
        return []
    full = min((height for _, height in opening.tops), default=sizes[-1].at)
    low, high = sizes[0], sizes[-1]
    if full < SAME_PLACE_MM:
        return []
    lean = sum(opening.lean[side] for side in LEANING) * (min(high.at, full) - low.at) / full
    miss = (low.size - high.size) - lean
    spread = hypot(_spread(low, within), _spread(high, within), *(PLUMB_MM for _ in LEANING))
    return [Closure("width and lean", abs(miss), USUAL * spread, chi2_beyond((miss / spread) ** 2, 1))]


def _spread(one: Measured, within: float | None) -> float:
    return spread_of(one.size, one.within or within)
