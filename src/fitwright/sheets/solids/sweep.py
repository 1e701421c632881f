"""A section carried along one segment of a path, as a solid with exact faces."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from fitwright.piece.path import Arc, Segment, Straight
from fitwright.sheets.solids.kernel import extruded, face, revolved
from fitwright.sheets.solids.profile import bore_loop, outer_loop
from fitwright.stock import Section

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Face, TopoDS_Shape

Floats = NDArray[np.float64]


def segment_solid(segment: Segment, frame: Floats, section: Section, *, filled: bool = False) -> TopoDS_Shape:
    """The solid of a segment, square at both ends; filled: its bore left in.

    frame: directions (2, 3) of the section's u and v at the segment's start; it may be left-handed.
    """
    base = _face(segment, frame, section, filled=filled)
    if isinstance(segment, Straight):
        return extruded(base, segment.end - segment.start)
    return revolved(base, segment.centre, segment.axis, segment.angle)


def ring_solid(first: Arc, frame: Floats, section: Section, *, filled: bool = False) -> TopoDS_Shape:
    """The solid of a full circle that begins with an arc."""
    return revolved(_face(first, frame, section, filled=filled), first.centre, first.axis, 2 * np.pi)


def _face(segment: Segment, frame: Floats, section: Section, *, filled: bool) -> TopoDS_Face:
    return face(outer_loop(section), None if filled else bore_loop(section), segment.start, frame)
