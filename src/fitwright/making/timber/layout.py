"""Where the screws of a slatted panel go: at each crossing of a board and a batten, on its diagonal."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fitwright.checks.moisture import fixings_of
from fitwright.making.timber.model import Floats, Layout, Screw
from fitwright.making.timber.screws import asked_screw, drills, screw_for
from fitwright.making.timber.tables import table
from fitwright.piece.model import Board, Hardware, Panel, Piece
from fitwright.units import Unit

QUARTER = 0.25
SAME_MM = 0.05


@dataclass(frozen=True, eq=False)
class Crossing:
    """Board over batten: rectangle low, high (2,) along the boards and across them [mm], and which of each it is."""

    low: Floats
    high: Floats
    board: int
    batten: int


def layout_of(piece: Piece, panel: Panel, unit: Unit) -> Layout | None:
    """The screws of one slatted panel; None for one without battens, or where no screw is known and none fits."""
    battens = [board for board in panel.boards if board.role == "batten"]
    boards = [board for board in panel.boards if board.role != "batten"]
    if not battens or panel.stock.material.is_metal:
        return None
    items = [item for item in fixings_of(piece, panel) if item.kind == "screw"]
    screw = _screw(items, battens[0].thickness, boards[0].thickness, unit)
    if screw is None:
        return None
    given = sum(item.each for item in items)
    return _laid_out(panel, boards, battens, screw, given, unit)


def _screw(items: Sequence[Hardware], passes: float, board: float, unit: Unit) -> Screw | None:
    asked = next((screw for item in items if (screw := asked_screw(item)) is not None), None)
    return asked or screw_for(passes, board, unit)


def _laid_out(
    panel: Panel, boards: Sequence[Board], battens: Sequence[Board], screw: Screw, given: int, unit: Unit
) -> Layout:
    crossings = crossings_of(panel, boards, battens)
    half = offset(boards[0].width, battens[0].width, screw.diameter)
    counts = shared(given, len(boards), len(battens), fits_two(half, screw.diameter))
    points = np.vstack([_at(crossing, half, counts[crossing.board]) for crossing in crossings])
    own = points[[k for k, c in enumerate(_repeated(crossings, counts)) if c.batten == 0]] - _flat(panel, battens[0])[0]
    pilot, clearance = drills(screw.diameter, panel.stock.material.specific_gravity, unit)
    passes = battens[0].thickness
    return Layout(
        screw=screw,
        points=points,
        rows=_rows(own),
        apart=2 * float(half[1]) if max(counts) > 1 else 0.0,
        edge=_edge(points, crossings, counts),
        end=_end(panel, points, boards, battens, crossings, counts),
        between=2 * float(np.hypot(*half)) if max(counts) > 1 else float("inf"),
        bite=screw.length - passes,
        cover=passes + boards[0].thickness - screw.length,
        pilot=pilot,
        clearance=clearance,
        depth=screw.length,
        given=given,
        crossings=len(crossings),
    )


def crossings_of(panel: Panel, boards: Sequence[Board], battens: Sequence[Board]) -> list[Crossing]:
    """Every place where a board lies on a batten, board after board."""
    found = []
    for k, board in enumerate(boards):
        for m, batten in enumerate(battens):
            (a, b), (c, d) = _flat(panel, board), _flat(panel, batten)
            low, high = np.maximum(a, c), np.minimum(b, d)
            if (high - low > SAME_MM).all():
                found.append(Crossing(low, high, k, m))
    return found


def offset(board: float, batten: float, diameter: float) -> Floats:
    """From the middle of a crossing to each of two screws: along the boards, across them (2,) [mm].

    A quarter of each width, less where that comes too near to an edge; never less than 0.
    Source: spacing of the table.

    >>> offset(88.9, 63.5, 4.166).round(2).tolist()
    [15.88, 22.22]
    """
    keep = table("spacing")["edge"] * diameter
    widths = np.array([batten, board])
    return np.asarray(np.maximum(np.minimum(QUARTER * widths, widths / 2 - keep), 0.0))


def fits_two(half: Floats, diameter: float) -> bool:
    """Whether two screws at plus and minus an offset (2,) are far enough apart."""
    return bool(2 * float(np.hypot(*half)) >= table("spacing")["between"] * diameter)


def shared(given: int, boards: int, battens: int, two_fit: bool) -> list[int]:
    """How many screws a board has at each batten, by board (boards,): two where they fit, unless fewer are given.

    What is given beyond one at each crossing goes to the outer boards first, and to the middle one where it is odd, so
    that the panel stays the same both ways round. One at each crossing is the least.

    >>> shared(0, 5, 2, True), shared(16, 5, 2, True)
    ([2, 2, 2, 2, 2], [2, 1, 2, 1, 2])
    """
    if not two_fit:
        return [1] * boards
    if not given or given >= 2 * boards * battens:
        return [2] * boards
    more = max(given // battens - boards, 0)
    counts = [1] * boards
    if more % 2 and boards % 2:
        counts[boards // 2] = 2
        more -= 1
    for k in range(more // 2):
        counts[k] = counts[-1 - k] = 2
    return counts


def _at(crossing: Crossing, half: Floats, count: int) -> Floats:
    """The screws of a crossing (count, 2); the diagonal leans the same way everywhere, so that battens are alike."""
    middle = (crossing.low + crossing.high) / 2
    return middle[None] if count == 1 else np.array([middle - half, middle + half])


def _repeated(crossings: Sequence[Crossing], counts: Sequence[int]) -> list[Crossing]:
    return [crossing for crossing in crossings for _ in range(counts[crossing.board])]


def _edge(points: Floats, crossings: Sequence[Crossing], counts: Sequence[int]) -> float:
    """The least distance to a long edge of the board or the batten."""
    return min(
        float(np.minimum(point - c.low, c.high - point).min())
        for point, c in zip(points, _repeated(crossings, counts), strict=True)
    )


def _end(
    panel: Panel,
    points: Floats,
    boards: Sequence[Board],
    battens: Sequence[Board],
    crossings: Sequence[Crossing],
    counts: Sequence[int],
) -> float:
    """The least distance to the end of a board or a batten."""
    rooms = []
    for point, c in zip(points, _repeated(crossings, counts), strict=True):
        for axis, (low, high) in ((0, _flat(panel, boards[c.board])), (1, _flat(panel, battens[c.batten]))):
            rooms.append(min(float(point[axis] - low[axis]), float(high[axis] - point[axis])))
    return min(rooms)


def _flat(panel: Panel, board: Board) -> tuple[Floats, Floats]:
    """Low and high corner (2,) in the panel's axes, along the boards and across them [mm]."""
    axes = [panel.boards[0].along, panel.boards[0].across]
    return (board.low - panel.low)[axes], (board.high - panel.low)[axes]


def _rows(own: Floats) -> tuple[tuple[float, tuple[float, ...]], ...]:
    """Holes (n, 2) of one batten by their distance from its edge."""
    rows: dict[float, list[float]] = {}
    for across, along in own.tolist():
        rows.setdefault(round(across, 3), []).append(along)
    return tuple((fence, tuple(sorted(places))) for fence, places in sorted(rows.items()))
