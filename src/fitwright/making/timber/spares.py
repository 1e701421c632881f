"""Spare boards for knots and end checks."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from fitwright.making.timber.errors import TimberError
from fitwright.making.timber.model import Spare
from fitwright.making.timber.tables import table
from fitwright.piece.model import Board, Piece
from fitwright.stock import Stock

LEAST = 0.3
ROUND_OFF = 1e-9


def yield_of(kind: str, own: Mapping[str, float] | None = None) -> tuple[float, str]:
    """The fraction of a board that is usable, and its basis; own: what the shop sets by kind of wood.

    Raises TimberError for a fraction that no stack of boards has.
    """
    if own and kind in own:
        fraction = own[kind]
        if not LEAST <= fraction <= 1.0:
            raise TimberError(f"a yield of {fraction:g} for {kind} cannot be planned with: give {LEAST:g} to 1")
        return fraction, "set by the shop"
    found = table("yield").get(kind, table("yield")["softwood"])
    return float(found["fraction"]), str(found["basis"])


def spare_boards(lengths: Sequence[tuple[float, int]], fraction: float) -> tuple[float, int]:
    """Length [mm] and number of spare boards, so that the usable part of all of them is what is wanted.

    lengths: (length [mm], how many) of the boards wanted from one stock. Spares have the longest length, from which any
    other can be cut. Holds for boards that fail as wholes; a board with one knot is often good for a shorter one.
    Source: total / yield, common practice.

    >>> spare_boards([(700.0, 20), (600.0, 8)], 0.9)
    (700.0, 3)
    """
    total = sum(length * count for length, count in lengths)
    longest = max((length for length, count in lengths if count), default=0.0)
    if not longest:
        return 0.0, 0
    return longest, math.ceil(total * (1 / fraction - 1) / longest - ROUND_OFF)


def spares_of(piece: Piece, own: Mapping[str, float] | None = None) -> tuple[Spare, ...]:
    """The spare boards of every stock that panels are made of, sheets left out."""
    boards: dict[str, list[Board]] = {}
    for panel in piece.panels:
        for board in panel.boards:
            if board.role != "sheet" and not board.stock.material.is_metal:
                boards.setdefault(board.stock.label, []).append(board)
    spares = (_spare(some[0].stock, some, own) for some in boards.values())
    return tuple(spare for spare in spares if spare.count)


def _spare(stock: Stock, boards: Sequence[Board], own: Mapping[str, float] | None) -> Spare:
    fraction, basis = yield_of(stock.material.kind, own)
    length, count = spare_boards([(board.length, 1) for board in boards], fraction)
    return Spare(stock.label, length, count, fraction, basis)
