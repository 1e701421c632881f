"""A template as it lies flat, and what it takes to put it in the right place on the member."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.model import CutKind

Floats = NDArray[np.float64]

END_WORDS = ("start", "finish")


class Seam(StrEnum):
    """Which line along the member the two edges of the paper meet on."""

    ANYWHERE = "anywhere"
    SHARED = "shared"
    """A line along the whole member; the template of the other end starts on the same one."""
    BACK = "back"
    """The line along the back (the outside) of the bend nearest to the end."""
    HEEL = "heel"
    """No seam: the paper is folded over the heel of an angle."""


class Measured(StrEnum):
    """Where the distance to the base line is measured from."""

    TIP = "tip"
    """From the end of the blank, sawn to its length from tip to tip."""
    TANGENT = "tangent"
    """From the tangent point of the bend nearest to the end."""


@dataclass(frozen=True)
class Placement:
    """Where the base line of a template goes: `distance` along the member [mm], and what it is measured from.

    into_bend: the cut reaches back into a bend, where the paper cannot lie flat.
    """

    measured: Measured
    distance: float
    into_bend: bool = False


@dataclass(frozen=True)
class FlatLine:
    """A line up the template at `at` [mm] from its left edge; fold: the paper is creased there; else a centre line."""

    at: float
    label: str
    fold: bool = False


@dataclass(frozen=True, eq=False)
class Template:
    """The outside of one end unrolled: x to the right round the member, y along it toward the end, printed side out.

    mark, member, end: whose; stock: its label; kind: cope or mitre; meets: the marks that the end is fitted to.
    girth: width of the paper, the length of the outside all round, or over both legs of an angle [mm].
    around (n,): x [mm] from 0 to girth; heights above the base line, each (n,) [mm]:
    square: the line to cut to when the cut goes square through the wall; nowhere does it run into what it is fitted
    to, and somewhere through the wall it touches all along.
    bevelled: where the surface that is met cuts the outside; to be cut to when the wall is then bevelled to fit all
    through. inside: where it cuts the inside of the wall. All three are one line for solid bars.
    lines: folds and centre lines. seam: the line along the member that the left edge lies on; seam_at: from the
    member's own line to that one, where the member is in the piece, (3,) [mm]; side: the side of a flat-sided section
    that it is the middle of [mm], None for others.
    seam_turn: from the seam of the start to the seam of the finish, carried along the bends, and tip_turn: the least
    turn between a longest point of the start and one of the finish, both clockwise looking along the member from its
    start [rad]; None unless both ends have a template that is wrapped.
    gap: when cut square through the wall, the widest that the outer edge stands off what it is fitted to [mm].
    bevel: the steepest bevel through the wall, from square to the surface [rad].
    """

    mark: str
    member: str
    end: int
    stock: str
    kind: CutKind
    meets: tuple[str, ...]
    girth: float
    around: Floats
    square: Floats
    bevelled: Floats
    inside: Floats
    lines: tuple[FlatLine, ...]
    seam: Seam
    seam_at: Floats
    side: float | None
    seam_turn: float | None
    tip_turn: float | None
    placement: Placement
    gap: float
    bevel: float

    @property
    def end_word(self) -> str:
        """Which end it is for: `start` or `finish`."""
        return END_WORDS[self.end]

    @property
    def height(self) -> float:
        """From the base line to the longest point of the outside [mm]."""
        return float(self.bevelled.max())

    def at(self, x: Floats, line: Floats) -> Floats:
        """Heights (k,) [mm] of one of the lines (n,) at places x (k,) [mm]."""
        return np.asarray(np.interp(x, self.around, line))


@dataclass(frozen=True)
class Use:
    """One end that a template serves: its own template, and how many members of its mark are made.

    turned: the paper goes half way round, its seam on the line straight across from the one that the seam is said to
    lie on, as at the second end of a slanted tube.
    """

    template: Template
    quantity: int
    turned: bool = False


@dataclass(frozen=True)
class CopeSheet:
    """One template to print, and every end it serves."""

    template: Template
    uses: tuple[Use, ...]

    @property
    def quantity(self) -> int:
        """How many ends are cut with it."""
        return sum(use.quantity for use in self.uses)

    @property
    def name(self) -> str:
        """The name its files go by, such as `C1-start`."""
        return f"{self.template.mark}-{self.template.end_word}"
