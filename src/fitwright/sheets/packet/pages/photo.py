"""The sheet "photo and piece": the old photo with its marks, the new piece laid over it, measures and dims."""

from __future__ import annotations

from fitwright.assess import Assessment
from fitwright.job.marks import Arc, Height, Length, Quantity, Spacing, Tube
from fitwright.place.photo import MarksError, Measured, Solved, doubts
from fitwright.place.photo.answering import PhotoAnswer
from fitwright.place.photo.showing import AXES_IN_WORDS, shown_marks
from fitwright.place.photo.solving import LIKELY
from fitwright.place.photo.telling import amount, camera_line, give, labels
from fitwright.place.photo.wishing import DimProposal, PhotoDims
from fitwright.sheets.packet.model import Json, Page
from fitwright.sheets.packet.tables import ColumnTold, table
from fitwright.sheets.photo_drawing import Shot, marked_shot, piece_shot, printed
from fitwright.sheets.photo_piece import piece_seen
from fitwright.units import Style

WIDEST, TALLEST = 88.0, 120.0
"""Room for each of two pictures beside one another: width, height [mm]."""
MOST_NOTES = 4
AT_SCALE = "the new piece over it, made {grown:.2f} times as large, as the old one was"
LEGEND = (
    "Edges marked: full lines run left to right, long dashes front to back, dots upwards. Every ± holds in 95 of 100 "
    "cases. A letter is what was known."
)
AS_IT_IS = "the new piece over it, as large as it will be"


def photo_page(assessment: Assessment) -> Page | None:
    """None without a photo, or where its marks give no answer, which a finding says."""
    answer = assessment.photo
    if answer is None or answer.solved is None:
        return None
    numbers = labels(answer.solved.photo)
    style = assessment.job.style
    content = {
        "captions": {"marked": "the old piece, with what was marked and measured", "piece": _caption(answer.dims)},
        "measures": _measures(answer.solved, numbers, style),
        "dims": _dims(answer.dims, style) if answer.dims else None,
        "sized": answer.dims is None or answer.dims.sized,
        "notes": _notes(answer, style),
    }
    return Page("photo", "Photo and piece", content, shots=_shots(assessment, answer, numbers))


def _shots(assessment: Assessment, answer: PhotoAnswer, numbers: dict[str, str]) -> dict[str, tuple[Shot, float]]:
    """Both pictures, and how wide each is printed [mm]; none where the picture is not at hand."""
    solved = answer.solved
    if solved is None or answer.data is None:
        return {}
    jpeg = printed(answer.data)
    shots = {"marked": marked_shot(shown_marks(solved), numbers, solved.size, jpeg)}
    try:
        lines = piece_seen(solved, assessment.piece, _grown(answer.dims))
        shots["piece"] = piece_shot(lines, solved.size, jpeg)
    except MarksError:
        pass  # no spot says where it is on the piece: the notes say so
    wide = min(WIDEST, TALLEST * solved.size[0] / solved.size[1])
    return {name: (shot, wide) for name, shot in shots.items()}


def _grown(dims: PhotoDims | None) -> float:
    return 1 / dims.scale if dims is not None and dims.sized else 1.0


def _caption(dims: PhotoDims | None) -> str:
    return AS_IT_IS if dims is None or not dims.sized else AT_SCALE.format(grown=_grown(dims))


def _measures(solved: Solved, numbers: dict[str, str], style: Style) -> Json:
    columns: list[ColumnTold] = [("", "mark", None), ("measured", "text", 1), ("", "number", None)]  # fmt: skip
    known = [
        (numbers[name], (name, "known"), (style.length(one.value), f"± {give(LIKELY * one.sigma, style)}"))
        for name, one in solved.photo.known.items()
    ]
    return table(columns, [*known, *(_measure(one, numbers, style) for one in solved.measures)])


def _measure(one: Measured, numbers: dict[str, str], style: Style) -> tuple[str | tuple[str, str], ...]:
    if one.value is None or one.plus_minus is None:
        return (numbers[one.name], one.name, amount(one, style))
    part = 100 * one.plus_minus / max(one.value, 1e-9)
    value = (style.length(one.value), f"± {give(one.plus_minus, style)}, {part:.1f} %")
    return (numbers[one.name], (one.name, _kind(one.quantity)), value)


def _kind(quantity: Quantity) -> str:
    """What is measured, in words."""
    match quantity:
        case Arc():
            return "radius of the middle line"
        case Tube():
            return "diameter"
        case Spacing():
            return "from one to the next"
        case Height():
            return "height over the floor"
        case Length():
            way = AXES_IN_WORDS.get(quantity.along or quantity.across or "", quantity.along or quantity.across)
            return f"length, {way}" if way else "straight distance"


def _dims(dims: PhotoDims, style: Style) -> Json:
    columns: list[ColumnTold] = [
        ("dim", "text", 1), ("old piece", "number", None), ("in proportion", "number", None),
        ("proposed", "number", None), ("in the job", "number", None),
    ]  # fmt: skip
    return table(columns, [_dim(row, dims.sized, style) for row in dims.rows])


def _dim(row: DimProposal, sized: bool, style: Style) -> tuple[str | tuple[str, str], ...]:
    old = style.length(row.old.value) if sized else f"{row.old.value:.3f}"
    why = "held" if row.mark.held else row.proposed.why.value
    now = style.length(row.now) + ("" if row.agrees else " (!)")
    shown = (style.length(row.proposed.shown), f"± {give(row.spread, style)}")
    return ((row.mark.name, why), old, shown, style.length(row.proposed.value), now)


def _notes(answer: PhotoAnswer, style: Style) -> list[str]:
    assert answer.solved is not None
    told = [LEGEND, camera_line(answer.solved)]
    told += [doubt.text for doubt in doubts(answer.solved)][:MOST_NOTES]
    told += list(answer.not_found)[:1]
    if answer.data is None:
        told.append(f"{answer.solved.photo.picture or 'the picture'} is not beside the job file, so it is not shown")
    elif not any(spot.place for spot in answer.solved.photo.spots.values()):
        told.append("say for one spot where it is on the piece (is: [x, y, z]), and the piece is laid over the photo")
    if answer.wrong:
        told.append(answer.wrong)
    return told
