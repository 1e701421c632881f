"""Dimension lines ranged in rows outside a view, so that none runs into another and each text stands clear."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fitwright.sheets.drawing.ink import ARROW, TAIL

CLEAR = 1.0  # beside a text [mm]


@dataclass(frozen=True)
class Ask:
    """A dimension to be placed: the span it measures along its row and the width of its text [mm of paper]."""

    low: float
    high: float
    text: float

    @property
    def span(self) -> float:
        """Length between the extension lines."""
        return self.high - self.low


@dataclass(frozen=True)
class Place:
    """Where it went: its row, 0 nearest the view; the middle of its text; whether its arrows stand outside."""

    row: int
    middle: float
    outward: bool


@dataclass(frozen=True)
class _Lie:
    """One way for a dimension to lie: what it takes of its row, and where its text may have its middle."""

    low: float
    high: float
    text_low: float
    text_high: float
    outward: bool


def ranged(asks: Sequence[Ask]) -> tuple[Place, ...]:
    """A row and a text place for each dimension, short ones nearest the view.

    In a row nothing overlaps. A dimension lies further out than each one already placed that its span overlaps, so
    that no extension line crosses a shorter dimension's line; where spans overlap only in part and a crossing cannot
    be had otherwise, the texts are slid aside from it.
    """
    lies = [_lie(ask) for ask in asks]
    rows: dict[int, int] = {}
    for number in sorted(range(len(asks)), key=lambda i: (round(asks[i].span, 3), asks[i].low)):
        rows[number] = _row(number, rows, asks, lies)
    return tuple(Place(rows[i], _slid(i, rows, asks, lies), lies[i].outward) for i in range(len(asks)))


def _lie(ask: Ask) -> _Lie:
    """Text and arrows inside where there is room, else arrows outside, else the text outside as well."""
    half = ask.text / 2
    if ask.span >= ask.text + 2 * CLEAR and ask.span >= 2.5 * ARROW:
        edge = half + CLEAR
        return _Lie(ask.low, ask.high, ask.low + edge, ask.high - edge, outward=False)
    if ask.span >= ask.text + 2 * CLEAR:
        return _Lie(ask.low - TAIL, ask.high + TAIL, ask.low + half + CLEAR, ask.high - half - CLEAR, outward=True)
    middle = ask.high + ARROW + CLEAR + half
    return _Lie(ask.low - TAIL, max(ask.high + TAIL, middle + half + CLEAR), middle, middle, outward=True)


def _row(number: int, rows: dict[int, int], asks: Sequence[Ask], lies: Sequence[_Lie]) -> int:
    """The nearest row that is free and further out than what the span overlaps."""
    me = lies[number]
    below = [rows[i] for i in rows if _overlap(asks[number].low, asks[number].high, lies[i].low, lies[i].high)]
    row = max(below, default=-1) + 1
    while any(rows[i] == row and _overlap(me.low, me.high, lies[i].low, lies[i].high) for i in rows):
        row += 1
    return row


def _slid(number: int, rows: dict[int, int], asks: Sequence[Ask], lies: Sequence[_Lie]) -> float:
    """The text's middle: as near the middle of its span as the extension lines that pass through allow."""
    lie, half = lies[number], asks[number].text / 2 + CLEAR
    through = [p for i in rows if rows[i] > rows[number] for p in (asks[i].low, asks[i].high)]
    wish = (lie.text_low + lie.text_high) / 2
    tries = [wish, *(p + side * half for p in through for side in (-1, 1))]
    free = [t for t in tries if lie.text_low <= t <= lie.text_high and all(abs(p - t) >= half - 1e-9 for p in through)]
    return min(free, key=lambda t: abs(t - wish), default=wish)


def _overlap(low: float, high: float, other_low: float, other_high: float) -> bool:
    return low < other_high - 1e-6 and other_low < high - 1e-6
