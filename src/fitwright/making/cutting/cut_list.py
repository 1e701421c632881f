"""The cut list: pieces by stop setting, longest first, so that each setting of the stop is made once."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

SAME_LENGTH = 0.05
"""mm within which two lengths are one setting of the stop; finer than a stop can be set, common practice."""

SAME_ANGLE = 0.05
"""Degrees within which two mitres are one setting of the saw; finer than a saw's scale, common practice."""


@dataclass(frozen=True)
class SawnPiece:
    """A piece for the saw: its stock's label, length [mm] from tip to tip, and how far each end is off square [deg].

    The angles have one sign where the ends lean toward each other, as in a frame, two where they lean the same way.
    """

    mark: str
    stock: str
    length_mm: float
    angle_start_deg: float = 0.0
    angle_end_deg: float = 0.0
    quantity: int = 1


@dataclass(frozen=True)
class CutGroup:
    """Pieces cut at one setting: stock, stop [mm], how far each end is off square [deg], marks, how many.

    angle_end_deg is negative where it leans the same way as the start, instead of toward it.
    """

    stock: str
    setting_mm: float
    angle_start_deg: float
    angle_end_deg: float
    marks: tuple[str, ...]
    quantity: int

    @property
    def mitred(self) -> bool:
        """Whether either end is off square."""
        return max(abs(self.angle_start_deg), abs(self.angle_end_deg)) > SAME_ANGLE

    def ends_in_words(self, both: str = "both ends") -> str:
        """The saw's swing from square at both ends; both: what follows an angle that they share.

        >>> [CutGroup("tube", 900.0, 45.0, end, ("A1",), 1).ends_in_words() for end in (45.0, 0.0, -30.0)]
        ['45.0° both ends', '45.0° and square', '45.0° and 30.0°, leaning the same way']
        >>> [CutGroup("tube", 900.0, end, end, ("A1",), 1).ends_in_words(both="both") for end in (0.0, 45.0)]
        ['square', '45.0° both']
        """
        start, finish = self.angle_start_deg, self.angle_end_deg
        one, other = (f"{abs(angle):.1f}°" if abs(angle) > SAME_ANGLE else "square" for angle in (start, finish))
        told = (one if one == "square" else f"{one} {both}") if one == other else f"{one} and {other}"
        return f"{told}, leaning the same way" if start * finish < 0 and "square" not in (one, other) else told


def cut_list(pieces: Iterable[SawnPiece]) -> tuple[CutGroup, ...]:
    """Groups by stock in the order in which stocks appear; within one the longest setting first, square before mitred.

    A piece and the same one turned end for end are one setting: the steeper end is the start.

    >>> feet = SawnPiece("A1", "flat", 300.0), SawnPiece("A2", "flat", 300.0)
    >>> cut_list([*feet, SawnPiece("B1", "flat", 500.0, 0.0, 45.0)])[1]
    CutGroup(stock='flat', setting_mm=300.0, angle_start_deg=0.0, angle_end_deg=0.0, marks=('A1', 'A2'), quantity=2)
    """
    by_stock: dict[str, list[SawnPiece]] = {}
    for piece in pieces:
        if piece.quantity:
            by_stock.setdefault(piece.stock, []).append(_turned(piece))
    return tuple(group for sawn in by_stock.values() for group in _settings(sawn))


def _turned(piece: SawnPiece) -> SawnPiece:
    start, end = piece.angle_start_deg, piece.angle_end_deg
    start, end = max(abs(start), abs(end)), math.copysign(min(abs(start), abs(end)), start * end)
    return SawnPiece(piece.mark, piece.stock, piece.length_mm, start, end, piece.quantity)


def _settings(pieces: list[SawnPiece]) -> list[CutGroup]:
    """Longest first; a piece joins the first group whose setting and angles are its own."""
    groups: list[list[SawnPiece]] = []
    ordered = sorted(pieces, key=lambda p: (-p.length_mm, abs(p.angle_start_deg), abs(p.angle_end_deg)))
    for piece in ordered:
        home = next((group for group in reversed(groups) if _same(group[0], piece)), None)
        if home is None:
            groups.append([piece])
        else:
            home.append(piece)
    return [_group(group) for group in groups]


def _same(one: SawnPiece, other: SawnPiece) -> bool:
    return (
        abs(one.length_mm - other.length_mm) <= SAME_LENGTH
        and abs(one.angle_start_deg - other.angle_start_deg) <= SAME_ANGLE
        and abs(one.angle_end_deg - other.angle_end_deg) <= SAME_ANGLE
    )


def _group(pieces: list[SawnPiece]) -> CutGroup:
    first = pieces[0]
    marks = tuple(dict.fromkeys(sorted(piece.mark for piece in pieces if piece.mark)))
    return CutGroup(
        first.stock,
        first.length_mm,
        first.angle_start_deg,
        first.angle_end_deg,
        marks,
        sum(piece.quantity for piece in pieces),
    )
