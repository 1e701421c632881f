"""What the welder is given: welds with their sizes, tacks, the order, what moves, what is used up."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from fitwright.findings import Finding
from fitwright.mechanics.shrinkage import Bead, Movement, Pull, WeldKind

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Tack:
    """One tack: number in the order of tacking, weld it belongs to, place (3,) and length [mm], which side in words."""

    number: int
    weld: int
    at: Floats
    length: float
    side: str


@dataclass(frozen=True, eq=False)
class Used:
    """What a weld uses up: filler bought [kg], weld metal laid down [kg], gas [l], time the arc burns [s]."""

    filler: float = 0.0
    metal: float = 0.0
    gas: float = 0.0
    arc_time: float = 0.0

    def __add__(self, other: Used) -> Used:
        return Used(
            self.filler + other.filler,
            self.metal + other.metal,
            self.gas + other.gas,
            self.arc_time + other.arc_time,
        )


@dataclass(frozen=True, eq=False)
class Weld:
    """One weld of the piece, all lengths in mm.

    number: as listed, from 1; name: such as `tie 1 on hoop 1`; joint: its index in the piece.
    length: of weld; around: all the way round the cut edge, welded or not.
    leg: to make (for a butt its depth); least, most: limits of the leg by thickness and burn-through; throat.
    gap: mean gap to be filled; area: cross-section [mm2]; heat: [J/mm]; current [A]; voltage [V].
    at: (3,) the middle of the seam; way: (3,) direction in which the joint is drawn.
    """

    number: int
    name: str
    joint: int
    first: str
    second: str
    kind: WeldKind
    thickness: float
    length: float
    around: float
    leg: float
    least: float
    most: float
    throat: float
    gap: float
    area: float
    heat: float
    current: float
    voltage: float
    at: Floats
    way: Floats
    used: Used
    bead: Bead


@dataclass(frozen=True, eq=False)
class WeldStep:
    """One run in its order: number from 1, weld it belongs to, side in words, whether it is the second side there."""

    number: int
    weld: int
    side: str
    toward: Floats
    length: float
    second: bool


@dataclass(frozen=True, eq=False)
class MapPoint:
    """A balloon of the weld map: weld number, where it is (3,) [mm], its order numbers and size in words."""

    weld: int
    at: Floats
    orders: tuple[int, ...]
    size: str


@dataclass(frozen=True)
class Caution:
    """A caution, the welds it is about (empty: all), its basis, and what it follows from, as `closed`."""

    words: str
    basis: str
    welds: tuple[int, ...] = ()
    when: str = ""


@dataclass(frozen=True, eq=False)
class Bracket:
    """How far a group moves in two orders: root mean square of its points, listed and proposed [mm]."""

    members: tuple[str, ...]
    listed: float
    proposed: float
    tried: int
    stopped: bool
    listed_largest: tuple[Movement, ...]
    largest: tuple[Movement, ...]
    largest_clamp_force: float


@dataclass(frozen=True, eq=False)
class WeldPlan:
    """Everything about welding a piece.

    tacks: in the order of tacking; steps: runs in the order proposed; groups: what is welded together, with the
    movement in both orders; pull: the whole forecast; words: the largest movements, such as `the open ends of A1
    (hoop) pull
    in by
    0.4 to 1.1 mm`; limits: what the forecast does not cover.
    """

    welds: tuple[Weld, ...]
    tacks: tuple[Tack, ...]
    steps: tuple[WeldStep, ...]
    groups: tuple[Bracket, ...]
    pull: Pull
    used: Used
    words: tuple[str, ...]
    order_words: tuple[str, ...]
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    map_points: tuple[MapPoint, ...]
    limits: tuple[str, ...] = field(default=())
