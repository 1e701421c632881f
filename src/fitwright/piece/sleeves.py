"""The sleeves inside butts: those of closed members, and those that the joints ask for."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from fitwright.job.model import End
from fitwright.piece.body import Body
from fitwright.piece.ends import Layout, Meeting
from fitwright.piece.model import JointKind
from fitwright.piece.path import Vector, straight_path
from fitwright.piece.sticks import Stick
from fitwright.stock import Stock

DIAMETERS_LONG = 3.0


def sleeve_sticks(layout: Layout) -> list[tuple[Stick, Meeting | None]]:
    """Every sleeve, with the butt that it lies in (None for that of a closed member); indices follow the members'."""
    closed = [stick for stick in layout.sticks if stick.body.path.closed]
    wanted: list[Wanted] = [(stick, None, stick.spec.butt.sleeve, stick.spec.butt.length) for stick in closed]
    wanted += [_asked(layout, meeting) for meeting in layout.meetings if meeting.kind is JointKind.BUTT]
    found: list[tuple[Stick, Meeting | None]] = []
    taken: Counter[str] = Counter()
    for stick, meeting, sleeve, length in wanted:
        if sleeve is not None:
            name = f"{stick.name} sleeve"
            taken[name] += 1
            name += f" {taken[name]}" if taken[name] > 1 else ""
            index = len(layout.sticks) + len(found)
            found.append((_sleeve(stick, meeting, sleeve, length, name, index), meeting))
    return found


Wanted = tuple[Stick, Meeting | None, Stock | None, float | None]


def _asked(layout: Layout, meeting: Meeting) -> Wanted:
    said = layout.said(meeting.first, meeting.second)
    return layout.sticks[meeting.first], meeting, said.sleeve if said else None, said.length if said else None


def _sleeve(stick: Stick, meeting: Meeting | None, sleeve: Stock, length: float | None, name: str, index: int) -> Stick:
    low, high, *_ = stick.stock.section.extents
    half = (length or DIAMETERS_LONG * (high - low)) / 2
    end = 0 if meeting is None else meeting.end
    middle: Vector = stick.body.path.start if meeting is None else meeting.point
    along = stick.body.outward(end)
    body = Body(straight_path(middle - half * along, middle + half * along), stick.body.frame_at(end), sleeve.section)
    spec = replace(stick.spec, name=f"{stick.part} sleeve", stock=sleeve, ring=False, closed=False)
    return Stick(
        index, name, spec.name, spec, sleeve, body, (End.FREE, End.FREE), (None, None), (None, None), stick.index
    )
