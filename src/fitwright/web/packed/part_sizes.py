"""Dimension lines of one part: how long it is cut, the legs of a bent one from outside to outside, a board's sides."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from fitwright.assess import Assessment
from fitwright.piece.model import Board, Member
from fitwright.units import Style
from fitwright.web.errors import NotThere
from fitwright.web.packed.sizes import SizeLine, size_line

Floats = NDArray[np.float64]

OFF = 0.045
"""How far a line stands off the part, as a share of the piece's diagonal."""
LEAST = 1e-6


def part_sizes(assessment: Assessment, name: str) -> tuple[SizeLine, ...]:
    """The dimension lines of the body of that name. Raises NotThere."""
    piece, style = assessment.sketch.piece, assessment.job.style
    box = piece.envelope
    off, middle = OFF * float(np.linalg.norm(box.high - box.low)), (box.low + box.high) / 2
    for member in piece.members:
        if member.name == name:
            return tuple(_legs(member, off, middle, style))
    for panel in piece.panels:
        for k, board in enumerate(panel.boards):
            if name in (panel.name, f"{panel.name} {board.role} {k + 1}"):
                return tuple(_sides(board, off, middle, style))
    raise NotThere(f"there is no part called {name[:60]!r} in this piece")


def _legs(member: Member, off: float, middle: Floats, style: Style) -> Iterator[SizeLine]:
    """Each leg of the path, beyond its bends and cuts to the outside that a maker measures to."""
    path, tips = member.body.path, (member.ends[0].longest, member.ends[1].longest)
    legs = [leg for leg in range(len(path.legs)) if np.linalg.norm(path.legs[leg]) > LEAST]
    word = "" if member.path.bent else " cut"
    for leg in legs:
        start = path.vertices[leg]
        along = path.directions[leg]
        length = float(np.linalg.norm(path.legs[leg]))
        before = tips[0] if leg == 0 and not path.closed else _outside(member, leg)
        after = tips[1] if leg == len(path.legs) - 1 and not path.closed else _outside(member, leg + 1)
        one, other = start - before * along, start + (length + after) * along
        label = f"{style.length(length + before + after)}{word}"
        yield size_line(label, one, other, _away(one, other, middle, off))


def _outside(member: Member, vertex: int) -> float:
    """How far the outside of the next leg lies beyond a bend's vertex, along this leg [mm].

    Source: the outer lines of two legs meet at half the size times the tangent of half the angle.
    """
    path = member.body.path
    turn = float(path.turns[vertex % len(path.turns)])
    return float(member.body.reach * np.tan(min(turn, np.radians(150)) / 2))


def _sides(board: Board, off: float, middle: Floats, style: Style) -> Iterator[SizeLine]:
    """Length and width of a board, along the edges nearest to the front, below."""
    size = board.high - board.low
    for axis in np.argsort(-size)[:2]:
        other = board.low.copy()
        other[axis] = board.high[axis]
        away = _away(board.low, other, middle, off)
        yield size_line(style.length(float(size[axis])), board.low, other, away)


def _away(one: Floats, other: Floats, middle: Floats, off: float) -> Floats:
    """Square to a line, away from the middle of the piece, towards the front where it runs through the middle (3,)."""
    along = (other - one) / np.linalg.norm(other - one)
    out = (one + other) / 2 - middle
    for way in (out, np.array([0.0, -1.0, 0.0]), np.array([1.0, 0.0, 0.0])):
        square = way - (way @ along) * along
        if np.linalg.norm(square) > 1.0 or way is not out:
            length = np.linalg.norm(square)
            if length > LEAST:
                return np.asarray(off * square / length)
    return np.array([0.0, 0.0, off])
