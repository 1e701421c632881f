"""Welding: which weld where, tacks first, then the order that moves the piece least, and what it uses up."""

from __future__ import annotations

from fitwright.making.welding.listing import weld_list
from fitwright.making.welding.model import (
    Bracket,
    Caution,
    MapPoint,
    Tack,
    Used,
    Weld,
    WeldPlan,
    WeldStep,
)
from fitwright.making.welding.plan import weld_plan

__all__ = [
    "Bracket",
    "Caution",
    "MapPoint",
    "Tack",
    "Used",
    "Weld",
    "WeldPlan",
    "WeldStep",
    "weld_list",
    "weld_plan",
]
