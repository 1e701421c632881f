"""What follows from readings: what each says, what changes, what can be put right, and how it will come out."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from fitwright.job.readings import Reading
from fitwright.mechanics.model import Floats
from fitwright.piece.as_made import Moves
from fitwright.truing.doubting import Doubt
from fitwright.truing.estimate import Estimate
from fitwright.truing.learning import Command
from fitwright.truing.progress import Made


@dataclass(frozen=True)
class Taken:
    """A reading beside what was asked for and what it probably really is, each [mm] or [rad].

    drawn: as drawn; now: as it probably is, by all readings; spread: one deviation of that. precision: one deviation of
    the reading. believed: whether it counts; word: why not, or "superseded", "read before the bend was touched up".
    """

    reading: Reading
    drawn: float
    now: float
    spread: float
    precision: float
    believed: bool = True
    word: str = ""

    @property
    def off(self) -> float:
        """How far the reading is from what was asked [mm, rad]."""
        return self.reading.value - self.drawn


@dataclass(frozen=True)
class Lost:
    """A reading that means nothing on this piece, and why."""

    reading: Reading
    why: str


@dataclass(frozen=True)
class Changed:
    """A number of what is not made yet that follows: where it stands, what it is, old and new.

    sheet: "cut", "bend", "bench", "timber", "feet" or "weld"; mark: the part or block. old, new: [mm], or [rad] where
    angle; old None where there was none, as for a shim.
    """

    sheet: str
    mark: str
    what: str
    old: float | None
    new: float
    why: str
    angle: bool = False

    @property
    def by(self) -> float:
        """How much it changes."""
        return self.new - (self.old or 0.0)


@dataclass(frozen=True)
class Effect:
    """What a correction does to one thing that matters: before and after it [mm], and what remains unsure."""

    what: str
    before: float
    after: float
    spread: float


@dataclass(frozen=True)
class Touch:
    """One thing to do to what is made.

    kind: shim, bend, tack, pull or leave. words: what to do. amount: [mm] or, for a bend or a turned joint, [rad].
    beyond: how far to pull past where it is to stay [mm], force: that it takes there [N]; 0 where there is no pull.
    start, end: (3,) places on the piece for the drawing. needed: whether the piece is out of its limits without it.
    """

    kind: str
    subject: str
    words: str
    amount: float
    effort: float
    effects: tuple[Effect, ...]
    needed: bool
    beyond: float = 0.0
    force: float = 0.0
    start: tuple[float, float, float] | None = None
    end: tuple[float, float, float] | None = None
    caution: str = ""
    key: str = ""


@dataclass(frozen=True)
class ChanceNow:
    """A demand's chance before the readings and with them (and with what follows from them done)."""

    name: str
    subject: str
    before: float
    now: float
    wanted: float


@dataclass(frozen=True)
class Standing:
    """One thing that matters: as drawn, as it probably is, one deviation before and after the readings [mm]."""

    name: str
    kind: str
    drawn: float
    now: float
    spread_before: float
    spread_now: float


@dataclass(frozen=True, eq=False)
class Truing:
    """Readings, and what follows from them.

    estimate: errors as they probably are; corrected: (e,) elementary errors once the touches are done.
    moves: how parts will lie otherwise than drawn. rock, rock_after: probable gap under a foot now and after [mm].
    """

    taken: tuple[Taken, ...]
    lost: tuple[Lost, ...]
    doubts: tuple[Doubt, ...]
    made: Made
    estimate: Estimate
    corrected: Floats
    matters: tuple[Standing, ...]
    chances: tuple[ChanceNow, ...]
    touches: tuple[Touch, ...]
    moves: Moves
    rock: float
    rock_after: float
    misfit: float
    misfit_after: float
    paint: float | None = None
    commands: tuple[Command, ...] = ()
    outcomes_after: Floats = field(default_factory=lambda: np.zeros(0))

    @property
    def moved(self) -> bool:
        """Whether any part lies otherwise than drawn."""
        return bool(self.moves.members or self.moves.panels or self.moves.hardware)

    @property
    def anything(self) -> bool:
        """Whether there is a reading that counts."""
        return any(one.believed for one in self.taken)
