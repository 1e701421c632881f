"""The bend sheet: what the person at the bender needs, in the order of the work."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.making.bending.springback import Springback
from fitwright.making.bending.table import BendTable
from fitwright.piece.model import CutKind, EndCut

FULL_TURN = 2 * math.pi - 1e-3


@dataclass(frozen=True)
class EndNeed:
    """Where the finished end lies along the axis from the path's end, positive beyond it [mm], and when it is cut.

    longest, shortest: of the tip; after_bending: coped or mitred once the bends are made; it needs an allowance.
    """

    longest: float = 0.0
    shortest: float = 0.0
    after_bending: bool = False

    @staticmethod
    def of(cut: EndCut) -> EndNeed:
        """What an end cut of the piece asks of the bender."""
        return EndNeed(cut.longest, cut.shortest, cut.kind in (CutKind.COPE, CutKind.MITRE))


@dataclass(frozen=True)
class BendStep:
    """One bend at the machine; lengths in mm, angles in rad.

    mark: from the blank's starting end to where the mark goes: tangent point plus the die's offset.
    tangent: from the same end to where the bend begins. straight_before: of the finished member.
    rotation: from the plane of the last bend, right-handed looking the way the tube travels; turned: the sum of them.
    command_angle: to bend to, so that `angle` remains; the same as `angle` where springback is not known.
    command_radius: to roll to; the same as `radius` on a draw die. taken_up: length of tube in the bend.
    depth: size of the section across the bend; stretch: strain of its outermost fibre; 0 where no stock is given.
    die: its name, "" where the shop has none.
    """

    number: int
    mark: float
    tangent: float
    straight_before: float
    rotation: float
    turned: float
    angle: float
    command_angle: float
    radius: float
    command_radius: float
    taken_up: float
    depth: float
    stretch: float
    die: str
    springback: Springback | None


@dataclass(frozen=True)
class Trim:
    """How an end is brought to length after bending; lengths in mm.

    end: "start" or "finish", as the tube is bent. keep: straight that remains from the tangent point to the tip.
    measured: from where `place` says to the tip, along the leg.
    """

    end: str
    allowance: float
    keep: float
    measured: float
    place: str


@dataclass(frozen=True)
class Collision:
    """What a bent part of the tube runs into while a step is made."""

    step: int
    what: str


@dataclass(frozen=True)
class BendSheet:
    """Everything about bending one member; lengths in mm, angles in rad.

    table: in the order of making; backwards: the work starts at the end of the path as drawn.
    developed: length of the whole path with what each bend takes up; finished: tip to tip, bends developed;
    blank: what the saw cuts, allowances included. trims: at the start and at the finish.
    collisions: of the order chosen, None where the shop gives no machine to check against.
    """

    subject: str
    stock: str
    closed: bool
    backwards: bool
    table: BendTable
    steps: tuple[BendStep, ...]
    last_straight: float
    developed: float
    finished: float
    blank: float
    trims: tuple[Trim, Trim]
    collisions: tuple[Collision, ...] | None
    notes: tuple[str, ...]

    @property
    def started_from(self) -> str:
        """Which end of the path as drawn is the tube's starting end: "first" or "last"."""
        return "last" if self.backwards else "first"

    @property
    def ring(self) -> bool:
        """Whether the whole member is one bend of a full turn."""
        return len(self.steps) == 1 and self.steps[0].angle > FULL_TURN
