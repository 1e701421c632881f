"""What is found when a piece is set into its place."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from fitwright.place.resting import Stance

Floats = NDArray[np.float64]
Place = tuple[float, float, float]


@dataclass(frozen=True)
class Gap:
    """The smallest gap on one side [mm], the height above the floor where it is, and the gap wanted.

    chosen: the piece was set to this gap, so that none to spare is as it should be. spread: what the survey leaves open
    about it, 19 times in 20. against: the wall, or what else is nearest. before: how far the piece still is from its
    place when it comes this near; 0 in its place. point: of the piece, in the opening's coordinates, once it stands in
    its place. part: what of the piece it is.
    """

    side: str
    value: float
    height: float
    wanted: float
    chosen: bool = False
    spread: float = 0.0
    against: str = "wall"
    before: float = 0.0
    point: Place | None = None
    part: str = ""


@dataclass(frozen=True)
class Swing:
    """How far a door opens past the piece [rad], what it then touches ("" for nothing), and the least gap to its way
    [mm], 0 where it touches; wanted: how far it has to open; height: where that is; side: that of the piece."""

    name: str
    opens: float
    wanted: float
    touches: str
    gap: float
    height: float
    side: str = ""


@dataclass(frozen=True)
class Reach:
    """A thing that has to stay in reach: from which side, how far in [mm], how much room there is for the hand before
    it [mm] of that wanted, and what is in the way; loose: all that is in the way can be taken out."""

    name: str
    side: str
    far: float
    in_way: tuple[str, ...]
    loose: bool


@dataclass(frozen=True)
class WayOut:
    """How a shelf is taken out: the moves in words, the least gap on the way [mm], and what is in the way if it cannot.

    room: how much free floor it needs before the piece [mm].
    """

    name: str
    moves: tuple[str, ...]
    gap: float
    in_way: tuple[str, ...]
    room: float


@dataclass(frozen=True)
class Brake:
    """A caster's brake: its name, how far in from the front of the piece it is [mm], and what is in a foot's way."""

    name: str
    far: float
    in_way: tuple[str, ...]


@dataclass(frozen=True, eq=False)
class Fit:
    """The piece set into its opening: the shift (x, y) from piece to opening coordinates [mm] and the gaps.

    stance: how it stands on the floor, None where the floor was not measured. passed: walls that it comes nearer to on
    its way in than in its place. things: the least gap to each thing in the place, on the way in too. boxes: the things
    as boxes (low, high) in the opening's coordinates. below: the free height under it [mm].
    """

    shift: tuple[float, float]
    gaps: tuple[Gap, ...]
    stance: Stance | None = None
    passed: tuple[Gap, ...] = ()
    things: tuple[Gap, ...] = ()
    swings: tuple[Swing, ...] = ()
    reaches: tuple[Reach, ...] = ()
    ways_out: tuple[WayOut, ...] = ()
    brakes: tuple[Brake, ...] = ()
    below: float | None = None
    boxes: Mapping[str, tuple[Floats, Floats]] = field(default_factory=dict)

    @property
    def turn(self) -> Floats:
        """The turn (3, 3) that the floor gives the piece."""
        return np.eye(3) if self.stance is None else self.stance.turn

    @property
    def move(self) -> Floats:
        """From piece to opening coordinates, after the turn (3,) [mm]."""
        return np.array([*self.shift, 0.0 if self.stance is None else self.stance.raised])

    def tightest(self) -> tuple[Gap, ...]:
        """The smallest gap on each side, whatever it is against, a door's leaf too, and wherever on the way in."""
        found: dict[str, Gap] = {}
        leaves = [Gap(s.side, s.gap, s.height, 0.0, against=s.name) for s in self.swings if np.isfinite(s.gap)]
        for gap in (*self.gaps, *self.passed, *self.things, *leaves):
            if gap.side not in found or gap.value < found[gap.side].value:
                found[gap.side] = gap
        return tuple(found.values())
