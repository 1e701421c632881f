"""The order of work on a batch of equal panels, in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from fitwright.making.timber.model import Fixing, Layout, Spacer, StopSetting
from fitwright.piece.model import Panel
from fitwright.units import Style

ROLES = {"solid": "board"}


def order_of(
    panel: Panel,
    panels: int,
    stops: Sequence[StopSetting],
    layout: Layout | None,
    spacer: Spacer | None,
    fixings: Sequence[Fixing],
    style: Style,
) -> tuple[str, ...]:
    """Each operation once, on all pieces, before the next is set up."""
    return tuple(_steps(panel, panels, stops, layout, spacer, fixings, style))


def _steps(
    panel: Panel,
    panels: int,
    stops: Sequence[StopSetting],
    layout: Layout | None,
    spacer: Spacer | None,
    fixings: Sequence[Fixing],
    style: Style,
) -> Iterator[str]:
    yield "Look through the boards: cut off checked ends, mark the face that shows, put knotty boards aside as spares."
    for stop in stops:
        role = ROLES.get(stop.role, stop.role)
        what = f"{role}s" if stop.count > 1 else role
        yield f"Set the stop once to {style.length(stop.length)} and cut all {stop.count} {what}."
    if panel.kind == "solid":
        yield from _glued(panel, style)
    yield "Break all edges and sand every board with the grain before anything is put together: 80, 120, 180."
    if layout is not None:
        yield from _drilled(layout, style)
        yield from _screwed(panels, layout, spacer, style)
    yield from (_held(fixings, style) if fixings else ())
    if panel.removable is not None:
        yield "Try each in its place, and mark it where it fits best."


def _glued(panel: Panel, style: Style) -> Iterator[str]:
    if len(panel.boards) == 1:
        return
    width = style.length(float(panel.boards[0].width))
    yield (
        f"Rip and joint {len(panel.boards)} boards to {width}, lay them with the grain running the same way, mark them "
        "with a triangle across all the joints."
    )
    yield (
        "Glue up flat between cauls, the ends against a stop because they are cut to length already, clamps over and "
        "under in turn; scrape the glue when it is like rubber."
    )
    yield "Flatten with a plane or a long board, across the joints first, then with the grain."


def _drilled(layout: Layout, style: Style) -> Iterator[str]:
    rows = "; ".join(
        f"fence {style.length(fence)} from the edge, at {', '.join(style.bare(at) for at in places)} from the end"
        for fence, places in layout.rows
    )
    yield f"Drill {drill(layout.clearance, style)} holes in the battens, all alike: {rows}."


def _screwed(panels: int, layout: Layout, spacer: Spacer | None, style: Style) -> Iterator[str]:
    if spacer is not None:
        starts = ", ".join(style.bare(at) for at in spacer.starts)
        yield (
            f"Lay the boards face down against a straight edge and a stop, {spacer.count} spacers of "
            f"{style.fine().length(spacer.thickness)} in each gap; boards begin at {starts} from the low edge."
        )
    yield (
        f"Through the battens bore {drill(layout.pilot, style)} pilots, the drill stopped at "
        f"{style.length(layout.depth)} from the batten's face, and drive {layout.count} screws {layout.screw.label}; "
        "the last one only when both diagonals read the same."
    )
    if panels > 1:
        yield f"Leave stop and straight edge where they are and lay the other {panels - 1} on the same marks."


def _held(fixings: Sequence[Fixing], style: Style) -> Iterator[str]:
    slotted = [fixing for fixing in fixings if fixing.slot]
    if slotted:
        longest = max(fixing.slot for fixing in slotted)
        yield (
            f"Hold the top down through slots across the grain, {style.length(longest)} longer than the screw is "
            f"thick, the screw in the middle of its slot: {len(slotted)} of {len(fixings)} fixings; the rest tight."
        )


def drill(diameter: float, style: Style) -> str:
    """A drill's size: by 1/64 in, or in mm.

    >>> drill(2.778125, Style.inch()), drill(4.5, Style.metric())
    ('7/64"', '4.5 mm')
    """
    return Style.inch(Fraction(1, 64)).length(diameter) if style.unit == "inch" else f"{diameter:.1f} mm"
