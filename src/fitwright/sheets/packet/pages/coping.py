"""Templates for coped and mitred ends, at true size."""

from __future__ import annotations

from collections.abc import Iterator
from math import degrees, radians

from fitwright.assess import Assessment
from fitwright.making.coping import CopeSheet, Measured, Seam, Template, Use, title_of
from fitwright.sheets.drawing import Paper
from fitwright.sheets.packet.model import Json, Page
from fitwright.sheets.packet.tables import ColumnTold, table
from fitwright.sheets.template_drawing import RULER_HEIGHT, Tile, Tiled, ruler_drawing, template_drawing, tiled
from fitwright.sheets.wording import fine
from fitwright.units import Style

SIDE = 15.0  # margin left and right [mm], as the page style has it
TOP_AND_FOOT = 34.0
CAPTION = 8.5  # between rulers and template, with a line of words [mm]
IN_LINE_RAD = radians(0.05)
SQUARE_MM = 0.1

WRAP = (
    "Cut out along the full line. Wrap it round with the print outside and the arrow toward the end; "
    "the two ends of the base line meet exactly, and so do the edges."
)
FOLD = (
    "Cut out along the full line. Lay it on the two outer faces with the print outside and the arrow toward the end, "
    "folded at the heel. Leg a and leg b are the same legs at both ends: mark them on the bar."
)
PAPER = "Ordinary paper (0.1 mm) leaves the edges 0.3 mm apart: share that evenly."
TURNED = (
    "Turned: the paper goes half way round, its seam on the line straight across the tube from the one you scribed; "
    "half the girth away."
)
FOLDS = "Crease it at the thin lines, which lie on the corners."


def cope_pages(assessment: Assessment, paper: Paper) -> Iterator[Page]:
    """A page for every distinct template."""
    width, height = sorted((paper.width, paper.height))
    room = (width - 2 * SIDE, height - TOP_AND_FOOT - RULER_HEIGHT - CAPTION)
    for sheet in assessment.cope_templates:
        yield _page(assessment, sheet, room)


def _page(assessment: Assessment, sheet: CopeSheet, room: tuple[float, float]) -> Page:
    style, template = assessment.job.style, sheet.template
    printed = tiled(template_drawing(sheet, style), room)
    content: Json = {
        "mark": template.mark,
        "stock": f"{template.stock}: {sheet.quantity} {'ends' if sheet.quantity > 1 else 'end'}",
        "uses": _uses(sheet, style),
        "how": [*_how(template, style), *([TURNED] if any(use.turned for use in sheet.uses) else [])],
        "tiles": [_tile(printed, tile) for tile in printed.tiles],
    }
    pictures = {"template": printed.drawing, "rulers": ruler_drawing(room[0])}
    return Page("coping", title_of(sheet, assessment.made), content, pictures)


def _tile(printed: Tiled, tile: Tile) -> Json:
    """A window from the upper left of the picture, and what it is called where there are several."""
    number = printed.tiles.index(tile) + 1
    many = len(printed.tiles) > 1
    said = f"Sheet {number} of {len(printed.tiles)}: lay crosses with the same letter on one another." if many else None
    top = printed.drawing.paper.height - tile.y - tile.height
    return {"left": tile.x, "top": top, "width": tile.width, "height": tile.height, "said": said}


def _uses(sheet: CopeSheet, style: Style) -> Json:
    columns: list[ColumnTold] = [
        ("mark", "mark", None), ("end", "text", None), ("fits against", "text", 1), ("base line at", "number", None),
        ("measured from", "text", 1.6), ("done", "boxes", 2),
    ]  # fmt: skip
    return table(columns, [_use(use, style) for use in sheet.uses])


def _use(use: Use, style: Style) -> tuple[object, ...]:
    template = use.template
    away = fine(style).length(template.placement.distance)
    met = " ".join(template.meets) or "no member"
    end = f"{template.end_word}, turned" if use.turned else template.end_word
    return template.mark, end, met, away, _whence(template), use.quantity


def _whence(template: Template) -> str:
    if template.placement.measured is Measured.TIP:
        return "the sawn end of the blank"
    if template.placement.into_bend:
        return "the tangent point of the nearest bend; the cut reaches into the bend"
    return "the tangent point of the nearest bend"


def _how(template: Template, style: Style) -> Iterator[str]:
    """What to do, in order."""
    yield FOLD if template.seam is Seam.HEEL else WRAP
    if template.seam is not Seam.HEEL:
        yield FOLDS if template.side is not None else PAPER
    yield from _seam_words(template, style)
    yield from _line_words(template, style)


def _seam_words(template: Template, style: Style) -> Iterator[str]:
    where = "" if template.side is None else f" in the middle of a {style.length(template.side)} side"
    turn = template.seam_turn
    if template.seam is Seam.ANYWHERE:
        side = None if template.side is None else style.length(template.side)
        yield "The seam goes on any line." if side is None else f"The seam goes{where}: either one will do."
    if template.seam is Seam.SHARED:
        yield f"Scribe one line along the whole member{where}: the seams of both ends lie on it.{_twist(template)}"
    if template.seam is Seam.BACK:
        yield f"The seam lies along the back of the bend next to this end{where}."
        if turn is not None and abs(turn) > IN_LINE_RAD:
            yield (
                f"Marked before bending: the finish's seam is {_clockwise(turn)} from the start's, "
                "looking along the blank from its start."
            )
        elif turn is not None:
            yield "Marked before bending: both seams lie on one line along the blank."


def _twist(template: Template) -> str:
    turn = template.tip_turn
    if turn is None or abs(turn) < IN_LINE_RAD:
        return " Their longest points then stand in line."
    return f" The finish's longest point is then {_clockwise(turn)} from the start's, looking from the start."


def _clockwise(turn: float) -> str:
    """A turn in words.

    >>> _clockwise(radians(-30))
    '30.0° anticlockwise'
    """
    return f"{abs(degrees(turn)):.1f}° {'clockwise' if turn > 0 else 'anticlockwise'}"


def _line_words(template: Template, style: Style) -> Iterator[str]:
    """Which line is which, and how well each fits."""
    if float((template.bevelled - template.square).max()) < SQUARE_MM:
        yield "The line is where the cut meets the outside; keep the cut flat between opposite sides of it."
        return
    gap = f'{template.gap / 25.4:.2f}"' if style.unit == "inch" else f"{template.gap:.1f} mm"
    yield (
        "Full line: cut square through the wall. The inside edge touches all round and nothing has to give; "
        f"the outside edge stands off by {gap} at most, for the weld to fill."
    )
    yield (
        "Broken line: the outside edge for a cut without any gap. Cut to it, then bevel the inside back to suit, "
        f"by up to {degrees(template.bevel):.0f}°."
    )
