"""What variation takes and gives: outcomes, errors of making, how the ones follow from the others, and the chances."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

import numpy as np

from fitwright.errors import FitwrightError
from fitwright.mechanics.model import Floats, Ints

TOP_SHARES = 3


class VariationError(FitwrightError, ValueError):
    """Virtual builds that cannot be made: no builds asked for, a group named twice, an outcome that is not there."""


@dataclass(frozen=True)
class Outcome:
    """One thing that matters on the finished piece.

    kind: width, depth, height, diagonals, parallel, twist, opening, foot, play, gap (to a wall) or joint (what is left
    of the widest gap that its weld fills). nominal: as drawn [mm]; where it is a difference that should vanish, 0.
    """

    name: str
    kind: str
    nominal: float


@dataclass(frozen=True)
class Source:
    """One error of making, drawn once in each build.

    kind: the field of `Spreads` it belongs to. spread: one standard deviation [mm or rad].
    """

    name: str
    kind: str
    spread: float


@dataclass(frozen=True)
class Correction:
    """Something that can be done to the finished piece; unit: N, rad or mm.

    kind: pull (two points drawn together by 1 N, elastic), bend (a bend closed by 1 rad more) or shim (1 mm under a
    foot).
    """

    name: str
    kind: str
    unit: str


@dataclass(frozen=True, eq=False)
class Sensitivity:
    """Outcomes as linear functions of errors, and of corrections.

    matrix: (o, s) change of each outcome for one unit of each error. corrections: (o, c) for one unit of each
    correction on the finished piece.
    """

    outcomes: tuple[Outcome, ...]
    sources: tuple[Source, ...]
    matrix: Floats
    actions: tuple[Correction, ...] = ()
    corrections: Floats = field(default_factory=lambda: np.zeros((0, 0)))

    @cached_property
    def nominal(self) -> Floats:
        """(o,) outcomes as drawn [mm]."""
        return np.array([outcome.nominal for outcome in self.outcomes], dtype=np.float64)

    @cached_property
    def spreads(self) -> Floats:
        """(s,) one standard deviation of each error."""
        return np.array([source.spread for source in self.sources], dtype=np.float64)

    @cached_property
    def kinds(self) -> tuple[str, ...]:
        """The kinds of error there are."""
        return tuple(dict.fromkeys(source.kind for source in self.sources))

    @cached_property
    def covariance(self) -> Floats:
        """(o, o) of the outcomes [mm2]."""
        scaled = self.matrix * self.spreads
        return np.asarray(scaled @ scaled.T)

    @property
    def spread(self) -> Floats:
        """(o,) one standard deviation of each outcome: the root of the sum of squares [mm]."""
        return np.asarray(np.sqrt(np.diag(self.covariance)))

    def worst(self, deviations: float = 3.0) -> Floats:
        """(o,) how far each outcome strays when every error is at that many deviations, all the wrong way [mm]."""
        return np.asarray(np.abs(self.matrix) @ (deviations * self.spreads))

    def only(self, rows: Sequence[int]) -> Sensitivity:
        """Some of the outcomes, in the order given."""
        pick = list(rows)
        corrections = self.corrections[pick] if len(self.actions) else self.corrections
        return replace(
            self, outcomes=tuple(self.outcomes[i] for i in pick), matrix=self.matrix[pick], corrections=corrections
        )

    def row(self, name: str) -> int:
        """The number of the outcome of this name.

        Raises VariationError with the names there are.
        """
        names = [outcome.name for outcome in self.outcomes]
        if name not in names:
            raise VariationError(f"no outcome is called {name!r}: there are {', '.join(names)}")
        return names.index(name)


@dataclass(frozen=True)
class Share:
    """How much of a variance comes from errors of one kind, 0 to 1; words: what the kind is called."""

    kind: str
    words: str
    share: float


@dataclass(frozen=True, eq=False)
class Histogram:
    """How often each value came: edges (b + 1,) [mm], counts (b,), and the limits that it is held against [mm]."""

    edges: Floats
    counts: Ints
    low: float | None
    high: float | None


@dataclass(frozen=True, eq=False)
class Chance:
    """How likely one demand on the piece is met.

    name: "fits", "fits as wanted", "stands flat", "shelves drop in" or "welds fill"; subject: what it is about, such as
    "across".
    value: 0 to 1; wanted: the job's rule. unsure: one standard error of value by the number of builds.
    typical, spread: mean and deviation of the number that decides [mm]; shares: of its variance, largest first.
    """

    name: str
    subject: str
    value: float
    wanted: float
    unsure: float
    typical: float
    spread: float
    shares: tuple[Share, ...]
    histogram: Histogram

    @property
    def deciders(self) -> tuple[Share, ...]:
        """The three kinds of error that decide."""
        return self.shares[:TOP_SHARES]


@dataclass(frozen=True, eq=False)
class OutcomeSpread:
    """An outcome with its mean shift, one deviation [mm], and whence it comes."""

    outcome: Outcome
    spread: float
    shares: tuple[Share, ...]


@dataclass(frozen=True)
class BestNominal:
    """The change of size that gives the best chance to be neither too tight nor too loose.

    subject: across, along or above. change: to add to the piece's size [mm]. chance, chance_now: with it and without.
    tight, loose: the total gap between which it is right [mm].
    """

    subject: str
    change: float
    chance: float
    chance_now: float
    tight: float
    loose: float


@dataclass(frozen=True)
class Change:
    """One thing to do differently in the making, with the chances that it leaves, by the names of `Chance`."""

    key: str
    words: str
    chances: Mapping[str, float]


@dataclass(frozen=True, eq=False)
class VirtualBuilds:
    """What came of making the piece many times.

    builds: how many; seed. chances: demands, most doubtful first; overall: of all of them together.
    governing: the most doubtful. best: sizes to change. changes: what to do differently, best first.
    """

    builds: int
    seed: int | None
    chances: tuple[Chance, ...]
    overall: float
    outcomes: tuple[OutcomeSpread, ...]
    best: tuple[BestNominal, ...]
    changes: tuple[Change, ...]
    sensitivity: Sensitivity

    @property
    def governing(self) -> Chance | None:
        """The demand with the least margin; None where the job demands nothing."""
        return min(self.chances, key=lambda chance: chance.value - chance.wanted, default=None)

    def chance(self, name: str, subject: str | None = None) -> Chance | None:
        """The chance of this name (and subject), if the job has it."""
        return next((c for c in self.chances if c.name == name and subject in (None, c.subject)), None)
