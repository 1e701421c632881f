"""Slats, battens, glued-up tops and sheets; worked out by hand."""

from __future__ import annotations

import pytest

from fitwright.job.model import Along, Around, Battens, Mirror, PanelKind, PanelSpec, Placing, Where
from fitwright.piece.panels import panels_of, slat_layout
from fitwright.stock import parse_stock

BOARD = parse_stock("board 20 x 90 pine")
BATTEN = parse_stock("board 15 x 40 pine")


def panel(
    kind: PanelKind = PanelKind.SLATS,
    high: tuple[float, float, float] = (600, 300, 100),
    grows: int = 1,
    along: int = 0,
    gap: float = 10,
    battens: Battens | None = None,
    placings: tuple[Placing, ...] = (),
) -> PanelSpec:
    return PanelSpec(
        "shelf", Where("parts.shelf", 1), kind, BOARD, (0, 0, 100), high, 2, grows, along, gap, battens, None, placings
    )


@pytest.mark.parametrize(
    ("width", "board", "gap", "count", "left"),
    [
        (300, 90, 10, 3, 15),
        (290, 90, 10, 3, 10),
        (280, 90, 10, 3, 5),
        (265, 90, 10, 2, 85),
        (90, 90, 10, 1, 0),
        (120, 90, 10, 1, 0),
        (180, 90, 10, 2, 0),
    ],
)
def test_slats_with_even_gaps_near_the_one_wanted(
    width: float, board: float, gap: float, count: int, left: float
) -> None:
    assert slat_layout(width, board, gap) == pytest.approx((count, left))


def test_slats_lie_from_edge_to_edge() -> None:
    (shelf,) = panels_of(panel())
    assert [(board.low[1], board.high[1]) for board in shelf.boards] == [(0, 90), (105, 195), (210, 300)]
    assert {board.length for board in shelf.boards} == {600}
    assert (shelf.low[2], shelf.high[2]) == (100, 120)
    assert shelf.gap == pytest.approx(15)
    assert shelf.mass == pytest.approx(3 * 600 * 90 * 20 * BOARD.material.density * 1e-9)
    assert shelf.centre == pytest.approx([300, 150, 110])


def test_one_slat_lies_in_the_middle() -> None:
    (shelf,) = panels_of(panel(high=(600, 120, 100)))
    assert [(board.low[1], board.high[1]) for board in shelf.boards] == [(15, 105)]


def test_battens_hang_below_the_resting_face() -> None:
    (shelf,) = panels_of(panel(battens=Battens(BATTEN, 3, 50)))
    battens = [board for board in shelf.boards if board.role == "batten"]
    # The last one's far side lies 50 from the end.
    assert [(board.low[0], board.high[0]) for board in battens] == [(50, 90), (280, 320), (510, 550)]
    assert {(board.low[2], board.high[2]) for board in battens} == {(85, 100)}
    assert {(board.length, board.width, board.thickness) for board in battens} == {(300, 40, 15)}
    (upside_down,) = panels_of(panel(grows=-1, battens=Battens(BATTEN, 1, 50, 200)))
    lone = upside_down.boards[-1]
    assert (lone.low[0], lone.low[1], lone.low[2], lone.high[2]) == (280, 50, 100, 115)
    assert (upside_down.boards[0].low[2], upside_down.boards[0].high[2]) == (80, 100)


def test_glued_up_top_takes_equal_boards() -> None:
    (top,) = panels_of(panel(PanelKind.SOLID, high=(600, 310, 100)))
    assert [board.width for board in top.boards] == pytest.approx([77.5] * 4)
    assert top.high[1] == pytest.approx(310)


def test_copies_turned_by_quarters_and_mirrored() -> None:
    made = panels_of(panel(placings=(Around(0, 0, 4),)))
    assert [shelf.name for shelf in made] == ["shelf 1", "shelf 2", "shelf 3", "shelf 4"]
    assert made[1].low == pytest.approx([-300, 0, 100])
    assert {(board.along, board.across) for board in made[1].boards} == {(1, 0)}
    flipped = panels_of(panel(placings=(Mirror(2, 0),)))[1]
    assert (flipped.low[2], flipped.high[2], flipped.normal, flipped.grows) == (-120, -100, 2, -1)
    moved = panels_of(panel(placings=(Along(2, (0, 300)),)))[1]
    assert moved.low[2] == 400
