"""Why a part is as long and as heavy as it is."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.assess import Assessment
from fitwright.making.bending import BendSheet
from fitwright.piece.model import Board, Mark, Member
from fitwright.units import FOOT, POUND, Style
from fitwright.web.dependents import dims_of, users
from fitwright.web.errors import NotThere
from fitwright.web.pages.why.dims import dim_input, place_input
from fitwright.web.pages.why.reason import Input, Reason

STRAIGHT = "ends trimmed to what they meet, measured tip to tip along the axis"
BENT = (
    "each bend takes up its arc on the centreline; ends trimmed to what they meet; allowances as the shop file has them"
)
SAWN = "the panel's size in the job file"
BOUGHT = "as the job file has it"


def reason_of_part(assessment: Assessment, text: str, mark: str) -> Reason:
    """A mark's cut length, size and weight; text: the job file's. Raises NotThere."""
    piece = assessment.piece
    found = next((one for one in piece.marks if one.mark == mark), None)
    if found is None:
        raise NotThere(f"there is no part marked {mark[:40]!r} in this piece")
    member = assessment.made.get(mark)
    if member is not None:
        return _member(assessment, text, found, member)
    for panel in piece.panels:
        for k, board in enumerate(panel.boards):
            if f"{panel.name} {board.role} {k + 1}" == found.names[0]:
                return _board(assessment, text, found, board, panel.part)
    item = next(one for one in piece.hardware if one.name in found.names)
    weight = f"{assessment.job.style.weight(item.mass)} each"
    return Reason(
        f"{mark}: {item.label}",
        "bought",
        (),
        BOUGHT,
        part_inputs(assessment, text, item.part),
        rows=(("weight", weight),),
    )


def part_inputs(assessment: Assessment, text: str, part: str) -> tuple[Input, ...]:
    """The dims that a part hangs on, and its own lines in the job file."""
    job = assessment.job
    dims = [dim_input(job, name) for name in dims_of(users(text), ("part", part)) if name in job.dims]
    return (*dims, place_input(job, "part", part))


def _member(assessment: Assessment, text: str, mark: Mark, member: Member) -> Reason:
    style, sheet = assessment.job.style, assessment.bend_sheets.get(mark.mark)
    answer = style.length(sheet.blank if sheet else member.cut_length)
    steps = _blank(sheet, style) if sheet else _straight(member, style)
    ends = " and ".join(cut.kind.value for cut in member.ends)
    weight = f"{_running(member.stock.mass_per_m, style)}: {style.weight(member.mass)} each, {mark.quantity} of it"
    return Reason(
        f"{mark.mark}: {member.part}",
        f"{'blank' if sheet else 'cut'} {answer}",
        tuple(steps),
        BENT if sheet else STRAIGHT,
        part_inputs(assessment, text, member.part),
        rows=(("stock", member.stock.label), ("ends", ends), ("weight", weight)),
    )


def _straight(member: Member, style: Style) -> Iterator[str]:
    yield f"{style.length(member.path.length)} as drawn"
    for word, cut in zip(("first", "second"), member.ends, strict=True):
        yield f"{_signed(cut.longest, style)} at the {word} end ({cut.kind.value}), to its longest point"
    yield f"= {style.length(member.cut_length)} tip to tip"


def _blank(sheet: BendSheet, style: Style) -> Iterator[str]:
    for step in sheet.steps:
        yield f"{'+ ' if step.number > 1 else ''}{style.length(step.straight_before)} straight"
        bend = f"{style.angle(step.angle)} of radius {style.length(step.radius)}"
        yield f"+ {style.length(step.taken_up)} in bend {step.number}: {bend}"
    yield f"+ {style.length(sheet.last_straight)} straight"
    yield f"= {style.length(sheet.finished)} finished"
    for trim in sheet.trims:
        if trim.allowance:
            yield f"+ {style.length(trim.allowance)} left on at the {trim.end}, cut off after bending"
    yield f"= {style.length(sheet.blank)} blank"


def _board(assessment: Assessment, text: str, mark: Mark, board: Board, part: str) -> Reason:
    style = assessment.job.style
    size = " × ".join(style.length(x) for x in (board.length, board.width, board.thickness))
    density = board.stock.material.density
    weight = f"{size} at {_dense(density, style)}: {style.weight(board.mass)} each, {mark.quantity} of it"
    rows = (("stock", board.stock.label), ("weight", weight))
    return Reason(
        f"{mark.mark}: {board.role} of {part}", size, (), SAWN, part_inputs(assessment, text, part), rows=rows
    )


def _running(kg_per_m: float, style: Style) -> str:
    inch = style.unit == "inch"
    return f"{kg_per_m * FOOT / 1000.0 / POUND:.3f} lb/ft" if inch else f"{kg_per_m:.3f} kg/m"


def _dense(kg_per_m3: float, style: Style) -> str:
    inch = style.unit == "inch"
    return f"{kg_per_m3 * (FOOT / 1000.0) ** 3 / POUND:.1f} lb/ft³" if inch else f"{kg_per_m3:.0f} kg/m³"


def _signed(mm: float, style: Style) -> str:
    return f"{'+' if mm >= 0 else '−'} {style.length(abs(mm))}"
