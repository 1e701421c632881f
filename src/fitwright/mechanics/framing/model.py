"""A piece as a frame: the model, and which part of the piece each of its nodes and elements is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from fitwright.mechanics.framing.line import WorkingLine
from fitwright.mechanics.model import Bools, Floats, FrameError, FrameModel, Ints
from fitwright.piece.model import Hardware, Piece
from fitwright.stock import Stock


class NotFramed(FrameError):
    """A piece that cannot be made into a frame: nothing to stand on, hardware fixed to nothing, no metal at all."""


@dataclass(frozen=True, eq=False)
class Foot:
    """Where the piece stands on the floor: the name of caster, foot or member end, its node, and whether it grips.

    kind: caster, foot or end. grips: friction holds it sideways (not a rolling caster, but one with its brake on).
    """

    name: str
    kind: str
    node: int
    grips: bool
    hardware: Hardware | None = None


@dataclass(frozen=True, eq=False)
class JointPlace:
    """A joint of the piece in the frame.

    node: shared by the two members. ends: (element, 0 or 1) of the joint's first member that meet at it.
    link: index of the spring link that stands for it (a bolted lap), else None.
    """

    joint: int
    node: int
    ends: tuple[tuple[int, int], ...]
    link: int | None = None


@dataclass(frozen=True, eq=False)
class PanelPath:
    """How a panel's load gets into the frame.

    centres: (c, 3) and areas: (c,) of the cells into which its face is cut [mm, mm2].
    share: (m, c) of each cell's load that each element takes as a line load, and node_share: (n, c) that goes to nodes.
    arm: (m, 3) from each element's middle to where the panel bears on it [mm]. loose: words when it has no load path.
    """

    panel: int
    centres: Floats
    areas: Floats
    share: Floats
    node_share: Floats
    arm: Floats
    loose: str = ""


@dataclass(frozen=True, eq=False)
class Framed:
    """A piece as a frame; n nodes, m elements.

    lines: the working line of each framed member by its index (sleeves are left out).
    member_of: (m,) index of the member that each element belongs to. stations: (m, 2) s at its two ends [mm].
    curved: (m,) true for a chord of a bend. turned: (m,) +1 where local z is the section's v, -1 where against it.
    stocks: the stock of each member. feet: where it stands; held: nodes held to walls, with the words for how.
    push_height: of the push from the side [mm], where every member that passes it has a node.
    """

    piece: Piece
    model: FrameModel
    lines: Mapping[int, WorkingLine]
    member_of: Ints
    stations: Floats
    curved: Bools
    turned: Floats
    stocks: tuple[Stock, ...]
    feet: tuple[Foot, ...]
    held: Mapping[int, str]
    joints: tuple[JointPlace, ...]
    panels: tuple[PanelPath, ...]
    push_height: float

    @cached_property
    def elements_of(self) -> Mapping[int, Ints]:
        """The elements of each member in order along its path."""
        return {k: np.flatnonzero(self.member_of == k) for k in self.lines}

    @cached_property
    def middles(self) -> Floats:
        """(m, 3) the middles of the elements [mm]."""
        middles: Floats = self.model.ends.mean(axis=1)
        return middles

    @cached_property
    def lengths(self) -> Floats:
        """(m,) lengths of the elements [mm]."""
        return np.asarray(np.linalg.norm(self.model.ends[:, 1] - self.model.ends[:, 0], axis=1))

    @cached_property
    def slope(self) -> Floats:
        """(m,) how steep each element is: 0 level, 1 upright."""
        rise = self.model.ends[:, 1, 2] - self.model.ends[:, 0, 2]
        return np.asarray(np.abs(rise) / self.lengths)

    def moved_ends(self, displacements: Floats) -> Floats:
        """(m, 2, 3, ...) where the ends of the elements go under displacements (n, 6, ...) [mm]."""
        at = displacements[self.model.elements]
        arms = self.model.offsets
        turned = np.cross(at[:, :, 3:], arms.reshape(arms.shape + (1,) * (at.ndim - 3)), axis=2)
        return np.asarray(at[:, :, :3] + turned)
