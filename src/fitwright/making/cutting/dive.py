"""Plans from the relaxation: take the patterns it likes best, solve again for what is left, and so on down."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from fitwright.making.cutting.master import Master, Relaxation, relax
from fitwright.making.cutting.packing import best_fit, cheapest_bars
from fitwright.making.cutting.problem import Layout, Pattern, Problem, trimmed_to

if TYPE_CHECKING:
    from fitwright.making.cutting.clock import Clock


def dive(
    problem: Problem, start: Relaxation, master: Master, below: int, clock: Clock, chance: np.random.Generator | None
) -> Layout | None:
    """A layout that costs less than `below`, or None when this descent does not find one.

    start: the relaxation of the whole problem. chance: where given, which of the well liked patterns is taken is drawn.
    Source: diving with column generation, Sadykov et al., Primal heuristics for branch and price, INFORMS J. on
    Computing 31 (2019) 251-267 (from memory).
    """
    taken: list[Pattern] = []
    rest, relaxation = problem, start
    while True:
        chosen = _liked(rest, relaxation, chance)
        taken += chosen
        rest = rest.left_after(tuple(chosen))
        spent = problem.cost_of(tuple(taken))
        if not rest.demand.any():
            return _settled(problem, taken) if spent < below else None
        quick = best_fit(rest)
        if quick is not None and spent + rest.cost_of(quick) < below:
            return _settled(problem, (*taken, *quick))
        step = relax(rest, master, clock, below - spent)
        if step is None or spent + step.bound >= below:
            return None
        relaxation = step


def _settled(problem: Problem, taken: Sequence[Pattern]) -> Layout:
    """Without what is made beyond the demand, and on cheaper bars where that leaves room for them."""
    return cheapest_bars(problem, trimmed_to(problem, tuple(taken)))


def _liked(problem: Problem, relaxation: Relaxation, chance: np.random.Generator | None) -> list[Pattern]:
    """The patterns to take next: all whole times, else every time near one, else the greatest fraction."""
    whole = np.floor(relaxation.times + 1e-6).astype(int)
    taken = [pattern for index in np.flatnonzero(whole) for pattern in [relaxation.patterns[index]] * int(whole[index])]
    part = relaxation.times - whole
    if chance is not None:
        part = part * chance.uniform(0.6, 1.0, len(part))
    demand, limit = problem.demand.copy(), problem.limit.copy()
    for pattern in taken:
        demand -= pattern.counts
        limit[pattern.bar] -= 1
    for index in np.argsort(-part, kind="stable").tolist():
        pattern = relaxation.patterns[index]
        if (part[index] < 0.75 and taken) or part[index] <= 1e-6:
            break
        if (demand >= pattern.counts).all() and limit[pattern.bar] > 0:
            taken.append(pattern)
            demand -= pattern.counts
            limit[pattern.bar] -= 1
    return taken
