"""The best layout made of given patterns: a whole-number programme, two solvers side by side."""

from __future__ import annotations

import threading
import time
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from fitwright.making.cutting.problem import Layout, Pattern, Problem, trimmed_to

if TYPE_CHECKING:
    from ortools.linear_solver import pywraplp

    from fitwright.making.cutting.clock import Clock

SOLVERS = ("SCIP", "SAT")
"""SCIP has the better bounds, CP-SAT the better search; whichever is done first ends the other."""


@dataclass(frozen=True)
class Answer:
    """What the programme gave: the best layout found (None: none), and the bound on any that it can make."""

    layout: Layout | None
    bound: int


def best_of(problem: Problem, patterns: Sequence[Pattern], lowest: int, highest: int, clock: Clock) -> Answer:
    """The cheapest layout made of these patterns that costs at least `lowest` and at most `highest`.

    A pattern may give more of a size than is wanted; the layout is trimmed. The bound is `highest` + 1 when the
    programme has no such layout, `lowest` when the clock ends it first. It is as exact as the solvers' arithmetic,
    which allows an error of 1e-6 in sums of whole numbers.
    """
    done = threading.Event()
    runs = [_Run(problem, patterns, lowest, highest, name, done) for name in SOLVERS if not clock.over]
    threads = [threading.Thread(target=run.go, args=(clock.left,), daemon=True) for run in runs]
    for thread in threads:
        thread.start()
    while not done.wait(0.02) and any(thread.is_alive() for thread in threads) and not clock.over:
        pass
    while any(thread.is_alive() for thread in threads):
        for run in runs:
            run.solver.InterruptSolve()
        time.sleep(0.005)
    layouts = [run.layout for run in runs if run.layout is not None]
    best = min(layouts, key=problem.cost_of, default=None)
    return Answer(best, max([lowest, *(run.bound for run in runs)]))


class _Run:
    """One solver on one programme."""

    def __init__(
        self,
        problem: Problem,
        patterns: Sequence[Pattern],
        lowest: int,
        highest: int,
        name: str,
        done: threading.Event,
    ) -> None:
        from ortools.linear_solver import pywraplp

        self.problem, self.patterns, self.lowest, self.highest, self.done = problem, patterns, lowest, highest, done
        self.layout: Layout | None = None
        self.bound = lowest
        self.solver = pywraplp.Solver.CreateSolver(name)
        if name == "SAT":
            self.solver.SetSolverSpecificParametersAsString("num_workers:1")
        self.times = _programme(self.solver, problem, patterns, lowest, highest)

    def go(self, seconds: float) -> None:
        """Solve; the first to be certain ends the race."""
        self.solver.SetTimeLimit(max(1, int(seconds * 1000)))
        status = self.solver.Solve()
        if status in (self.solver.OPTIMAL, self.solver.FEASIBLE):
            self.layout = self._read()
        if status == self.solver.INFEASIBLE:
            self.bound = self.highest + 1
        elif status == self.solver.OPTIMAL and self.layout is not None:
            self.bound = self.problem.cost_of(self.layout)
        if status in (self.solver.OPTIMAL, self.solver.INFEASIBLE):
            self.done.set()

    def _read(self) -> Layout:
        cut: list[Pattern] = []
        for pattern, variable in zip(self.patterns, self.times, strict=True):
            cut += [pattern] * round(variable.solution_value())
        return trimmed_to(self.problem, tuple(cut))


def _programme(
    solver: pywraplp.Solver, problem: Problem, patterns: Sequence[Pattern], lowest: int, highest: int
) -> list[pywraplp.Variable]:
    """Cut at least what is wanted, within the limits of each bar, for a cost between `lowest` and `highest`.

    How many of each priced bar are used is a variable of its own, branched on first: that closes most of the gap.
    """
    infinity = solver.infinity()
    wanted = [solver.Constraint(float(number), infinity) for number in problem.demand.tolist()]
    used = [solver.Constraint(0.0, 0.0) for _ in problem.cost]
    total = solver.Constraint(float(lowest), float(highest))
    solver.Objective().SetMinimization()
    limits = zip(problem.least.tolist(), problem.limit.tolist(), problem.cost.tolist(), strict=True)
    for row, (least, most, cost) in zip(used, limits, strict=True):
        number = solver.IntVar(float(least), float(most), "")
        number.SetBranchingPriority(1 if cost else 0)
        row.SetCoefficient(number, -1.0)
        total.SetCoefficient(number, float(cost))
        solver.Objective().SetCoefficient(number, float(cost))
    return [_times(solver, problem, pattern, wanted, used[pattern.bar]) for pattern in patterns]


def _times(
    solver: pywraplp.Solver,
    problem: Problem,
    pattern: Pattern,
    wanted: Sequence[pywraplp.Constraint],
    used: pywraplp.Constraint,
) -> pywraplp.Variable:
    """How often a pattern is cut: never more than its bars or its demand allow."""
    given = [(row, count) for row, count in enumerate(pattern.counts) if count]
    most = max(-(-int(problem.demand[row]) // count) for row, count in given)
    variable = solver.IntVar(0.0, float(min(most, problem.limit[pattern.bar])), "")
    for row, count in given:
        wanted[row].SetCoefficient(variable, float(count))
    used.SetCoefficient(variable, 1.0)
    return variable
