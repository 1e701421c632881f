"""The cutting plan: which bars, what is cut from each, what it costs, and what is proven of it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property

import numpy as np

from fitwright.making.cutting.clock import Clock
from fitwright.making.cutting.grid import Gridded, gridded
from fitwright.making.cutting.problem import Layout
from fitwright.making.cutting.request import Bar, Cut, NoPlanInTime, NotEnoughOnHand, check
from fitwright.making.cutting.solve import Solved, solve
from fitwright.making.cutting.tidy import fewest_bars, largest_remnant, shortest_bars

TIDY_SECONDS = 1.0
"""Time at most for choosing between plans of the same cost, once the cost is proven; it rarely takes a third of it."""


@dataclass(frozen=True)
class Progress:
    """Where a search stands: what it is doing, the best cost so far (None: no plan yet), the proven bound, time [s]."""

    stage: str
    cost: Decimal | None
    bound: Decimal
    seconds: float


@dataclass(frozen=True)
class PlannedCut:
    """One piece cut from a bar."""

    mark: str
    length_mm: float


@dataclass(frozen=True)
class PlannedBar:
    """One bar with its cuts in order, longest first [mm]: length in pieces, lost to the saw, squared off, left over."""

    bar: Bar
    cuts: tuple[PlannedCut, ...]
    used: float
    kerf_lost: float
    end_trim: float
    remnant: float


@dataclass(frozen=True)
class CuttingPlan:
    """A plan with its cost and the bound that no plan can be cheaper than; proven when the two meet."""

    cost: Decimal
    bound: Decimal
    proven: bool
    bars: tuple[PlannedBar, ...]

    @cached_property
    def buy(self) -> tuple[tuple[Bar, int], ...]:
        """The bars to buy and how many of each, in the order in which they are cut."""
        return _counted(bar.bar for bar in self.bars if bar.bar.on_hand is None)

    @cached_property
    def from_hand(self) -> tuple[tuple[Bar, int], ...]:
        """The bars on hand that are used, and how many of each."""
        return _counted(bar.bar for bar in self.bars if bar.bar.on_hand is not None)

    @cached_property
    def waste_fraction(self) -> float:
        """What does not end up in a piece, as a part of the length of all bars cut; 0 when nothing is cut."""
        total = sum(bar.bar.length for bar in self.bars)
        return 1.0 - sum(bar.used for bar in self.bars) / total if total else 0.0


def _counted(bars: Iterable[Bar]) -> tuple[tuple[Bar, int], ...]:
    return tuple(Counter(bars).items())


def plan_cuts(
    cuts: Sequence[Cut],
    bars: Sequence[Bar],
    kerf: float = 0.0,
    end_trim: float = 0.0,
    seconds: float = 10.0,
    progress: Callable[[Progress], bool] | None = None,
) -> CuttingPlan:
    """The cheapest way to cut everything, proven where time allows; of equals the fewest bars, then the largest drop.

    kerf: width of the saw cut [mm]; end_trim: what squaring the bar's end takes off it, that saw cut included [mm].
    seconds: time limit. progress: told several times a second; it returns False to stop with the best plan so far.

    Raises CuttingError for what cannot be planned with, CutTooLong, NotEnoughOnHand when that is proven, NoPlanInTime.
    Holds for straight bars cut across; a length is the piece's longest, from tip to tip, where its ends are mitred.
    Source: Gilmore, Gomory, Operations Research 9 (1961) 849-859, for the relaxation by columns (from memory).

    >>> from decimal import Decimal
    >>> bars = Bar("6 m", 6000.0, Decimal(30)), Bar("2 m", 2000.0, Decimal(11))
    >>> plan = plan_cuts([Cut("A1", 900.0, 4)], bars, kerf=3.0)
    >>> plan.cost, plan.proven, [len(bar.cuts) for bar in plan.bars]
    (Decimal('22'), True, [2, 2])
    """
    check(cuts, bars, kerf, end_trim)
    if not any(cut.quantity for cut in cuts):
        return CuttingPlan(Decimal(0), Decimal(0), True, ())
    wanted = [cut for cut in cuts if cut.quantity]
    grid = gridded(wanted, bars, kerf, end_trim)
    clock = Clock(seconds, None if progress is None else _ear(progress, grid.unit))
    solved = solve(grid.problem, clock)
    layout = _tidied(grid, solved, clock)
    cost = grid.problem.cost_of(layout)
    clock.note("done", cost, solved.bound)
    clock.tell()
    return CuttingPlan(
        (cost * grid.unit).quantize(grid.quantum),
        (solved.bound * grid.unit).quantize(grid.quantum),
        cost == solved.bound,
        _planned(wanted, bars, grid, layout, kerf, end_trim),
    )


def _ear(progress: Callable[[Progress], bool], unit: Decimal) -> Callable[[str, int | None, int, float], bool]:
    def ear(stage: str, cost: int | None, bound: int, seconds: float) -> bool:
        return progress(Progress(stage, None if cost is None else cost * unit, bound * unit, seconds))

    return ear


def _tidied(grid: Gridded, solved: Solved, clock: Clock) -> Layout:
    """The layout found, tidied; an error where there is none."""
    problem = grid.problem
    if solved.layout is None:
        if solved.bound >= problem.dearest:
            raise NotEnoughOnHand(
                "the bars on hand do not suffice for all the pieces, and no bar that takes the longest can be bought:"
                " give a stock length without a number on hand, or more bars"
            )
        raise NoPlanInTime("no plan was found in time from the bars on hand: allow more seconds, or more bars")
    layout = solved.layout
    if problem.cost_of(layout) == solved.bound:
        layout = fewest_bars(problem, layout, solved.patterns, clock.within(TIDY_SECONDS))
    layout = largest_remnant(problem, shortest_bars(problem, layout), clock.within(TIDY_SECONDS))
    assert problem.holds(layout), "a plan must cut what is asked and over-cut nothing"
    return layout


def _planned(
    cuts: Sequence[Cut], bars: Sequence[Bar], grid: Gridded, layout: Layout, kerf: float, end_trim: float
) -> tuple[PlannedBar, ...]:
    """The layout in marks and millimetres; bars in the order of the request, those with the longest pieces first."""
    waiting: list[list[PlannedCut]] = [[] for _ in grid.problem.sizes]
    for cut, size in zip(cuts, grid.sizes, strict=True):
        waiting[size] += [PlannedCut(cut.mark, cut.length_mm)] * cut.quantity
    for pieces in waiting:
        pieces.reverse()
    planned = []
    for pattern in sorted(layout, key=lambda p: (-grid.bars[p.bar], p.counts), reverse=True):
        given = [(size, pattern.counts[size]) for size in np.flatnonzero(pattern.counts).tolist()]
        pieces = [waiting[size].pop() for size, count in given for _ in range(count)]
        planned.append(_planned_bar(bars[grid.bars[pattern.bar]], pieces, kerf, end_trim))
    return tuple(planned)


def _planned_bar(bar: Bar, cuts: Sequence[PlannedCut], kerf: float, end_trim: float) -> PlannedBar:
    """A drop shorter than the kerf is consumed by the last cut, which is then flush or nearly so."""
    used = sum(cut.length_mm for cut in cuts)
    after = bar.length - end_trim - used
    remnant = max(0.0, after - kerf * len(cuts))
    remnant = 0.0 if remnant < 1e-6 else remnant
    return PlannedBar(bar, tuple(cuts), used, max(0.0, after - remnant), end_trim, remnant)
