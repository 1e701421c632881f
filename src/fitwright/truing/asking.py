"""From the words of a reading to where it is taken on this piece."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from fitwright.job.readings import Of, Quantity
from fitwright.truing.asked import loose, openings, set_up, standing
from fitwright.truing.asked.subject import Subject
from fitwright.truing.functional import Asked


class Asking(Subject):
    """A piece that answers where a reading is taken."""

    def of(self, of: Of) -> Asked:
        """Where a reading is taken. Raises TruingError for what this piece does not have, saying what it has."""
        return _ASKED[of.quantity](self, of)


_ASKED: Mapping[Quantity, Callable[[Subject, Of], Asked]] = {
    Quantity.BEND: loose.bend,
    Quantity.ROTATION: loose.rotation,
    Quantity.CUT_LENGTH: loose.cut_length,
    Quantity.LEG: loose.leg,
    Quantity.SPREAD: loose.spread,
    Quantity.WIDTH: standing.across,
    Quantity.DEPTH: standing.across,
    Quantity.HEIGHT: standing.height,
    Quantity.DIAGONAL: standing.diagonal,
    Quantity.ALONG: set_up.along,
    Quantity.ABOVE_BENCH: set_up.above_bench,
    Quantity.TWIST: set_up.twist,
    Quantity.FOOT_HEIGHT: openings.foot_height,
    Quantity.FOOT_GAP: openings.foot_gap,
    Quantity.FOR_SHELF: openings.for_shelf,
    Quantity.ABOVE_SHELF: openings.above_shelf,
    Quantity.CLEAR: openings.clear,
    Quantity.PAINT: openings.paint,
    Quantity.JOINT_GAP: openings.joint_gap,
    Quantity.WALL_GAP: openings.wall_gap,
}
