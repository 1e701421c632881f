"""Which bars to take, and how many: branch and bound on the number of each, a relaxation at every node."""

from __future__ import annotations

import heapq
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from fitwright.making.cutting.dive import dive
from fitwright.making.cutting.master import Master, Relaxation, relax
from fitwright.making.cutting.problem import Layout, Problem
from fitwright.making.cutting.totals import attainable

if TYPE_CHECKING:
    from fitwright.making.cutting.clock import Clock

WHOLE = 1e-6
"""Nearer to a whole number than this counts as whole."""


MOST_NODES = 1_000_000
"""Enough never to be the limit."""

DIVE_EVERY = 4
"""A descent costs as much as several nodes, so only one node in so many starts one (measured)."""


@dataclass(frozen=True)
class Node:
    """A part of the search: the problem with its bars restricted, and the bound known for it."""

    bound: int
    number: int
    problem: Problem

    def __lt__(self, other: Node) -> bool:
        return (self.bound, -self.number) < (other.bound, -other.number)


@dataclass(frozen=True)
class Outcome:
    """The best layout found (None: none below the limit), the proven bound, and the nodes that stayed open."""

    layout: Layout | None
    bound: int
    open: tuple[Node, ...]


def choose_bars(
    problem: Problem, master: Master, bound: int, below: int, clock: Clock, nodes: int = MOST_NODES
) -> Outcome:
    """The cheapest layout between a known `bound` and `below`, as far as the choice of bars decides it.

    nodes: stop when about so many have been made. A node whose bars are all whole in number, but for which no descent
    finds a layout, stays open and keeps its bound.
    """
    search = _Search(problem, master, bound, below, clock)
    while search.queue and not clock.over and search.queue[0].bound < search.below and search.number < nodes:
        found = search.step()
        clock.note("choosing bars", None if found is None else search.below, search.lowest)
    return Outcome(search.best, search.lowest, search.left)


class _Search:
    """The open nodes, best bound first, and those that nothing more can be done with here."""

    def __init__(self, problem: Problem, master: Master, bound: int, below: int, clock: Clock) -> None:
        self.problem, self.master, self.below, self.clock = problem, master, below, clock
        self.sums = attainable(problem, below)
        self.queue = [Node(bound, 0, problem)]
        self.shut: list[Node] = []
        self.best: Layout | None = None
        self.number = 0

    @property
    def left(self) -> tuple[Node, ...]:
        """The nodes that may still hold a better layout."""
        return tuple(node for node in (*self.queue, *self.shut) if node.bound < self.below)

    @property
    def lowest(self) -> int:
        """What no layout can cost less than."""
        return min([self.below, *(node.bound for node in (*self.queue[:1], *self.shut))])

    def step(self) -> Layout | None:
        """Deal with the node of least bound; returns a better layout where one turns up."""
        node = heapq.heappop(self.queue)
        relaxation = relax(node.problem, self.master, self.clock, self.below)
        if relaxation is None:
            self.shut.append(node)
            return None
        bound = self.sums.next(max(node.bound, relaxation.bound))
        if bound >= self.below:
            return None
        parts = () if relaxation.short else _split(node.problem, relaxation)
        found = None
        if not parts or node.number % DIVE_EVERY == 0:
            found = self._dive(node, relaxation)
        if not parts:
            self.shut.append(replace(node, bound=bound))
        for part in parts:
            self.number += 1
            heapq.heappush(self.queue, Node(bound, self.number, part))
        return found

    def _dive(self, node: Node, relaxation: Relaxation) -> Layout | None:
        chance = np.random.default_rng(node.number)
        found = dive(node.problem, relaxation, self.master, self.below, self.clock, chance)
        if found is not None:
            self.best, self.below = found, self.problem.cost_of(found)
        return found


def _split(problem: Problem, relaxation: Relaxation) -> tuple[Problem, ...]:
    """The problem with fewer, and with more, of the priced bar whose number is farthest from whole; else nothing."""
    used = relaxation.bars(problem)
    part = np.abs(used - np.round(used)) * (problem.cost > 0)
    bar = int(np.argmax(part * (1 + problem.cost / problem.cost.max())))
    if part[bar] < WHOLE:
        return ()
    fewer, more = problem.limit.copy(), problem.least.copy()
    fewer[bar] = int(np.floor(used[bar]))
    more[bar] = int(np.ceil(used[bar]))
    return replace(problem, limit=fewer), replace(problem, least=more)
