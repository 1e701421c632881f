"""The box round the piece: as it stands, with its casters swept through their swivel, with its shelves taken out."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.fittings import caster_shape, swivel_reach
from fitwright.piece.model import Envelope, Hardware, Panel
from fitwright.piece.path import Vector
from fitwright.piece.solid import Trimmed

Floats = NDArray[np.float64]
Box = tuple[Vector, Vector]


def envelope(members: list[Trimmed], panels: list[Panel], hardware: list[Hardware]) -> Envelope:
    """Extents of all parts together [mm]; a shelf's way out is its own depth along its direction of removal."""
    hardware = [item for item in hardware if item.placed]
    fixed = [member.box for member in members] + [(panel.low, panel.high) for panel in panels]
    still = fixed + [hardware_box(item, swept=False) for item in hardware]
    swept = fixed + [hardware_box(item, swept=True) for item in hardware]
    removal = swept + [removal_box(panel) for panel in panels if panel.removable is not None]
    return Envelope(*_around(still), *_around(swept), *_around(removal))


def hardware_box(item: Hardware, *, swept: bool) -> Box:
    """Low and high corners (3,) of a piece of hardware [mm]; a caster's wheel trails to the back until it is swept."""
    if item.kind == "caster" and not swept:
        shape = caster_shape(item)
        tread = np.array([0.0, shape.wheel / 2, shape.wheel / 2])
        return np.minimum(shape.hub - tread, shape.fork_low), np.maximum(
            shape.hub + shape.axle + tread, shape.fork_high
        )
    if item.kind in ("caster", "foot"):
        flat = np.array([swivel_reach(item), swivel_reach(item), 0.0])
        return item.at - flat - np.array([0, 0, item.drop]), item.at + flat
    size = np.array([float(item.properties.get(f"size_{axis}", 0.0)) for axis in "xyz"])
    return item.at - size / 2, item.at + size / 2


def removal_box(panel: Panel) -> Box:
    """The box that a removable panel sweeps until it has left its place (low, high) [mm]."""
    assert panel.removable is not None
    travel = panel.removable * float(np.abs((panel.high - panel.low) @ panel.removable))
    return np.minimum(panel.low, panel.low + travel), np.maximum(panel.high, panel.high + travel)


def _around(boxes: list[Box]) -> Box:
    boxes = boxes or [(np.zeros(3), np.zeros(3))]
    return np.min([box[0] for box in boxes], axis=0), np.max([box[1] for box in boxes], axis=0)
