"""Cautions that follow from the welds themselves."""

from __future__ import annotations

import tomllib
from collections import Counter, defaultdict
from collections.abc import Callable, Mapping, Sequence
from functools import cache
from pathlib import Path

from fitwright.making.welding.model import Caution, Weld
from fitwright.mechanics.shrinkage import wall
from fitwright.piece.model import Piece

DATA = Path(__file__).parent / "data" / "cautions.toml"
THIN_MM, LONG_MM, LONG_ON_MM, UNLIKE, ALL_ROUND = 1.4, 60.0, 2.5, 3.0, 0.98


def weld_cautions(piece: Piece, welds: Sequence[Weld]) -> tuple[Caution, ...]:
    """The cautions of the table that these welds ask for, each with the welds it is about."""
    found = []
    for entry in _table():
        about = _ABOUT[entry["when"]](piece, welds)
        if about or (entry["when"] == "always" and welds):
            numbers = () if entry["when"] == "always" else tuple(weld.number for weld in about)
            found.append(Caution(entry["words"], entry["basis"], numbers, entry["when"]))
    return tuple(found)


@cache
def _table() -> tuple[Mapping[str, str], ...]:
    return tuple(tomllib.loads(DATA.read_text(encoding="utf-8"))["caution"])


def _thin(_: Piece, welds: Sequence[Weld]) -> list[Weld]:
    return [weld for weld in welds if weld.thickness < THIN_MM]


def _long(_: Piece, welds: Sequence[Weld]) -> list[Weld]:
    return [weld for weld in welds if weld.length / 2 > LONG_MM and weld.thickness < LONG_ON_MM]


def _unlike(piece: Piece, welds: Sequence[Weld]) -> list[Weld]:
    found = []
    for weld in welds:
        seam = weld.bead.seam
        walls = sorted(wall(piece.members[k].stock.section) for k in (seam.first, seam.second))
        if walls[1] > UNLIKE * walls[0]:
            found.append(weld)
    return found


def _closed(piece: Piece, welds: Sequence[Weld]) -> list[Weld]:
    """Welds on tubes that are closed all round at both ends."""
    length: defaultdict[tuple[int, int | None], float] = defaultdict(float)
    for weld in welds:
        length[weld.bead.seam.first, weld.bead.seam.end] += weld.length / weld.around
    shut = Counter(first for (first, end), share in length.items() if end is not None and share > ALL_ROUND)
    tubes = {m.index for m in piece.members if m.stock.section.bore() is not None and not m.path.closed}
    return [weld for weld in welds if weld.bead.seam.first in tubes and shut[weld.bead.seam.first] > 1]


def _of_metal(kind: str) -> Callable[[Piece, Sequence[Weld]], list[Weld]]:
    def of(piece: Piece, welds: Sequence[Weld]) -> list[Weld]:
        return [weld for weld in welds if piece.members[weld.bead.seam.first].stock.material.kind == kind]

    return of


_ABOUT: dict[str, Callable[[Piece, Sequence[Weld]], list[Weld]]] = {
    "always": lambda piece, welds: [],
    "thin": _thin,
    "long": _long,
    "unlike": _unlike,
    "closed": _closed,
    "stainless": _of_metal("stainless"),
    "aluminium": _of_metal("aluminium"),
}
