"""What the piece is made of, once every part is placed and trimmed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from enum import StrEnum
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fitwright.errors import FitwrightError
from fitwright.piece.body import Body
from fitwright.piece.path import Path, Vector
from fitwright.stock import Stock


class PieceError(FitwrightError, ValueError):
    """The parts as drawn cannot be built; `problems` holds every reason found, each naming part and coordinate."""

    def __init__(self, problems: tuple[str, ...]) -> None:
        super().__init__("\n".join(problems))
        self.problems = problems


class CutKind(StrEnum):
    """How an end is cut."""

    SQUARE = "square"
    MITRE = "mitre"
    COPE = "cope"
    FLATTENED = "flattened"


@dataclass(frozen=True, eq=False)
class Plane:
    """A cutting plane through `point` (3,) whose `normal` (3,) points away from the material that stays."""

    point: Vector
    normal: Vector


@dataclass(frozen=True, eq=False)
class EndCut:
    """How one end of a member is cut.

    kind and angle: the tilt of a plane cut from square [rad]; 0 for square and cope.
    planes: the material stays on their inner side; copes: indices of the members whose outside it is fitted to.
    longest, shortest: where the material stops along the member's axis, from the drawn end, positive beyond it [mm].
    """

    kind: CutKind
    angle: float = 0.0
    planes: tuple[Plane, ...] = ()
    copes: tuple[int, ...] = ()
    longest: float = 0.0
    shortest: float = 0.0


@dataclass(frozen=True, eq=False)
class Member:
    """A length of one section along a path, placed and trimmed.

    name: unique in the piece, "hoop 2"; part: the job file's name, "hoop"; body: its untrimmed solid.
    cut_length: blank to saw, tip to tip along the axis, bends developed on the centreline [mm].
    """

    index: int
    name: str
    part: str
    stock: Stock
    body: Body
    ends: tuple[EndCut, EndCut]
    ring: bool
    fastened: str
    cut_length: float
    mass: float
    centre: Vector
    sleeve_of: int | None = None

    @property
    def path(self) -> Path:
        """The line of the section's origin."""
        return self.body.path


@dataclass(frozen=True, eq=False)
class Board:
    """A rectangular piece of a panel: axis-aligned box from low to high (3,) [mm], grain or boards along an axis."""

    role: str
    stock: Stock
    low: Vector
    high: Vector
    along: int
    across: int

    @property
    def size(self) -> Vector:
        """Extents (3,) [mm]."""
        return self.high - self.low

    @property
    def length(self) -> float:
        """Along the grain [mm]."""
        return float(self.size[self.along])

    @property
    def width(self) -> float:
        """Across the grain [mm]."""
        return float(self.size[self.across])

    @property
    def thickness(self) -> float:
        """The remaining extent [mm]."""
        return float(self.size[3 - self.along - self.across])

    @property
    def mass(self) -> float:
        """Mass [kg]."""
        return float(np.prod(self.size)) * self.stock.material.density * 1e-9


@dataclass(frozen=True, eq=False)
class Panel:
    """A slatted shelf, a solid top or a sheet, with its boards; `gap` between slats [mm]."""

    name: str
    part: str
    kind: str
    stock: Stock
    boards: tuple[Board, ...]
    normal: int
    grows: int
    gap: float
    removable: Vector | None
    fastened: str
    rests_on: tuple[int, ...] = ()

    @cached_property
    def low(self) -> Vector:
        """Lowest corner of all its boards (3,) [mm]."""
        return np.asarray(np.min([board.low for board in self.boards], axis=0))

    @cached_property
    def high(self) -> Vector:
        """Highest corner of all its boards (3,) [mm]."""
        return np.asarray(np.max([board.high for board in self.boards], axis=0))

    @property
    def mass(self) -> float:
        """Mass [kg]."""
        return sum(board.mass for board in self.boards)

    @property
    def centre(self) -> Vector:
        """Centre of mass (3,) [mm]."""
        moments = sum((board.mass * (board.low + board.high) / 2 for board in self.boards), np.zeros(3))
        centre: Vector = moments / self.mass
        return centre


@dataclass(frozen=True, eq=False)
class Hardware:
    """One bought thing at a point (3,) [mm]; `drop` is its height downward from there [mm].

    placed: False for what is only counted, such as a bag of screws; its point then means nothing.
    """

    name: str
    part: str
    kind: str
    label: str
    at: Vector
    properties: Mapping[str, float | str | bool]
    mass: float
    price: Decimal | None
    each: int
    placed: bool = True

    @property
    def drop(self) -> float:
        """How far a caster or foot reaches below the point where it is fixed [mm]."""
        return float(self.properties.get("height", 0.0)) if self.kind in ("caster", "foot") else 0.0


@dataclass(frozen=True, eq=False)
class Opening:
    """A box to keep clear (low, high (3,) [mm]) and what intrudes on it: (name, how deep [mm])."""

    name: str
    low: Vector
    high: Vector
    intruders: tuple[tuple[str, float], ...]


class JointKind(StrEnum):
    """How parts meet."""

    TEE = "tee"
    CORNER = "corner"
    BUTT = "butt"
    CROSSING = "crossing"
    LAP = "lap"
    BOLTED = "bolted"


@dataclass(frozen=True, eq=False)
class Joint:
    """Where members meet: indices of the two, which end of the first (0, 1 or None), the point (3,) [mm]."""

    kind: JointKind
    first: int
    second: int
    end: int | None
    point: Vector
    sleeve: int | None = None
    bolted: bool = False


@dataclass(frozen=True)
class Mark:
    """One distinct thing to make: its mark, the names of the pieces that are it, and the mark it mirrors."""

    mark: str
    kind: str
    names: tuple[str, ...]
    mirror_of: str | None = None

    @property
    def quantity(self) -> int:
        """How many are made."""
        return len(self.names)


@dataclass(frozen=True, eq=False)
class Envelope:
    """Extents [mm]: of the parts; with casters swept through their swivel; with shelves on their way out."""

    low: Vector
    high: Vector
    swept_low: Vector
    swept_high: Vector
    removal_low: Vector
    removal_high: Vector

    @property
    def size(self) -> Vector:
        """Width, depth, height (3,) [mm], casters swept."""
        return self.swept_high - self.swept_low


@dataclass(frozen=True, eq=False)
class Piece:
    """The thing to build."""

    members: tuple[Member, ...]
    panels: tuple[Panel, ...]
    hardware: tuple[Hardware, ...]
    openings: tuple[Opening, ...]
    joints: tuple[Joint, ...]
    marks: tuple[Mark, ...]
    envelope: Envelope
    mass: float
    centre: Vector
    mark_of: Mapping[str, str] = field(default_factory=dict)

    @cached_property
    def panels_by_part(self) -> Mapping[str, tuple[Panel, ...]]:
        """The panels that each part of the job file makes, all alike, in the order of the file."""
        return {
            part: tuple(panel for panel in self.panels if panel.part == part)
            for part in dict.fromkeys(panel.part for panel in self.panels)
        }


Floats = NDArray[np.float64]
