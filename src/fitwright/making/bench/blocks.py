"""Blocks to cut for the bench: equal lengths under one letter, and what each is cut from."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from fitwright.making.bench.model import BenchPlan, Block
from fitwright.shop import Shop
from fitwright.stock import Lumber, Stock, StockError, parse_stock

SAME_MM = 0.25
SHORT_MM = 20.0  # wood this short splits; common practice
# what any timber yard has, where the shop lists no wood; common practice
WOOD: dict[str, str] = {
    "inch": "lumber 2x4 white pine",
    "mm": "board 45 x 95 white pine",
    "cm": "board 45 mm x 95 mm white pine",
}
FIRM_MM = 30.0  # the least thickness of wood that stands by itself


@dataclass(frozen=True)
class Wanted:
    """A block that a set-up asks for: length [mm], whether it stands upright, why."""

    length: float
    upright: bool
    why: str


def stock_for(wanted: Wanted, shop: Shop, part: Stock) -> str:
    """The label of what a block is cut from: wood that the shop has, thick where it stands; bar where it is short, of
    the part's own stock where none is listed. Common practice."""
    stocks = [stock for label in dict.fromkeys(bar.label for bar in shop.stock_lengths) if (stock := _read(label))]
    wood = [s for s in stocks if isinstance(s.section, Lumber)]
    metal = [s for s in stocks if s.section.shape in ("flat", "square bar")]
    if wanted.length < SHORT_MM:
        return (metal or [part])[-1].label
    thick = [s for s in wood if s.section.dimensions["thickness"] >= FIRM_MM]
    chosen = thick or wood if wanted.upright else wood
    return (chosen or [parse_stock(WOOD[shop.unit])])[0].label


def _read(label: str) -> Stock | None:
    try:
        return parse_stock(label)
    except StockError:
        return None


class Letters:
    """Gives equal blocks of a job one letter: S for those that lie, U for those that stand upright."""

    def __init__(self) -> None:
        self._known: list[tuple[float, bool, str]] = []

    def of(self, wanted: Wanted) -> str:
        """The letter of a block."""
        for length, upright, letter in self._known:
            if upright == wanted.upright and abs(length - wanted.length) <= SAME_MM:
                return letter
        count = sum(upright == wanted.upright for _, upright, _ in self._known) + 1
        self._known.append((wanted.length, wanted.upright, f"{'U' if wanted.upright else 'S'}{count}"))
        return self._known[-1][2]


def gathered(wanted: Iterable[Wanted], letters: Letters, shop: Shop, part: Stock) -> tuple[Block, ...]:
    """The blocks of one set-up, equal ones together."""
    by_letter: dict[str, list[Wanted]] = {}
    for one in wanted:
        by_letter.setdefault(letters.of(one), []).append(one)
    return tuple(
        Block(letter, ones[0].length, len(ones), stock_for(ones[0], shop, part), ones[0].upright, _why(ones))
        for letter, ones in sorted(by_letter.items())
    )


def _why(ones: Sequence[Wanted]) -> str:
    return "; ".join(dict.fromkeys(one.why for one in ones))


def blocks_to_cut(plans: Sequence[BenchPlan]) -> tuple[Block, ...]:
    """The blocks of a job to cut, each as often as the set-up needs that needs it most; they are used again."""
    most: dict[str, Block] = {}
    for plan in plans:
        for block in plan.blocks:
            if block.letter not in most or block.quantity > most[block.letter].quantity:
                most[block.letter] = block
    return tuple(most[letter] for letter in sorted(most))
