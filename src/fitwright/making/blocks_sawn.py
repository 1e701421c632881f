"""Blocks for the bench at the saw: their stop settings, and what they are cut from, drops of the job first."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from fitwright.making.bench import Block
from fitwright.making.cutting import Bar, Cut, CutGroup, CuttingPlan, PlannedBar, SawnPiece, cut_list, plan_cuts
from fitwright.shop import Shop
from fitwright.stock import Stock, parse_stock

SECONDS = 5.0
DROP = "drop"


@dataclass(frozen=True)
class BlocksSawn:
    """Blocks by stop setting, and a cutting plan for each stock they are cut from, by label.

    A stock with a block longer than all bars and drops has no plan.
    """

    groups: tuple[CutGroup, ...] = ()
    plans: Mapping[str, CuttingPlan] = field(default_factory=dict)
    stocks: Mapping[str, Stock] = field(default_factory=dict)

    @property
    def bought(self) -> Mapping[str, CuttingPlan]:
        """The plans that take more than is left over anyway."""
        return {label: plan for label, plan in self.plans.items() if plan.buy}


def blocks_sawn(
    blocks: Sequence[Block], plans: Mapping[str, CuttingPlan], trims: Mapping[str, float], shop: Shop
) -> BlocksSawn:
    """How the blocks of a job are cut.

    plans: of the parts, by stock, whose drops are used first; trims: what is squared off a bar or drop, by stock [mm].
    Holds for blocks that are cut after the parts. Source: as `plan_cuts`, a drop costing nothing.
    """
    stocks = {label: parse_stock(label) for label in dict.fromkeys(block.stock for block in blocks)}
    sawn = [SawnPiece(block.letter, block.stock, block.length, quantity=block.quantity) for block in blocks]
    found: dict[str, CuttingPlan] = {}
    for label, stock in stocks.items():
        saw, mine = shop.saw_for(stock), [one for one in sawn if one.stock == label]
        cuts, trim = [Cut(one.mark, one.length_mm, one.quantity) for one in mine], trims.get(label, saw.end_trim)
        bars = [*_drops(plans[label].bars if label in plans else (), trim + min(c.length_mm for c in cuts))]
        bars += _left(shop, stock, plans)
        if max(cut.length_mm for cut in cuts) <= max(bar.length for bar in bars) - trim:
            found[label] = plan_cuts(cuts, bars, saw.kerf, trim, SECONDS)
    return BlocksSawn(cut_list(sawn), found, stocks)


def with_more(plans: Mapping[str, CuttingPlan], more: Mapping[str, CuttingPlan]) -> Mapping[str, CuttingPlan]:
    """Plans with the bars of others added, stock by stock: what all of it takes together."""
    both = {label: plans[label] for label in plans}
    for label, plan in more.items():
        mine = both.get(label)
        both[label] = plan if mine is None else CuttingPlan(
            mine.cost + plan.cost, mine.bound + plan.bound, mine.proven and plan.proven, (*mine.bars, *plan.bars)
        )  # fmt: skip
    return both


def _drops(bars: Iterable[PlannedBar], least: float) -> list[Bar]:
    """What the parts leave over, long enough for the shortest block."""
    lengths = [round(bar.remnant, 3) for bar in bars]
    kept = [length for length in lengths if length >= least]
    return [Bar(DROP, length, Decimal(0), kept.count(length), True) for length in dict.fromkeys(kept)]


def _left(shop: Shop, stock: Stock, plans: Mapping[str, CuttingPlan]) -> list[Bar]:
    """The shop's bars, less those on hand that the parts use up."""
    taken = dict(plans[stock.label].from_hand) if stock.label in plans else {}
    left = []
    for one in shop.bars_for(stock):
        bar = Bar(one.label, one.length, one.price, one.on_hand, one.offcut)
        count = None if bar.on_hand is None else bar.on_hand - taken.get(bar, 0)
        if count != 0:
            left.append(Bar(bar.label, bar.length, bar.price, count, bar.offcut))
    return left
