"""What is worked out for timber: per part of the job file that makes panels, and spare boards per stock."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from fitwright.findings import Finding

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Screw:
    """A wood screw [mm]; asked: the job file names it, else it was chosen from what is sold."""

    label: str
    diameter: float
    length: float
    asked: bool
    basis: str


@dataclass(frozen=True, eq=False)
class Layout:
    """Where the screws of one panel go, driven through the battens into the boards; all in mm.

    points: (n, 2) in the panel's own axes, along the boards and across them from its low corner.
    rows: for drilling the battens, all alike: distance of the fence from the low edge, and places from the low end.
    apart: of two screws in one board, across its grain; 0 where it has one at each batten.
    edge, end, between: the least that comes out; bite: in the board; cover: wood left under the face that shows.
    pilot, clearance: diameters of the drills; depth: from the batten's face, where the drill stops.
    given: how many the job file counts for one panel, 0 when none.
    """

    screw: Screw
    points: Floats
    rows: tuple[tuple[float, tuple[float, ...]], ...]
    apart: float
    edge: float
    end: float
    between: float
    bite: float
    cover: float
    pilot: float
    clearance: float
    depth: float
    given: int
    crossings: int

    @property
    def count(self) -> int:
        """How many screws one panel takes."""
        return len(self.points)


@dataclass(frozen=True)
class Movement:
    """What the seasons do across the grain [mm], from one moisture to another [%].

    change: of the whole width between the two; gap, least_gap: as made, and when the boards have swollen; None without
    gaps. between_screws: of a board between two screws in it; None where it has one.
    """

    dry: float
    humid: float
    change: float
    gap: float | None
    least_gap: float | None
    between_screws: float | None
    basis: str


@dataclass(frozen=True)
class Fixing:
    """One thing that holds a solid top: where [mm] from its low corner along and across the grain, how far it moves.

    slot: how much longer across the grain than its screw is thick the slot must be; 0 where it is tight.
    """

    name: str
    label: str
    along: float
    across: float
    moves: float
    slot: float


@dataclass(frozen=True)
class Spacer:
    """A block as thick as the gap, how many, how long each [mm]; starts: of the boards from the panel's low edge."""

    thickness: float
    count: int
    length: float
    starts: tuple[float, ...]


@dataclass(frozen=True)
class StopSetting:
    """One setting of the saw's stop [mm]: which boards, how many in all, of which stock."""

    length: float
    role: str
    stock: str
    count: int


@dataclass(frozen=True)
class Spare:
    """Boards cut beyond what is counted, so that those with knots or checks can be left out.

    length: of the longest, from which any other can be cut [mm]; fraction: of the stock that is reckoned to be usable.
    """

    stock: str
    length: float
    count: int
    fraction: float
    basis: str


@dataclass(frozen=True, eq=False)
class PanelWork:
    """One part's panels: how many alike, screws, spacer, stops, movement, fixings, and the order of work in words."""

    part: str
    kind: str
    panels: int
    layout: Layout | None
    spacer: Spacer | None
    stops: tuple[StopSetting, ...]
    movement: Movement | None
    fixings: tuple[Fixing, ...]
    order: tuple[str, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, eq=False)
class TimberWork:
    """Everything about the timber of a piece."""

    panels: tuple[PanelWork, ...]
    spares: tuple[Spare, ...]
    findings: tuple[Finding, ...] = field(default=())

    def of(self, part: str) -> PanelWork | None:
        """The work on one part's panels."""
        return next((work for work in self.panels if work.part == part), None)
