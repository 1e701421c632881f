"""The solids of boards and of bought things."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from fitwright.piece.fittings import caster_shape, swivel_reach
from fitwright.piece.model import Board, Hardware
from fitwright.sheets.solids.kernel import box, cylinder

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape


def board_shape(board: Board) -> TopoDS_Shape:
    """A board as the box it is."""
    return box(board.low, board.high)


def hardware_shapes(item: Hardware) -> dict[str, TopoDS_Shape]:
    """The solids of a bought thing by name: wheel and fork of a caster, a foot, a fitting of known size.

    Screws, bolts and things of unknown size have none.
    """
    if item.kind == "caster":
        shape = caster_shape(item)
        return {
            "wheel": cylinder(shape.hub, shape.axle, shape.wheel / 2),
            "fork": box(shape.fork_low, shape.fork_high),
        }
    if item.kind == "foot" and item.drop > 0 and swivel_reach(item) > 0:
        drop = np.array([0.0, 0.0, item.drop])
        return {"foot": cylinder(item.at - drop, drop, swivel_reach(item))}
    size = np.array([float(item.properties.get(f"size_{axis}", 0.0)) for axis in "xyz"])
    if item.kind == "fitting" and size.all():
        return {"fitting": box(item.at - size / 2, item.at + size / 2)}
    return {}
