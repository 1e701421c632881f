"""The piece as it is coming out instead of as it is drawn: parts moved by what was measured on them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.body import Body
from fitwright.piece.model import Board, Hardware, Panel, Plane
from fitwright.piece.path import Path, Vector
from fitwright.piece.sticks import Stick

Floats = NDArray[np.float64]
Shift = tuple[Vector, Vector]


@dataclass(frozen=True, eq=False)
class Moves:
    """How parts lie otherwise than drawn [mm], by their names.

    members: (v, 3) of each vertex of the path. panels: (3,) of the low and of the high corner. hardware: (3,) each.
    """

    members: Mapping[str, Floats] = field(default_factory=dict)
    panels: Mapping[str, Shift] = field(default_factory=dict)
    hardware: Mapping[str, Vector] = field(default_factory=dict)

    def plus(self, more: Moves) -> Moves:
        """These moves, and then more of them on top."""
        return Moves(
            _summed(self.members, more.members),
            {
                name: (
                    _at(self.panels, name, 0) + _at(more.panels, name, 0),
                    _at(self.panels, name, 1) + _at(more.panels, name, 1),
                )
                for name in {**self.panels, **more.panels}
            },
            _summed(self.hardware, more.hardware),
        )

    def stick(self, stick: Stick) -> Stick:
        """A stick in its place as made; its bends keep their radii, its section its directions."""
        moved = self.members.get(stick.name)
        if moved is None:
            return stick
        path = stick.body.path
        body = Body(
            Path(path.vertices + moved, path.radii, path.closed, path.seam), stick.body.frame, stick.body.section
        )
        first, last = (_shifted(plane, moved[at]) for plane, at in zip(stick.mitres, (0, -1), strict=True))
        return replace(stick, body=body, mitres=(first, last))

    def panel(self, panel: Panel) -> Panel:
        """A panel stretched to its corners as made: boards along the stretch grow, boards beside one another move."""
        shift = self.panels.get(panel.name)
        if shift is None:
            return panel
        low, high = panel.low, panel.high
        return replace(panel, boards=tuple(_stretched(board, low, high, shift) for board in panel.boards))

    def item(self, item: Hardware) -> Hardware:
        """Hardware in its place as made."""
        moved = self.hardware.get(item.name)
        return item if moved is None else replace(item, at=item.at + moved)


def _summed(one: Mapping[str, Floats], other: Mapping[str, Floats]) -> dict[str, Floats]:
    return {name: np.asarray(one.get(name, 0.0) + other.get(name, np.zeros(1))) for name in {**one, **other}}


def _at(panels: Mapping[str, Shift], name: str, corner: int) -> Vector:
    return panels[name][corner] if name in panels else np.zeros(3)


def _shifted(plane: Plane | None, by: Vector) -> Plane | None:
    return None if plane is None else Plane(plane.point + by, plane.normal)


def _stretched(board: Board, low: Vector, high: Vector, shift: Shift) -> Board:
    """A board whose ends lie at both ends of the panel's extent grows with it; else it moves by its share."""
    first, last = board.low.copy(), board.high.copy()
    for axis in range(3):
        extent = max(float(high[axis] - low[axis]), 1e-9)
        own_width = axis == board.across and board.role != "sheet"
        ends = (board.low[axis], board.high[axis])
        middle = sum(ends) / 2
        for end, at in zip((first, last), (middle, middle) if own_width else ends, strict=True):
            share = float(at - low[axis]) / extent
            end[axis] += (1 - share) * shift[0][axis] + share * shift[1][axis]
    return replace(board, low=first, high=last)
