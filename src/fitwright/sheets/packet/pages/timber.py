"""Timber sheets: one for each distinct panel, seen square on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from fitwright.assess import Assessment
from fitwright.making.decking import panel_title
from fitwright.piece.model import Board, Panel
from fitwright.sheets.drawing import Drawing, LineKind, Sketch
from fitwright.sheets.drawing.model import DIMENSION_TEXT
from fitwright.sheets.packet.model import Json, Page
from fitwright.sheets.packet.pages.timberwork import facts_table, work_notes
from fitwright.sheets.packet.pictures import fitted
from fitwright.sheets.packet.tables import ColumnTold, table
from fitwright.sheets.wording import fine

ROOM = (175.0, 95.0)
LEAST_GAP_MM = 0.1
RINGS = 220  # to the length of the panel
ROOM_OVER_TEXT = 1.8  # of the height of a mark: the dimensions take a part of the room
Corner = tuple[float, float]


def timber_pages(assessment: Assessment) -> Iterator[Page]:
    """A sheet for each part of the job file that makes panels; its copies are the same panel."""
    for panels in assessment.piece.panels_by_part.values():
        yield _page(assessment, panels)


def _page(assessment: Assessment, panels: Sequence[Panel]) -> Page:
    panel = panels[0]
    marks = _marks(assessment, panel)
    letters = marks[0].rstrip("0123456789")
    work, style = assessment.timber_work.of(panel.part), assessment.job.style
    content = {
        "mark": letters,
        "what": f"{panel.part}: {panel.kind}, {_size(panel, assessment)}, "
        f"{assessment.job.style.weight(panel.mass)} each. Make {len(panels)}:",
        "quantity": len(panels),
        "boards": _boards(assessment, panel, marks, len(panels)),
        "facts": facts_table(work, style) if work is not None else None,
        "order": list(work.order) if work is not None else [],
        "notes": [
            *_notes(assessment, panel),
            *(work_notes(work, assessment.timber_work.spares, style) if work is not None else ()),
        ],
    }
    picture = panel_picture(panel, marks, assessment)
    return Page("timber", panel_title(panel), content, {"panel": picture})


def panel_picture(panel: Panel, marks: list[str], assessment: Assessment) -> Drawing:
    """The panel seen on its face, grain across the page; battens behind are dashed."""
    sketch = Sketch(assessment.job.style)
    for board in sorted(panel.boards, key=lambda board: board.along == panel.boards[0].along):
        low, high = _flat(panel, board)
        behind = board.along != panel.boards[0].along
        corners = [low, (high[0], low[1]), high, (low[0], high[1])]
        sketch.polyline(corners, LineKind.HIDDEN if behind else LineKind.VISIBLE, closed=True)
    _screws(sketch, panel, assessment)
    _dimensions(sketch, panel)
    _marked(sketch, panel, marks)
    return fitted(sketch, ROOM)


def _screws(sketch: Sketch, panel: Panel, assessment: Assessment) -> None:
    """A small ring for every screw and every fixing."""
    work = assessment.timber_work.of(panel.part)
    if work is None:
        return
    points = [] if work.layout is None else work.layout.points.tolist()
    for along, across in [*points, *((fixing.along, fixing.across) for fixing in work.fixings)]:
        sketch.circle((along, across), float((panel.high - panel.low).max()) / RINGS)


def _dimensions(sketch: Sketch, panel: Panel) -> None:
    """Overall, one board, one gap, and where the battens lie."""
    faces = [_flat(panel, board) for board in panel.boards if board.along == panel.boards[0].along]
    low = tuple(np.min([face[0] for face in faces], axis=0))
    high = tuple(np.max([face[1] for face in faces], axis=0))
    sketch.width(low, (high[0], low[1])).height((low[0], low[1]), (low[0], high[1]))
    if len(faces) > 1:
        first, second = sorted(faces, key=lambda face: face[0][1])[:2]
        sketch.height((high[0], first[0][1]), (high[0], first[1][1]), "right")
        if second[0][1] - first[1][1] > LEAST_GAP_MM:
            sketch.height((high[0], first[1][1]), (high[0], second[0][1]), "right")
    across = [_flat(panel, board) for board in panel.boards if board.along != panel.boards[0].along]
    for batten in across:
        sketch.width((low[0], high[1]), (batten[0][0], high[1]), "above")
    if across:
        sketch.width((across[0][0][0], high[1]), (across[0][1][0], high[1]), "above")


def _marked(sketch: Sketch, panel: Panel, marks: list[str]) -> None:
    """The mark of each board in its middle; of slats too narrow on paper, and of battens, one of a kind off beside."""
    run = panel.boards[0].along
    told: set[str] = set()
    for board, mark in zip(panel.boards, marks, strict=True):
        low, high = _flat(panel, board)
        if board.along == run and _has_room(panel, board):
            sketch.text(mark, ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2), bold=True)
        elif mark not in told:
            told.add(mark)
            along, up, way = (0.25, 0.5, np.pi / 4) if board.along == run else (0.5, 0.25, -np.pi / 4)
            sketch.mark(mark, (low[0] + (high[0] - low[0]) * along, low[1] + (high[1] - low[1]) * up), way)


def _has_room(panel: Panel, board: Board) -> bool:
    """Whether a mark fits between the edges of a board at about the scale that the panel will have."""
    first = panel.boards[0]
    size = panel.high - panel.low
    scale = min(ROOM[0] / float(size[first.along]), ROOM[1] / float(size[first.across]))
    return board.width * scale > ROOM_OVER_TEXT * DIMENSION_TEXT


def _flat(panel: Panel, board: Board) -> tuple[Corner, Corner]:
    """Low and high corner as seen: along the panel's grain to the right, across it up [mm]."""
    along, across = panel.boards[0].along, panel.boards[0].across
    return (
        (float(board.low[along] - panel.low[along]), float(board.low[across] - panel.low[across])),
        (float(board.high[along] - panel.low[along]), float(board.high[across] - panel.low[across])),
    )


def _size(panel: Panel, assessment: Assessment) -> str:
    style, first = assessment.job.style, panel.boards[0]
    size = panel.high - panel.low
    return " x ".join(style.length(float(size[axis])) for axis in (first.along, first.across, panel.normal))


def _marks(assessment: Assessment, panel: Panel) -> list[str]:
    """The mark of each board, in order."""
    names = (f"{panel.name} {board.role} {k + 1}" for k, board in enumerate(panel.boards))
    return [assessment.piece.mark_of[name] for name in names]


def _boards(assessment: Assessment, panel: Panel, marks: list[str], panels: int) -> Json:
    style = assessment.job.style
    columns: list[ColumnTold] = [
        ("mark", "mark", None), ("what", "text", 3), ("length", "number", None), ("width", "number", None),
        ("thick", "number", None), ("in one", "number", None), ("in all", "number", None),
    ]  # fmt: skip
    rows = [
        (
            mark,
            (board.role, board.stock.label),
            style.length(board.length),
            style.length(board.width),
            style.length(board.thickness),
            str(marks.count(mark)),
            str(marks.count(mark) * panels),
        )
        for mark, board in dict(zip(marks, panel.boards, strict=True)).items()
    ]
    return table(columns, rows)


def _notes(assessment: Assessment, panel: Panel) -> Iterator[str]:
    style = assessment.job.style
    if panel.gap > LEAST_GAP_MM:
        yield f"Spacer for the gaps: {fine(style).length(panel.gap)}. Cut one and set every board against it."
    nominal = assessment.job.stock.get(panel.stock.key, panel.stock)
    width = float(panel.boards[0].width)
    bought = float(nominal.section.dimensions.get("width", width))
    if panel.kind == "solid" and bought - width > LEAST_GAP_MM:
        yield f"Rip the boards from {style.length(bought)} to {style.length(width)} before gluing up."
    if panel.kind == "slats":
        yield "Measure the diagonals before the last screw: they are equal when it is square."
    if panel.removable is not None:
        yield "Lifts out: break the edges that hands take hold of."
    for what, how in assessment.job.finish.items():
        if what == "timber":
            yield f"Finish: {how}."
