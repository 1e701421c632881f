"""A piece of furniture made into a frame: where its members run, how they join, what they stand on."""

from __future__ import annotations

from fitwright.mechanics.framing.building import framed
from fitwright.mechanics.framing.model import Foot, Framed, JointPlace, NotFramed, PanelPath
from fitwright.mechanics.framing.sections import with_stock
from fitwright.mechanics.framing.standing import floor_feet, holding

__all__ = ["Foot", "Framed", "JointPlace", "NotFramed", "PanelPath", "floor_feet", "framed", "holding", "with_stock"]
