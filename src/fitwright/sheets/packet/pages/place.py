"""The place sheet: the piece in its opening, from the front and from above."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.assess import Assessment
from fitwright.job.model import Neighbour, Opening
from fitwright.place.space import Gap
from fitwright.sheets.drawing import Drawing
from fitwright.sheets.drawing.model import View
from fitwright.sheets.packet.model import Json, Page
from fitwright.sheets.packet.surroundings import Surroundings, front_picture, plan_picture
from fitwright.sheets.packet.tables import ColumnTold, table
from fitwright.units import Style

DRAWN = ("left", "right", "back")

NOTES = (
    "Walls are taken as straight between the heights where they were measured; casters turn any way. "
    "From above, the line of dashes and dots is the front of the opening.",
)


def place_page(assessment: Assessment, whole: Drawing) -> Page | None:
    """The front where widths or heights were surveyed, the plan where depths were; None without a survey."""
    fit, opening = assessment.fit, assessment.job.space.opening
    if fit is None or opening is None:
        return None
    around = Surroundings(assessment.job, opening, fit, assessment.piece.envelope)
    pictures, views = {}, []
    if opening.widths or opening.tops:
        pictures["front"] = front_picture(around, _view(whole, "front"))
        views.append(["front", "from the front"])
    if opening.depths:
        pictures["plan"] = plan_picture(around, _view(whole, "top"))
        views.append(["plan", "from above"])
    content = {
        "views": views,
        "measured": _measured(opening, assessment.job.style),
        "gaps": _gaps(fit.gaps, assessment.job.style),
        "neighbours": _neighbours(assessment.job.space.neighbours, assessment.job.style),
        "notes": list(NOTES),
    }
    return Page("place", "In its place", content, pictures)


def _view(whole: Drawing, name: str) -> View:
    return next(view for view in whole.views if view.name == name)


def _gaps(gaps: Sequence[Gap], style: Style) -> Json:
    columns: list[ColumnTold] = [
        ("side", "text", 2), ("smallest gap", "number", 2), ("at a height of", "number", 2), ("wanted", "number", 2),
        ("measured on site", "text", 2),
    ]  # fmt: skip
    rows = [
        (gap.side, style.length(gap.value), style.length(gap.height), style.length(gap.wanted), "")
        for gap in gaps
        if gap.wanted or gap.side in DRAWN
    ]
    return table(columns, rows)


def _neighbours(neighbours: Sequence[Neighbour], style: Style) -> Json:
    columns: list[ColumnTold] = [
        ("what", "text", 2), ("side", "text", 1), ("height", "number", 1), ("depth", "number", 1),
        ("has to match", "text", 2),
    ]  # fmt: skip
    rows = [
        (
            neighbour.name,
            neighbour.side,
            "" if neighbour.height is None else style.length(neighbour.height),
            "" if neighbour.depth is None else style.length(neighbour.depth),
            ", ".join(f"{what}, within {style.length(neighbour.within)}" for what in neighbour.match),
        )
        for neighbour in neighbours
    ]
    return table(columns, rows)


def _measured(opening: Opening, style: Style) -> list[str]:
    """What was surveyed, in words."""
    told = (("wide", opening.widths, "up"), ("deep", opening.depths, "up"), ("high", opening.tops, "from the left"))
    said = [
        f"{word}: " + ", ".join(f"{style.length(size)} at {style.length(at)} {where}" for at, size in pairs)
        if len(pairs) > 1
        else f"{word}: {style.length(pairs[0][1])}"
        for word, pairs, where in told
        if pairs
    ]
    leaning = [f"{side} {style.length(lean)}" for side, lean in opening.lean.items() if lean]
    return said + ([f"leaning in at the top: {', '.join(leaning)}"] if leaning else [])
