"""The timber of a piece, put together."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from fitwright.findings import Finding, at_least
from fitwright.job.model import Job
from fitwright.making.timber.layout import layout_of
from fitwright.making.timber.model import Layout, Movement, PanelWork, Spacer, StopSetting, TimberWork
from fitwright.making.timber.movement import fixings_in, movement_of
from fitwright.making.timber.order import order_of
from fitwright.making.timber.spares import spares_of
from fitwright.making.timber.tables import table
from fitwright.piece.model import Panel, Piece
from fitwright.units import Style

AREA = "timber"
THIN_GAP = 0.1


def timber_work(piece: Piece, job: Job, yields: Mapping[str, float] | None = None) -> TimberWork:
    """Screws, spacers, stops, movement and order of work for every part that makes panels, and the spare boards.

    yields: by kind of wood (`softwood`, `hardwood`), the fraction of a board that the shop reckons to be usable; the
    table's where not given. Raises TimberError for a fraction that cannot be.
    """
    made = piece.panels_by_part.values()
    works = tuple(_work(piece, job, panels) for panels in made if not panels[0].stock.material.is_metal)
    found = [finding for work in works if work.layout for finding in _findings(work.part, work.layout, job)]
    return TimberWork(works, spares_of(piece, yields), tuple(found))


def _work(piece: Piece, job: Job, panels: Sequence[Panel]) -> PanelWork:
    panel, style = panels[0], job.style
    layout = layout_of(piece, panel, style.unit)
    spacer, stops = spacer_of(panel), stops_of(panels)
    fixings, movement = fixings_in(job, piece, panel), movement_of(job, panel, layout)
    return PanelWork(
        part=panel.part,
        kind=panel.kind,
        panels=len(panels),
        layout=layout,
        spacer=spacer,
        stops=stops,
        movement=movement,
        fixings=fixings,
        order=order_of(panel, len(panels), stops, layout, spacer, fixings, style),
        notes=tuple(_notes(layout, movement, style)),
    )


def spacer_of(panel: Panel) -> Spacer | None:
    """The block for the gaps and where each board begins; None without gaps."""
    boards = [board for board in panel.boards if board.role == "slat"]
    if panel.gap < THIN_GAP or len(boards) < 2:
        return None
    across = boards[0].across
    starts = tuple(sorted(float(board.low[across] - panel.low[across]) for board in boards))
    told = table("spacer")
    return Spacer(panel.gap, int(told["count"]), boards[0].thickness + float(told["shorter"]), starts)


def stops_of(panels: Sequence[Panel]) -> tuple[StopSetting, ...]:
    """The stop settings for a batch, longest first."""
    counted: dict[tuple[float, str, str], int] = {}
    for panel in panels:
        for board in panel.boards:
            key = (round(board.length, 3), board.role, board.stock.label)
            counted[key] = counted.get(key, 0) + 1
    return tuple(
        StopSetting(length, role, stock, count)
        for (length, role, stock), count in sorted(counted.items(), key=lambda one: -one[0][0])
        if role != "sheet"
    )


def _notes(layout: Layout | None, movement: Movement | None, style: Style) -> list[str]:
    if layout is None:
        return []
    screw = layout.screw
    said = [
        f"Screw {screw.label}: {style.length(layout.bite)} in the board, {style.length(layout.cover)} of wood left "
        "under the face that shows."
    ]
    if layout.given and layout.given != layout.count:
        said.append(f"The job file counts {layout.given} screws for one panel; this layout takes {layout.count}.")
    if layout.count < 2 * layout.crossings:
        said.append(
            f"{layout.count} screws for {layout.crossings} crossings: two at the outer boards first; two at every "
            f"crossing would take {2 * layout.crossings}."
        )
    limit = table("movement")["between_screws"]
    if movement is not None and (movement.between_screws or 0.0) > limit:
        said.append(
            f"A board moves {style.length(movement.between_screws or 0.0)} between its two screws with the seasons: "
            "bore the second hole of each pair in the batten a drill size larger."
        )
    return said


def _findings(part: str, layout: Layout, job: Job) -> list[Finding]:
    """Whether the layout keeps its distances; the screw's length and its edge are looked at by the checks already."""
    rules, diameter, style = table("spacing"), layout.screw.diameter, job.style
    limit = rules["end"] * diameter
    return [
        at_least(
            AREA, part, "screws to the end of a board", layout.end, limit, "mm", tight=0.0, basis=str(rules["basis"]),
            advice=f"set the battens at least {style.length(limit)} in from the ends, or take a thinner screw",
            formula=f"{layout.end:.1f} mm; {rules['end']:g} x {diameter:.1f} mm = {limit:.1f} mm",
        ),
        at_least(
            AREA, part, "screws for the crossings", float(layout.given or layout.count), float(layout.count), "",
            tight=0.0, basis="common practice: one at each crossing at least",
            advice=f"buy {layout.count} for each panel",
            formula=f"{layout.given or layout.count} for {layout.crossings} crossings",
        ),
    ]  # fmt: skip
