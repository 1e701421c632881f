"""The cheapest layout with its proof: quick rules, bounds, the choice of bars, and last the patterns themselves."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from fitwright.making.cutting.bounds import bars_needed, length_bound
from fitwright.making.cutting.branch import Node, choose_bars
from fitwright.making.cutting.dive import dive
from fitwright.making.cutting.enumerate import TooMany, patterns_within
from fitwright.making.cutting.exact import best_of
from fitwright.making.cutting.master import Master, Relaxation, relax
from fitwright.making.cutting.packing import best_fit, fill_in_turn
from fitwright.making.cutting.problem import Layout, Pattern, Problem

if TYPE_CHECKING:
    from fitwright.making.cutting.clock import Clock

DIVES = 6
"""Descents from a node before its patterns are listed; most layouts there are turn up in the first few (measured)."""

FIRST = 0.2
"""The part of the time limit that the first plans may take at most."""

SLACK = 1e-6
"""Part of the cost by which a gap is widened: more than all patterns that the relaxation let pass could make up."""

MOST_PATTERNS = 30_000
"""With more patterns than this the whole-number programme takes too long to be worth setting up."""


@dataclass(frozen=True)
class Solved:
    """The best layout found (None: none exists if the bound says so, else none was found in time) and the bound.

    bound: no layout costs less; equal to the layout's cost when that is proven to be the least.
    patterns: those that the search has looked at, for another search over the same pieces and bars.
    """

    layout: Layout | None
    bound: int
    patterns: tuple[Pattern, ...] = ()


def solve(problem: Problem, clock: Clock) -> Solved:
    """The cheapest layout, proven where the clock allows, else the best found with what is proven."""
    fitted = best_fit(problem)
    clock.note("first plans", None if fitted is None else problem.cost_of(fitted), 0)
    quick = fitted, fill_in_turn(problem, clock.within(FIRST * clock.limit))
    found = [layout for layout in quick if layout is not None]
    best = min(found, key=problem.cost_of, default=None)
    below = problem.dearest if best is None else problem.cost_of(best)
    bound = bars_needed(problem) * int(problem.cost[0]) if len(problem.cost) == 1 else length_bound(problem)
    clock.note("first plans", None if best is None else below, bound)
    if bound >= below:
        return Solved(best, below)
    master = Master(problem)
    for layout in found:
        master.add(layout)
    outcome = choose_bars(problem, master, bound, below, clock)
    best = outcome.layout or best
    below = below if best is None else min(below, problem.cost_of(best))
    return _finish(problem, master, best, below, list(outcome.open), clock)


def improve(problem: Problem, layout: Layout, patterns: tuple[Pattern, ...], nodes: int, clock: Clock) -> Layout:
    """The same or a cheaper layout, as far as choosing the bars in so many nodes finds one.

    patterns: some to start with.
    """
    master = Master(problem)
    master.add((*layout, *patterns))
    return choose_bars(problem, master, 0, problem.cost_of(layout), clock, nodes).layout or layout


def _finish(
    problem: Problem, master: Master, best: Layout | None, below: int, nodes: list[Node], clock: Clock
) -> Solved:
    """Settle the nodes that choosing bars left open, the one of least bound first, in turns until none is left."""
    turn = 0
    while nodes and not clock.over:
        nodes.sort()
        node = nodes.pop(0)
        found, bound = _settle(node, master, below, turn, clock)
        if found is not None:
            best, below = found, problem.cost_of(found)
        nodes = [other for other in (replace(node, bound=bound), *nodes) if other.bound < below]
        clock.note("fitting patterns", None if best is None else below, min([below, *(other.bound for other in nodes)]))
        turn += 1
    return Solved(best, min([below, *(node.bound for node in nodes)]), tuple(master.patterns))


def _settle(node: Node, master: Master, below: int, turn: int, clock: Clock) -> tuple[Layout | None, int]:
    """A layout of the node's problem that costs less than `below`, where one is found; and what its bound then is."""
    relaxation = relax(node.problem, master, clock, below)
    if relaxation is None:
        return None, node.bound
    bound = max(node.bound, relaxation.bound)
    if bound >= below:
        return None, below
    found = _dives(node.problem, relaxation, master, below, turn, clock)
    if found is not None:
        return found, bound
    return _listed(node.problem, relaxation, bound, below, turn, clock)


def _dives(
    problem: Problem, relaxation: Relaxation, master: Master, below: int, turn: int, clock: Clock
) -> Layout | None:
    for attempt in range(DIVES):
        chance = np.random.default_rng([turn, attempt])
        found = None if clock.over else dive(problem, relaxation, master, below, clock, chance)
        if found is not None:
            return found
    return None


def _listed(
    problem: Problem, relaxation: Relaxation, bound: int, below: int, turn: int, clock: Clock
) -> tuple[Layout | None, int]:
    """List every pattern that a better layout could have, and settle it by a whole-number programme over them.

    The programme gets a longer share of the time in each turn, so that one hard node does not starve the others.
    """
    try:
        gap = below - 1 - relaxation.value + SLACK * (1 + below)
        patterns = patterns_within(problem, relaxation.prices, gap, MOST_PATTERNS)
    except TooMany:
        return None, bound
    answer = best_of(problem, patterns, bound, below - 1, clock.within(1.0 * 2**turn))
    return answer.layout, max(bound, answer.bound)
