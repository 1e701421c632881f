"""The exact search: where the holes lie under the parts so that the fewest blocks have to be made."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fitwright.making.bench.bearing import Grid, gaps, how_many_rows, phases, usable
from fitwright.making.bench.devices import Device
from fitwright.making.bench.flanks import Flank, Slot
from fitwright.making.bench.room import Obstacles

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

SECONDS = 4.0
TRIES = 8  # ways of equal cost that are weighed against one another by how well they locate
HELD_BY_HAND, BLOCK, BY_HAND, OVER = 1_000_000, 10_000, 100, 1
BEYOND_PITCHES = 2  # that parts may hang over more than they must, to make room for a stop


@dataclass(frozen=True, eq=False)
class Way:
    """One way to set up: phases of the holes along x and y [mm], which line of holes is the bench's first along each
    (None: any), and for each slot the flank, the device and the gap (None: nothing bears there)."""

    phase: tuple[float, float]
    line: tuple[int | None, int | None]
    bearings: tuple[tuple[int, int, float] | None, ...]
    heat: tuple[float, ...]


@dataclass(frozen=True)
class Found:
    """What the search says: ways of least cost, how many blocks each needs, the proven least, and whether all ways of
    that cost were seen."""

    ways: tuple[Way, ...]
    blocks: int
    bound: int
    proven: bool
    complete: bool


@dataclass(frozen=True, eq=False)
class Case:
    """One question to the search; lines: which line of holes may be the bench's first along each axis, counted from the
    phase, None for any; extent: of the parts [mm]."""

    slots: tuple[Slot, ...]
    devices: tuple[Device, ...]
    grid: Grid
    beside: Obstacles
    lines: tuple[tuple[int, ...] | None, tuple[int, ...] | None]
    extent: tuple[float, float] = (0.0, 0.0)


def search(case: Case, stop: Callable[[], bool] | None = None, seconds: float = SECONDS) -> Found:
    """The ways to bear on the fewest made blocks, proven by CP-SAT.

    Exact over quarter-free placements: the blocks needed change only where a line of holes passes a place at which a
    stop touches a flank, so those places (`phases`) are all there is to try.
    Holds for stops in holes of one pitch, faces along the holes.
    """
    model = _Model(case)
    solver = _solver(seconds)
    cost = model.cost()
    model.cp.minimize(cost)
    status = solver.solve(model.cp)
    if status not in _good():
        return Found((), 0, 0, False, False)
    best, bound = round(solver.objective_value), int(np.ceil(solver.best_objective_bound - 1e-6))
    proven = best == bound
    ways = [model.way(solver)]
    model.cp.add(cost <= best)
    model.cp.clear_objective()
    model.cp.maximize(model.spread())
    complete = False
    while len(ways) < TRIES and not (stop and stop()):
        model.forbid(solver)
        if solver.solve(model.cp) not in _good():
            complete = True
            break
        ways.append(model.way(solver))
    blocks = best % HELD_BY_HAND // BLOCK
    return Found(tuple(ways), blocks, bound % HELD_BY_HAND // BLOCK if proven else 0, proven, complete)


class _Model:
    """The choices as CP-SAT variables: a phase along each axis, an edge, a flank and a device for each slot."""

    def __init__(self, case: Case) -> None:
        from ortools.sat.python import cp_model

        self.case = case
        self.cp: Any = cp_model.CpModel()
        self.heat = tuple(usable(slot, case.devices, case.beside) for slot in case.slots)
        ask = (case.slots, case.devices, case.grid.pitch)
        self.phases = tuple(phases(*ask, axis, case.beside, self.heat) for axis in (0, 1))
        self.at = tuple(self._one_of(f"phase{a}", len(self.phases[a])) for a in (0, 1))
        self.line = tuple(self._one_of(f"line{a}", len(case.lines[a] or ())) if case.lines[a] else [] for a in (0, 1))
        self._counts: dict[tuple[int, int, float], NDArray[np.int64]] = {}
        self.flank: list[list[Any]] = []
        self.used: list[dict[tuple[int, int], Any]] = []
        self.none: list[Any] = []
        self.block: list[Any] = []
        self.by_hand: list[Any] = []
        for number in range(len(case.slots)):
            self._slot(number)
        for d, device in enumerate(case.devices):
            self.cp.add(sum(var for used in self.used for (_, e), var in used.items() if e == d) <= device.count)

    def _one_of(self, name: str, count: int) -> list[Any]:
        chosen = [self.cp.new_bool_var(f"{name}_{k}") for k in range(count)]
        self.cp.add_exactly_one(chosen)
        return chosen

    def _slot(self, number: int) -> None:
        slot = self.case.slots[number]
        shares = self.flank[slot.pair] if slot.pair is not None else None
        flank = shares or [self.cp.new_bool_var(f"flank{number}_{f}") for f in range(len(slot.options))]
        none, block, by_hand = (self.cp.new_bool_var(f"{word}{number}") for word in ("none", "block", "hand"))
        used: dict[tuple[int, int], Any] = {}
        for f, _ in enumerate(slot.options):
            for d, _ in enumerate(self.case.devices):
                var = self._bearing(number, f, d, block, by_hand)
                if var is not None:
                    used[f, d] = var
        if not shares:
            self.cp.add_at_most_one(flank)
        for f in range(len(slot.options)):
            self.cp.add(sum(var for (g, _), var in used.items() if g == f) <= flank[f])
        self.cp.add_exactly_one([*used.values(), none])
        self.flank.append(flank)
        self.used.append(used)
        self.none.append(none)
        self.block.append(block)
        self.by_hand.append(by_hand)

    def _bearing(self, number: int, f: int, d: int, block: Any, by_hand: Any) -> Any | None:
        """Whether a slot bears by a device on a flank: only where holes allow it; a block fills a gap."""
        case, slot = self.case, self.case.slots[number]
        flank, device = slot.options[f], case.devices[d]
        axis, pitch = flank.axis, case.grid.pitch
        rows = self._rows(number, f, d)
        if not rows.any():
            return None
        var = self.cp.new_bool_var(f"bears{number}_{f}_{d}")
        touching = gaps(flank, device, self.phases[axis], pitch)
        zero, slid = touching == 0, (touching > 0) & (touching <= device.farthest - device.face)
        chosen = self.at[axis]
        self.cp.add(sum(b for b, ok in zip(self.at[1 - axis], rows, strict=True) if ok) >= var)
        self.cp.add(block + sum(b for b, ok in zip(chosen, zero | slid, strict=True) if ok) >= var)
        self.cp.add(by_hand + block + sum(b for b, ok in zip(chosen, zero, strict=True) if ok) >= var)
        self._on_bench(var, flank, device, touching)
        return var

    def _on_bench(self, var: Any, flank: Flank, device: Device, gap: Floats) -> None:
        """A bearing only where its line of holes is one of the bench's, and enough rows of holes run beside it."""
        axis, grid = flank.axis, self.case.grid
        if self.case.lines[axis]:
            holes = flank.at + flank.sign * (device.face + np.where(gap <= device.farthest - device.face, 0.0, gap))
            number = np.rint((holes - self.phases[axis]) / grid.pitch).astype(int)
            for line in np.unique(number):
                free = [b for b, n in zip(self.at[axis], number, strict=True) if n != line]
                there = [b for b, m in self._lines(axis) if m <= line < m + grid.count[axis]]
                self.cp.add(sum(free) + sum(there) >= var)
        if self.case.lines[1 - axis]:
            there = [b for b, m in self._lines(1 - axis) if self._runs_beside(flank, m)]
            self.cp.add(sum(there) >= var)

    def _lines(self, axis: int) -> list[tuple[Any, int]]:
        return list(zip(self.line[axis], self.case.lines[axis] or (), strict=True))

    def _runs_beside(self, flank: Flank, line: int) -> bool:
        """Whether two rows of holes at least run beside a flank, or all that a short one can have."""
        side, grid = 1 - flank.axis, self.case.grid
        first, last = grid.pitch * (line + 1), grid.pitch * (line + grid.count[side] - 1)
        return min(flank.high, last) - max(flank.low, first) >= min(2 * grid.pitch, flank.span) - 1e-9

    def _rows(self, number: int, f: int, d: int) -> Bools:
        """(k,) whether a slot has a hole to bear from, for each phase across; a pair needs two."""
        case, slots = self.case, self.case.slots
        flank, heat = slots[number].options[f], self.heat[number]
        paired = slots[number].pair is not None or any(other.pair == number for other in slots)
        key = (id(flank), d, heat)
        if key not in self._counts:
            across = self.phases[1 - flank.axis]
            self._counts[key] = how_many_rows(flank, case.devices[d], across, case.grid.pitch, case.beside, heat)
        return np.asarray(self._counts[key] >= (2 if paired else 1))

    def cost(self) -> Any:
        """What has no hole at all weighs most, then made blocks, then faces set by hand, then what hangs over."""
        made = HELD_BY_HAND * sum(self.none) + BLOCK * sum(self.block) + BY_HAND * sum(self.by_hand)
        return made + OVER * sum(
            _lines_over(m, self.case.extent[a], self.case.grid, a) * b for a in (0, 1) for b, m in self._lines(a)
        )

    def spread(self) -> Any:
        """Long flanks make good locators [mm]."""
        slots = self.case.slots
        return sum(
            int(slots[s].options[f].span) * var for s, used in enumerate(self.used) for (f, _), var in used.items()
        )

    def forbid(self, solver: Any) -> None:
        """Leave out the pair of phases just found."""
        found = [next(b for b in self.at[a] if solver.value(b)) for a in (0, 1)]
        self.cp.add_bool_or([b.negated() for b in found])

    def way(self, solver: Any) -> Way:
        """What the solver has chosen."""
        at = [next(k for k, b in enumerate(self.at[a]) if solver.value(b)) for a in (0, 1)]
        phase = (float(self.phases[0][at[0]]), float(self.phases[1][at[1]]))
        line = [next((m for b, m in self._lines(a) if solver.value(b)), None) for a in (0, 1)]
        bearings: list[tuple[int, int, float] | None] = []
        for slot, used in zip(self.case.slots, self.used, strict=True):
            chosen = next((key for key, var in used.items() if solver.value(var)), None)
            bearings.append(None if chosen is None else (*chosen, self._gap(slot, *chosen, phase)))
        return Way(phase, (line[0], line[1]), tuple(bearings), self.heat)

    def _gap(self, slot: Slot, f: int, d: int, phase: tuple[float, float]) -> float:
        flank = slot.options[f]
        at = np.array([phase[flank.axis]])
        return float(gaps(flank, self.case.devices[d], at, self.case.grid.pitch)[0])


def _solver(seconds: float) -> Any:
    from ortools.sat.python import cp_model

    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.max_time_in_seconds = seconds
    return solver


def _good() -> tuple[Any, ...]:
    from ortools.sat.python import cp_model

    return (cp_model.OPTIMAL, cp_model.FEASIBLE)


def lines_for(grid: Grid, axis: int, extent: float, centre: float) -> tuple[int, ...] | None:
    """Which line of holes may be the bench's first along an axis, for parts from 0 to `extent` with their centre of
    mass there [mm]; lines are counted from the first at or past 0.

    None where they fit with room for stops all round: then any. Else those at which little more than must hangs over,
    and the centre of mass lies well on the bench; all of them where none has it so.
    """
    size, pitch = grid.size[axis], grid.pitch
    if extent + 4 * pitch <= size:
        return None
    low, high = sorted((extent - size, 0.0))
    first = int(np.floor((low + grid.first[axis]) / pitch)) - BEYOND_PITCHES
    last = int(np.ceil((high + grid.first[axis]) / pitch)) + BEYOND_PITCHES
    lines = tuple(range(first, last + 1))
    edges = {m: pitch * (m + 0.5) - grid.first[axis] for m in lines}
    well = tuple(m for m in lines if edges[m] + 0.1 * size <= centre <= edges[m] + 0.9 * size)
    return well or lines


def _lines_over(line: int, extent: float, grid: Grid, axis: int) -> int:
    """How many pitches more hang over than must."""
    size, edge = grid.size[axis], grid.pitch * (line + 0.5) - grid.first[axis]
    over = max(edge, 0.0) + max(extent - edge - size, 0.0) - max(extent - size, 0.0)
    return int(np.ceil(over / grid.pitch - 0.5 - 1e-9))
