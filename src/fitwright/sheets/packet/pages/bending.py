"""Bend sheets: one for each distinct bent member."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.assess import Assessment
from fitwright.making.bending import BendSheet, BendStep
from fitwright.making.bending.thinning import expected_ovality, inner_wall, outer_wall
from fitwright.making.bending.turning import TURN_RAD, turned
from fitwright.piece.model import Mark
from fitwright.sheets.drawing import Drawing
from fitwright.sheets.packet.bentshape import bent_picture, flat
from fitwright.sheets.packet.model import Json, Page
from fitwright.sheets.packet.tables import ColumnTold, table
from fitwright.stock import RoundTube, Stock
from fitwright.units import Style

TURNS = (
    "Rotate: before the bend turn the tube about its own axis, as seen from its unbent end looking toward the start: "
    "↻ clockwise, ↺ the other way. Counted from where it lay for bend 1, so that errors do not add up."
)
FLAT = "All bends lie in one plane: do not turn the tube between them."


def bend_pages(assessment: Assessment) -> Iterator[tuple[str, Page]]:
    """The page of each bent mark; its picture is called `part`."""
    marks = {mark.mark: mark for mark in assessment.member_marks}
    for mark, sheet in assessment.bend_sheets.items():
        yield mark, _page(assessment, marks[mark], sheet, bent_picture(assessment, marks[mark], sheet))


def _page(assessment: Assessment, mark: Mark, sheet: BendSheet, picture: Drawing) -> Page:
    style, member = assessment.job.style, assessment.made[mark.mark]
    content = {
        "mark": mark.mark,
        "blank": style.length(sheet.blank),
        "stock": f"{member.part}: {sheet.stock}",
        "made": f"{member.stock.material.name}. Make {mark.quantity}:",
        "quantity": mark.quantity,
        "steps": _steps(sheet, style),
        "remarks": list(_remarks(sheet, style)),
        "notes": [*_mirrored(assessment, mark), *sheet.notes],
        "walls": _walls(sheet, member.stock, style),
    }
    return Page("bending", f"Bend sheet: {member.part}", content, {"part": picture})


def _mirrored(assessment: Assessment, mark: Mark) -> Iterator[str]:
    if mark.mirror_of:
        yield f"This is {mark.mirror_of} as in a mirror: the same lengths and angles, every turn the other way."
    for other in assessment.member_marks:
        if other.mirror_of == mark.mark:
            yield f"{other.mark} is this one as in a mirror: it has a sheet of its own."


def _steps(sheet: BendSheet, style: Style) -> Json:
    turning = _turning(sheet)
    columns: list[ColumnTold] = [
        ("bend", "mark", None),
        ("mark at", "number", 1.3),
        *([("rotate to", "number", 1)] if turning else []),  # type: ignore[list-item]
        ("bend to", "number", 1),
        ("to get", "number", 1),
        ("straight before", "number", 1.2),
        ("die", "text", 1.2),
        ("done", "boxes", None),
    ]
    return table(columns, [_step(step, style, turning) for step in sheet.steps])


def _step(step: BendStep, style: Style, turning: bool) -> tuple[object, ...]:
    turn = (turned(step.turned, style),) if turning else ()
    return (
        str(step.number),
        style.length(step.mark),
        *turn,
        style.angle(step.command_angle),
        style.angle(step.angle),
        style.length(step.straight_before),
        step.die or "none fits",
        1,
    )


def _turning(sheet: BendSheet) -> bool:
    return any(abs(step.rotation) > TURN_RAD for step in sheet.steps)


def _remarks(sheet: BendSheet, style: Style) -> Iterator[str]:
    if len(sheet.steps) > 1:
        yield TURNS if _turning(sheet) else FLAT
    if _turning(sheet) and flat(sheet):
        yield "A turn of 180° bends to the other side in the same plane."
    offset = any(abs(step.mark - step.tangent) > style.step_mm / 4 for step in sheet.steps)
    yield (
        "Marks are measured on the blank from its starting end to the die's own mark."
        if offset
        else "Marks are where each bend begins, measured on the blank from its starting end."
    )
    if not sheet.ring:
        yield f"Straight after the last bend, when finished: {style.length(sheet.last_straight)}."


def _walls(sheet: BendSheet, stock: Stock, style: Style) -> Json | None:
    """What a round tube looks like in the bend, one row a radius."""
    section = stock.section
    if not isinstance(section, RoundTube):
        return None
    columns: list[ColumnTold] = [
        ("radius on the centreline", "number", 1), ("wall before", "number", 1), ("outside of the bend", "number", 1),
        ("inside of it", "number", 1), ("out of round, about", "number", 1),
    ]  # fmt: skip
    rows = [
        (
            style.length(radius),
            _thin(section.wall, style),
            _thin(outer_wall(section.wall, section.od, radius), style),
            _thin(inner_wall(section.wall, section.od, radius), style),
            f"{100 * expected_ovality(section.od, radius):.1f} %",
        )
        for radius in sorted({round(step.radius, 3) for step in sheet.steps})
    ]
    return table(columns, rows)


def _thin(mm: float, style: Style) -> str:
    """A wall, finer than lengths are printed.

    >>> _thin(2.108, Style.inch()), _thin(2.0, Style.metric())
    ('0.083"', '2.00 mm')
    """
    return f'{mm / 25.4:.3f}"' if style.unit == "inch" else f"{mm:.2f} mm"
