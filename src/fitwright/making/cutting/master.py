"""The linear relaxation over all cutting patterns, by column generation, with an exact bound from its prices."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from fitwright.making.cutting.knapsack import TABLE_CAPACITY, Ceiling, fillings
from fitwright.making.cutting.problem import Pattern, Problem, Whole

if TYPE_CHECKING:
    from ortools.linear_solver import pywraplp

    from fitwright.making.cutting.clock import Clock

Real = NDArray[np.float64]

TOLERANCE = 1e-7
"""A filling worth this much more than its bar, as a part of the cost, pays for it; less is rounding."""

ROUGH = 2500
"""Steps into which a long bar is divided for a quick look for patterns."""

SHORT = 1e-7
"""A part of a piece smaller than this counts as none."""

EMERGENCY = (4.0, 256.0, 65536.0)
"""What a piece costs that no bar gives, as multiples of the dearest bar's rate by length; raised while any is used."""


@dataclass(frozen=True)
class Prices:
    """What the relaxation would pay: `worth` (m,) for a piece of each size, `rent` (k,) for a place on a limited bar.

    Whole numbers in units of 1 / `scale` of the cost's unit. A rent is negative for a bar that has to be used.
    """

    worth: Whole
    rent: Whole
    scale: int

    def reach(self, problem: Problem) -> Whole:
        """(k,) what a filling of each bar must be worth to pay for the bar."""
        return problem.cost * self.scale + self.rent


@dataclass(frozen=True)
class Relaxation:
    """The optimum of the relaxation: its patterns with how often each is cut, its prices, and the bound.

    value: what no layout can cost less than at these prices; bound: the best such value, rounded up to a whole cost.
    short: some piece is left out.
    """

    patterns: tuple[Pattern, ...]
    times: Real
    prices: Prices
    value: float
    bound: int
    short: bool

    def bars(self, problem: Problem) -> Real:
        """(k,) how many of each bar the relaxation uses."""
        used = np.zeros(len(problem.cost))
        np.add.at(used, [pattern.bar for pattern in self.patterns], self.times)
        return used


class Master:
    """The linear programme over the patterns known so far; GLOP solves it, each time from the last basis.

    One serves the whole search: `restrict` turns it to any part of the problem, fewer pieces, fewer bars.
    """

    def __init__(self, problem: Problem) -> None:
        from ortools.linear_solver import pywraplp

        self.solver: pywraplp.Solver = pywraplp.Solver.CreateSolver("GLOP")
        self.solver.SetSolverSpecificParametersAsString("use_preprocessing:false")  # it would forget the basis
        self.infinity = self.solver.infinity()
        self.cost = problem.cost
        self.rate = max(1e-9, float(np.max(problem.cost / problem.capacity)))
        self.wanted = [self.solver.Constraint(0.0, self.infinity) for _ in problem.demand]
        self.used = [self.solver.Constraint(0.0, self.infinity) for _ in problem.cost]
        self.objective = self.solver.Objective()
        self.objective.SetMinimization()
        self.missing = [self._variable({row: 1}) for row in range(len(problem.demand))]
        self.patterns: list[Pattern] = []
        self.known: set[Pattern] = set()
        self.variables: list[pywraplp.Variable] = []
        self.counts = np.zeros((0, len(problem.demand)), dtype=np.int64)
        self.allowed = np.zeros(0, dtype=np.bool_)
        self.solution: tuple[Real, bool] = (np.zeros(0), True)
        self.problem = problem
        self.restrict(problem)

    def _variable(self, rows: dict[int, int]) -> pywraplp.Variable:
        variable = self.solver.NumVar(0.0, self.infinity, "")
        for row, count in rows.items():
            self.wanted[row].SetCoefficient(variable, float(count))
        return variable

    def restrict(self, problem: Problem) -> None:
        """Turn to a part of the problem: what is wanted of it, and how many of each bar may and have to be used.

        Patterns that give more of a size than is wanted, or are for a bar that is not there, are shut out.
        """
        self.problem = problem
        for row, number in zip(self.wanted, problem.demand.tolist(), strict=True):
            row.SetLb(float(number))
        binding = problem.limit < problem.pieces
        for bar, row in enumerate(self.used):
            row.SetBounds(float(problem.least[bar]), float(problem.limit[bar]) if binding[bar] else self.infinity)
        there = problem.limit[[pattern.bar for pattern in self.patterns]] > 0
        allowed = (self.counts <= problem.demand).all(axis=1) & there
        for index in np.flatnonzero(allowed != self.allowed).tolist():
            self.variables[index].SetUb(self.infinity if allowed[index] else 0.0)
        self.allowed = allowed

    def emergency(self, multiple: float) -> None:
        """Set what a piece costs that no bar gives."""
        for variable, size in zip(self.missing, self.problem.sizes.tolist(), strict=True):
            self.objective.SetCoefficient(variable, multiple * self.rate * size)

    def new(self, patterns: Iterable[Pattern]) -> list[Pattern]:
        """Those of the patterns that are not known, each once."""
        return [pattern for pattern in dict.fromkeys(patterns) if pattern not in self.known]

    def add(self, patterns: Iterable[Pattern]) -> int:
        """Let more patterns be cut; returns how many of them were not known."""
        new = self.new(patterns)
        for pattern in new:
            variable = self._variable({row: count for row, count in enumerate(pattern.counts) if count})
            self.objective.SetCoefficient(variable, float(self.cost[pattern.bar]))
            self.used[pattern.bar].SetCoefficient(variable, 1.0)
            self.variables.append(variable)
        if new:
            self.patterns += new
            self.known.update(new)
            self.counts = np.concatenate([self.counts, np.array([pattern.counts for pattern in new])])
            self.allowed = np.concatenate([self.allowed, np.ones(len(new), dtype=np.bool_)])
        return len(new)

    def solve(self) -> bool:
        """Solve the programme over the patterns known; False when GLOP cannot."""
        return bool(self.solver.Solve() == self.solver.OPTIMAL)

    def read(self) -> None:
        """Take the solution down, which is to be done before any pattern is added."""
        short = any(variable.solution_value() > SHORT for variable in self.missing)
        chosen = np.flatnonzero(self.allowed)
        times = np.zeros(len(self.variables))
        times[chosen] = [self.variables[index].solution_value() for index in chosen.tolist()]
        self.solution = times, short

    @property
    def short(self) -> bool:
        """Whether the solution last read leaves out some piece."""
        return self.solution[1]

    def cut(self) -> tuple[tuple[Pattern, ...], Real]:
        """The patterns (n,) that the solution last read cuts, and how often (n,) each."""
        times = self.solution[0]
        chosen = np.flatnonzero(times > SHORT)
        return tuple(self.patterns[index] for index in chosen), times[chosen]

    def prices(self) -> Prices:
        """Prices of the present solution."""
        worth = np.array([max(0.0, row.dual_value()) for row in self.wanted])
        rent = np.array([-row.dual_value() for row in self.used]) * self.problem.binding
        return whole_prices(self.problem, worth, rent)


def whole_prices(problem: Problem, worth: Real, rent: Real) -> Prices:
    """Prices rounded to whole numbers fine enough that rounding does not show, small enough that no sum overflows."""
    largest = problem.pieces * max(float(worth.max(initial=0.0)), 1.0) + float(problem.cost.max() + np.abs(rent).max())
    scale = int(min(2.0**40, 2.0**60 / largest))
    return Prices(np.floor(worth * scale).astype(np.int64), np.ceil(rent * scale).astype(np.int64), scale)


def proven_bound(problem: Problem, prices: Prices, best: Whole) -> tuple[int, float]:
    """The least whole cost of any layout, and the value before rounding up, from any prices whatever.

    best: (k,) no less than the greatest worth of a filling of each bar at these prices.

    Holds for any non-negative worths. For bars without limit the scale is raised until none is worth more than its
    cost; a limited bar counts as often as its limits allow, whichever is cheaper. In whole numbers, hence exact.
    Source: Lagrangian bound; Farley, Operations Research 38 (1990) 922-923, for the scaling (from memory).
    """
    limited = problem.binding
    scale = prices.scale
    for bar in np.flatnonzero(~limited).tolist():
        if best[bar] > int(problem.cost[bar]) * scale:
            if problem.cost[bar] == 0:
                return 0, 0.0
            scale = -(-int(best[bar]) // int(problem.cost[bar]))
    gain = sum(int(number) * int(worth) for number, worth in zip(problem.demand, prices.worth, strict=True))
    for bar in np.flatnonzero(limited).tolist():
        dear = int(problem.cost[bar]) * scale - int(best[bar])
        gain += dear * int(problem.limit[bar] if dear < 0 else problem.least[bar])
    return max(0, -(-gain // scale)), max(0.0, gain / scale)


def relax(problem: Problem, master: Master, clock: Clock, cutoff: float = float("inf")) -> Relaxation | None:
    """Solve the relaxation; new patterns go into `master`. None when the clock is over first.

    cutoff: stop as soon as the bound reaches it; the result then has that bound and the patterns so far.
    """
    master.restrict(problem)
    bound = 0
    for multiple in EMERGENCY:
        master.emergency(multiple)
        while not clock.over and master.solve():
            prices = master.prices()
            if master.add(_rough_patterns(problem, prices)):
                continue
            best, found = _price(problem, prices)
            proven, value = proven_bound(problem, prices, best)
            bound = max(bound, proven)
            if bound >= cutoff or not master.new(found):
                master.read()
                break
            master.add(found)
        else:
            return None
        if bound >= cutoff or not master.short:
            break
    return Relaxation(*master.cut(), prices, value, bound, master.short)


def _price(problem: Problem, prices: Prices) -> tuple[Whole, list[Pattern]]:
    """(k,) greatest worth of a filling of each bar, or its reach if that is more; and the patterns that pay."""
    usable = np.flatnonzero(problem.limit > 0)
    reach = prices.reach(problem)
    filled = fillings(problem.sizes, prices.worth, problem.demand, Ceiling(problem.capacity[usable], reach[usable]))
    best = reach.copy()
    found: list[Pattern] = []
    for bar in usable.tolist():
        index = filled.best(int(problem.capacity[bar]))
        worth = filled.worth(index)
        best[bar] = max(worth, int(reach[bar]))
        if worth - int(reach[bar]) > TOLERANCE * prices.scale * max(1, int(problem.cost[bar])):
            found.append(Pattern(bar, filled.counts(index)))
    return best, found


def _rough_patterns(problem: Problem, prices: Prices) -> list[Pattern]:
    """Patterns that pay for their bar, found quickly with lengths in coarse steps; nothing where exactness is as quick.

    Sizes are rounded up and bars down, so that what fits in steps fits.
    """
    longest = int(problem.capacity.max())
    if longest <= TABLE_CAPACITY:
        return []
    grain = -(-longest // ROUGH)
    rough = replace(problem, sizes=-(-problem.sizes // grain), capacity=problem.capacity // grain)
    return _price(rough, prices)[1]
