"""Looking for the order of runs that moves the frame least."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import numpy as np

from fitwright.mechanics.model import Floats
from fitwright.mechanics.shrinkage.stages import TOGETHER, Stages, State, step, times, weld

Progress = Callable[[str, float], bool]
"""Told what is going on and how far it is (0 to 1); answers whether to go on."""

TRIES = 300
"""Changed orders that are tried: one to three seconds for forty welds in two runs each."""


def go_on(_: str, __: float) -> bool:
    """Progress for nobody."""
    return True


@dataclass(frozen=True, eq=False)
class Found:
    """An order of runs, its size of movement [mm], how many were tried, and whether the search was stopped early."""

    order: tuple[int, ...]
    movement: float
    tried: int
    stopped: bool


@dataclass(eq=False)
class Search:
    """Orders of the runs of one group, measured by the root mean square movement of its points.

    shape: (o, 6g) movement of the points, rigid motion taken out, for a unit of each gap; three outputs a point.

    What a run moves depends on which joints are welded before it, not on their order. So it is worked out once for
    each set of joints, told by the bits of a whole number; and where two orders have the same joints welded at some
    place and go on alike, they move alike from there on.
    """

    stages: Stages
    shape: Floats
    tried: int = 0
    order: tuple[int, ...] = ()
    passed: list[tuple[int, Floats]] = field(default_factory=list)
    states: dict[int, State] = field(default_factory=dict)
    known: dict[tuple[int, int], Floats] = field(default_factory=dict)

    def size(self, moved: Floats) -> float:
        """Root mean square of point movements (o,) [mm]."""
        return float(np.sqrt((moved**2).sum() / max(len(moved) // 3, 1)))

    def after(self, state: State, run: int) -> Floats:
        """(o,) how one run made in a state moves the points."""
        return times(self.shape, step(self.stages, state, run, TOGETHER))[:, 0]

    def movement(self, order: Sequence[int]) -> float:
        """The size of what an order leaves [mm]."""
        self.tried += 1
        return self.size(self._walk(order, 0, 0, np.zeros(len(self.shape)), {})[-1][1])

    def keep(self, order: Sequence[int]) -> float:
        """The same, keeping what is welded and moved before every step, so that changes of the order cost little."""
        self.tried += 1
        self.order, self.states = tuple(order), {}
        self.passed = self._walk(order, 0, 0, np.zeros(len(self.shape)), self.states)
        return self.size(self.passed[-1][1])

    def changed(self, order: Sequence[int], first: int, last: int) -> float:
        """The size of what an order leaves that has the kept one's runs at all places but `first` to `last`."""
        self.tried += 1
        self._state_at(first)
        between = self._walk(order[: last + 1], first, *self.passed[first], dict(self.states))
        return self.size(between[-1][1] + self.passed[-1][1] - self.passed[last + 1][1])

    def _state_at(self, place: int) -> State:
        """The state of the kept order before a place, kept too."""
        start = place
        while start and self.passed[start][0] not in self.states:
            start -= 1
        state = self.states[self.passed[start][0]] if start else self.stages.tacked
        for run, (welded, _) in zip(self.order[start:place], self.passed[start + 1 : place + 1], strict=True):
            state = self.states[welded] = weld(self.stages, state, run)
        return state

    def _walk(
        self, order: Sequence[int], start: int, welded: int, moved: Floats, states: dict[int, State]
    ) -> list[tuple[int, Floats]]:
        """Joints welded and points moved from `start` on, before each place and in the end; adds to `states`."""
        state, passed = states.get(welded, self.stages.tacked), [(welded, moved)]
        waiting: list[int] = []
        for run in order[start:]:
            if (welded, run) not in self.known:
                for made in waiting:
                    state = weld(self.stages, state, made)
                states[welded], waiting = state, []
                self.known[welded, run] = self.after(state, run)
            moved = moved + self.known[welded, run]
            waiting.append(run)
            welded |= 1 << int(self.stages.connection[run])
            passed.append((welded, moved))
        return passed


def best_order(
    search: Search,
    listed: Sequence[int],
    choices: Sequence[int],
    progress: Progress = go_on,
    *,
    tries: int = TRIES,
    seed: int = 0,
) -> Found:
    """The best order found: greedy, then changes of two places as long as they help.

    listed: the order to start from and never to be worse than. choices: the same welds, parted as moves the frame least
    (`quietest_runs`). The same seed gives the same order.
    Holds for the model of `stages`; not proved to be the best of all orders.
    Source: greedy construction with exchange of two places (2-opt), G. A. Croes, Operations Research 6 (1958) 791-812.
    """
    starts = [tuple(listed), tuple(choices), one_side_first(search.stages, choices)]
    if len(choices) > 1 and progress("weld order: building one", 0.0):
        starts.append(_greedy(search, choices))
    best = min(starts, key=search.movement)
    return _exchange(search, best, progress, tries, seed)


def quietest_runs(search: Search, by_split: Sequence[Sequence[Sequence[int]]]) -> tuple[int, ...]:
    """For each weld the way of parting it, and the side to begin with, whose first run moves the points least.

    by_split: weld -> way of parting -> runs.
    """
    state = search.stages.tacked
    chosen: list[int] = []
    for ways in by_split:
        sizes = {run: search.size(search.after(state, run)) for way in ways for run in way}
        quietest = min(sizes, key=sizes.__getitem__)
        chosen += sorted(next(way for way in ways if quietest in way), key=sizes.__getitem__)
    return tuple(chosen)


def one_side_first(stages: Stages, listed: Sequence[int]) -> tuple[int, ...]:
    """One side of every joint in the order listed, then the other sides the same way round."""
    seen: set[int] = set()
    first: list[int] = []
    second: list[int] = []
    for run in listed:
        joint = int(stages.connection[run])
        (second if joint in seen else first).append(run)
        seen.add(joint)
    return (*first, *second)


def _greedy(search: Search, listed: Sequence[int]) -> tuple[int, ...]:
    """At each step the run that leaves the least movement so far."""
    state, left = search.stages.tacked, list(listed)
    moved, order = np.zeros(len(search.shape)), []
    while left:
        trials = [moved + search.after(state, run) for run in left]
        pick = int(np.argmin([search.size(trial) for trial in trials]))
        moved = trials[pick]
        order.append(left.pop(pick))
        state = weld(search.stages, state, order[-1])
    return tuple(order)


def _exchange(search: Search, start: tuple[int, ...], progress: Progress, tries: int, seed: int) -> Found:
    best, value = list(start), search.keep(start)
    trials = _changes(search.stages, len(best), seed)
    left, stopped = tries, False
    idle = 0
    while left > 0 and idle < len(trials) and len(best) > 1:
        if left % 20 == 0 and not progress("weld order: trying changes", 1 - left / tries):
            stopped = True
            break
        a, b, move = trials[(tries - left) % len(trials)]
        order = _changed(best, a, b, move=move)
        trial = search.changed(order, min(a, b), max(a, b))
        left, idle = left - 1, idle + 1
        if trial < value * (1 - 1e-9):
            best, value, idle = order, search.keep(order), 0
    return Found(tuple(best), value, search.tried, stopped)


def _changed(order: list[int], a: int, b: int, *, move: bool) -> list[int]:
    changed = order.copy()
    if move:
        changed.insert(b, changed.pop(a))
    else:
        changed[a], changed[b] = changed[b], changed[a]
    return changed


def _changes(stages: Stages, count: int, seed: int) -> list[tuple[int, int, bool]]:
    """All exchanges of two places and all moves of one run to another place, shuffled."""
    pairs = [(a, b, False) for a in range(count) for b in range(a + 1, count)]
    pairs += [(a, b, True) for a in range(count) for b in range(count) if abs(a - b) > 1]
    np.random.default_rng(seed).shuffle(pairs)
    return pairs
