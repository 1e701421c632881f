"""Panels made into boards: slats with even gaps on battens, glued-up tops, sheets."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fitwright.job.model import Battens, PanelKind, PanelSpec
from fitwright.piece.model import Board, Panel
from fitwright.piece.placing import Copy, copies
from fitwright.piece.wording import ToldError

Floats = NDArray[np.float64]

AXES = "xyz"


class PanelError(ToldError):
    """A panel that cannot be laid out; the message is for the maker."""


def panels_of(spec: PanelSpec) -> list[Panel]:
    """Every panel that a spec makes.

    Raises PanelError for boards wider than the panel, or a copy turned off the axes.
    """
    where = copies(spec.placings)
    made = []
    for number, copy in enumerate(where, 1):
        name = f"{spec.name} {number}" if len(where) > 1 else spec.name
        made.append(_panel(spec, name, copy))
    return made


def slat_layout(width: float, board: float, gap: float) -> tuple[int, float]:
    """How many boards of a width fill `width` with a gap near the one wanted, and the even gap that results [mm].

    >>> slat_layout(300.0, 90.0, 10.0)
    (3, 15.0)
    """
    count = max(1, round((width + gap) / (board + gap)))
    while count > 1 and count * board > width + 1e-6:
        count -= 1
    return count, (width - count * board) / (count - 1) if count > 1 else 0.0


def _panel(spec: PanelSpec, name: str, copy: Copy) -> Panel:
    boards, gap = _boards(spec)
    placed = tuple(_moved(board, copy, spec) for board in boards)
    turned = copy.directions(np.eye(3)[spec.normal] * spec.grows)
    normal = int(np.argmax(np.abs(turned)))
    removable = None if spec.removable is None else copy.directions(np.array(spec.removable, dtype=float))
    return Panel(
        name, spec.name, spec.kind.value, spec.stock, placed, normal, int(np.sign(turned[normal])), gap, removable,
        spec.fastened,
    )  # fmt: skip


def _boards(spec: PanelSpec) -> tuple[list[Board], float]:
    if spec.kind is PanelKind.SHEET:
        return [_board(spec, "sheet", 0.0, None)], 0.0
    if spec.kind is PanelKind.SOLID:
        return _solid(spec), 0.0
    slats, gap = _slats(spec)
    return slats + _battens(spec), gap


def _across(spec: PanelSpec) -> int:
    return 3 - spec.normal - spec.along


def _extent(spec: PanelSpec, axis: int) -> float:
    return abs(spec.high[axis] - spec.low[axis])


def _slats(spec: PanelSpec) -> tuple[list[Board], float]:
    width, board = _extent(spec, _across(spec)), spec.stock.section.dimensions["width"]
    if board > width + 1e-6:
        raise PanelError(
            "one board of {label} is {board} wide, and the panel from {low} to {high} only {width}: "
            "take a narrower board or a wider panel",
            label=spec.stock.label,
            board=board,
            width=width,
            low=np.array(spec.low, dtype=float),
            high=np.array(spec.high, dtype=float),
        )
    count, gap = slat_layout(width, board, spec.gap)
    first = (width - board) / 2 if count == 1 else 0.0
    return [_board(spec, "slat", first + k * (board + gap), board) for k in range(count)], gap


def _solid(spec: PanelSpec) -> list[Board]:
    width, board = _extent(spec, _across(spec)), spec.stock.section.dimensions.get("width", np.inf)
    count = max(1, int(np.ceil(width / board - 1e-9)))
    return [_board(spec, "solid", k * width / count, width / count) for k in range(count)]


def _board(spec: PanelSpec, role: str, start: float, width: float | None) -> Board:
    low, high = np.minimum(spec.low, spec.high).astype(float), np.maximum(spec.low, spec.high).astype(float)
    across, thickness = _across(spec), _thickness(spec)
    if width is not None:
        low[across] += start
        high[across] = low[across] + width
    if spec.grows > 0:
        high[spec.normal] = low[spec.normal] + thickness
    else:
        low[spec.normal] = high[spec.normal] - thickness
    return Board(role, spec.stock, low, high, spec.along, across)


def _thickness(spec: PanelSpec) -> float:
    return float(spec.stock.section.dimensions["thickness"])


def _battens(spec: PanelSpec) -> list[Board]:
    """Cross pieces on the resting face, evenly between the two insets, centred across the boards."""
    battens = spec.battens
    if battens is None:
        return []
    across = _across(spec)
    low, high = np.minimum(spec.low, spec.high), np.maximum(spec.low, spec.high)
    width = battens.stock.section.dimensions["width"]
    thick = battens.stock.section.dimensions["thickness"]
    length = battens.length or float(high[across] - low[across])
    made = []
    for start in _batten_starts(battens, width, float(high[spec.along] - low[spec.along])):
        corner, far = low.astype(float).copy(), high.astype(float).copy()
        corner[spec.along] = low[spec.along] + start
        far[spec.along] = corner[spec.along] + width
        corner[across] = (low[across] + high[across] - length) / 2
        far[across] = corner[across] + length
        face = low[spec.normal]
        corner[spec.normal] = face - thick if spec.grows > 0 else face
        far[spec.normal] = face if spec.grows > 0 else face + thick
        made.append(Board("batten", battens.stock, corner, far, across, spec.along))
    return made


def _batten_starts(battens: Battens, width: float, run: float) -> Floats:
    """Where each batten starts along the boards (n,) [mm]; one alone lies in the middle."""
    if battens.count == 1:
        return np.array([(run - width) / 2])
    needed = battens.count * width + 2 * battens.inset
    if needed > run + 1e-6:
        raise PanelError(
            f"{battens.count} battens {{width}} wide, the outer ones {{inset}} from the ends, need boards {{needed}} "
            "long, and they are {run}: take fewer battens or set them nearer to the ends",
            width=width,
            inset=battens.inset,
            needed=needed,
            run=run,
        )
    return np.linspace(battens.inset, run - battens.inset - width, battens.count)


def _moved(board: Board, copy: Copy, spec: PanelSpec) -> Board:
    turned = np.abs(copy.turn)
    if not np.allclose(turned, np.round(turned), atol=1e-9):
        raise PanelError("a panel can only be turned by quarter turns; draw turned boards as members")
    corners = copy.points(np.array([board.low, board.high]))
    along = int(np.argmax(turned[:, board.along]))
    across = int(np.argmax(turned[:, board.across]))
    return Board(board.role, board.stock, corners.min(axis=0), corners.max(axis=0), along, across)
