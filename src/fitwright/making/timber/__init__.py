"""Timber: shelves and tops from boards: screws, spacers, stops, spare boards, and how a top is left free to move."""

from fitwright.making.timber.errors import TimberError
from fitwright.making.timber.model import (
    Fixing,
    Layout,
    Movement,
    PanelWork,
    Screw,
    Spacer,
    Spare,
    StopSetting,
    TimberWork,
)
from fitwright.making.timber.screws import screw_for
from fitwright.making.timber.spares import spare_boards, yield_of
from fitwright.making.timber.work import timber_work

__all__ = [
    "Fixing",
    "Layout",
    "Movement",
    "PanelWork",
    "Screw",
    "Spacer",
    "Spare",
    "StopSetting",
    "TimberError",
    "TimberWork",
    "screw_for",
    "spare_boards",
    "timber_work",
    "yield_of",
]
