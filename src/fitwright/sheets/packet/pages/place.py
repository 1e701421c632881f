"""The place sheet: the piece in its opening, from the front and from above."""

from __future__ import annotations

from collections.abc import Sequence
from math import degrees, isfinite

from fitwright.assess import Assessment
from fitwright.job.model import Job, Measured, Neighbour, Opening
from fitwright.place import Fit, Gap
from fitwright.place.model import Reach
from fitwright.place.told.floor import shims_said
from fitwright.sheets.drawing import Drawing
from fitwright.sheets.drawing.model import View
from fitwright.sheets.packet.model import Json, Page
from fitwright.sheets.packet.surroundings import Surroundings, front_picture, plan_picture
from fitwright.sheets.packet.tables import ColumnTold, table
from fitwright.units import Style

DRAWN = ("left", "right", "back")
EMPTY = ("", "", "", "")

NOTES = (
    "Walls are taken as straight between the places where they were measured; casters turn any way. "
    "From above, the line of dashes and dots is the front of the opening. ± holds 19 times in 20.",
)


def place_page(assessment: Assessment, whole: Drawing) -> Page | None:
    """The front where widths or heights were surveyed, the plan where depths were; None without a survey."""
    fit, opening = assessment.fit, assessment.job.space.opening
    if fit is None or opening is None:
        return None
    around = Surroundings(assessment.job, opening, fit, assessment.piece.envelope)
    pictures, views = {}, []
    if around.walls.widths or opening.tops:
        pictures["front"] = front_picture(around, _view(whole, "front"))
        views.append(["front", "from the front"])
    if around.walls.depths:
        pictures["plan"] = plan_picture(around, _view(whole, "top"))
        views.append(["plan", "from above"])
    content = {
        "views": views,
        "measured": _measured(opening, assessment.job),
        "gaps": _gaps((*fit.gaps, *fit.passed), assessment.job.style),
        "things": _things(around),
        "neighbours": _neighbours(assessment.job.space.neighbours, assessment.job.style),
        "notes": [*_told(fit, assessment.job), *NOTES],
    }
    return Page("place", "In its place", content, pictures)


def _view(whole: Drawing, name: str) -> View:
    return next(view for view in whole.views if view.name == name)


def _gaps(gaps: Sequence[Gap], style: Style) -> Json:
    columns: list[ColumnTold] = [
        ("side", "text", 2), ("smallest gap", "number", 2), ("at a height of", "number", 2), ("wanted", "number", 2),
        ("±", "number", 2), ("to the", "text", 2), ("measured on site", "text", 3),
    ]  # fmt: skip
    rows = [
        (
            f"{gap.side}, pushed in" if gap.before else gap.side,
            style.length(gap.value),
            style.length(gap.height),
            style.length(gap.wanted),
            style.length(gap.spread) if gap.spread else "",
            gap.against,
            "",
        )
        for gap in gaps
        if gap.wanted or gap.side in DRAWN
    ]
    return table(columns, rows)


def _things(around: Surroundings) -> Json:
    """Things and doors by their numbers in the pictures."""
    columns: list[ColumnTold] = [
        ("", "text", 1), ("what", "text", 4), ("smallest gap", "number", 4), ("±", "number", 3),
        ("to", "text", 4), ("at a height of", "number", 4), ("stays in reach; opens", "text", 6),
    ]  # fmt: skip
    style, fit = around.job.style, around.fit
    reached = {reach.name: _reached(reach, style) for reach in fit.reaches}
    gaps = {gap.against: gap for gap in fit.things}
    rows = []
    for name, number in around.numbered.items():
        if name in fit.boxes:
            gap = gaps.get(name)
            told = (
                (style.length(gap.value), style.length(gap.spread), gap.part, style.length(gap.height))
                if gap
                else EMPTY
            )
            rows.append((str(number), name, *told, reached.get(name, "")))
    swings = {swing.name: swing for swing in fit.swings}
    for door in around.job.space.doors:
        swing = swings[door.name]
        near = (style.length(swing.gap), "", "", style.length(swing.height)) if isfinite(swing.gap) else EMPTY
        says = f"opens {degrees(swing.opens):.0f}° of {degrees(swing.wanted):.0f}°"
        says += f", then strikes {swing.touches}" if swing.touches else ""
        rows.append((str(around.numbered[door.name]), door.name, *near, says))
    return table(columns, rows)


def _reached(reach: Reach, style: Style) -> str:
    way = f", past {', '.join(reach.in_way)}" if reach.in_way else ""
    return f"from the {reach.side}, {style.length(reach.far)} in{way}"


def _told(fit: Fit, job: Job) -> list[str]:
    """How it is pushed in, how shelves come out, how it stands, in words."""
    said = [
        f"Pushed in from the front it comes nearest on the {gap.side} {job.style.length(gap.before)} before its place."
        for gap in fit.passed
    ]
    if fit.stance is not None and fit.stance.rolls:
        stands = fit.stance
        said.append(
            f"On its casters {stands.touching} of {len(stands.feet)} touch the floor; it leans by "
            f"{degrees(stands.tilt):.2f}° and rocks by {job.style.length(stands.rock)}. At the feet, from above: "
            "how far each is off the floor."
        )
    elif fit.stance is not None:
        said.append(f"For level on the floor as it is, under each foot or turned out: {shims_said(job, fit.stance)}.")
    moves: dict[str, list[str]] = {}
    for way in fit.ways_out:
        moves.setdefault(", ".join(way.moves), []).append(way.name)
    said += [f"To take out {', '.join(names)}: {how}." for how, names in moves.items() if how]
    return said


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


def _measured(opening: Opening, job: Job) -> list[str]:
    """What was surveyed, in words."""
    style = job.style
    told = (("wide", "width", "up"), ("deep", "depth", "up"), ("high", "height", "from the left"))
    said = []
    for word, what, where in told:
        sizes = [one for one in opening.measures if one.what == what]
        if len(sizes) > 1:
            said.append(f"{word}: " + ", ".join(_size(one, where, style) for one in sizes))
        elif sizes:
            said.append(f"{word}: {style.length(sizes[0].size)}")
    leaning = [f"{side} {style.length(lean)}" for side, lean in opening.lean.items() if lean]
    said += [f"leaning in at the top: {', '.join(leaning)}"] if leaning else []
    if opening.plan is not None:
        said.append("from above: " + ", ".join(f"{name} {style.length(x)}" for name, x in opening.plan.lengths.items()))
    if job.space.floor:
        levels = [f"{style.length(h)} at {style.length(x)}, {style.length(y)}" for (x, y), h in job.space.floor]
        said.append("floor: " + "; ".join(levels))
    return said


def _size(one: Measured, where: str, style: Style) -> str:
    station = f", {style.length(one.station)} in" if one.station else ""
    return f"{style.length(one.size)} at {style.length(one.at)} {where}{station}"
