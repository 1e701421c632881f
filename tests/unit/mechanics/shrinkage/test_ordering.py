from __future__ import annotations

from itertools import permutations

import numpy as np
import pytest

from fitwright.mechanics.framing import Framed
from fitwright.mechanics.shrinkage import Bead
from fitwright.mechanics.shrinkage.measures import translations, without_rigid
from fitwright.mechanics.shrinkage.ordering import Search, best_order, one_side_first
from fitwright.mechanics.shrinkage.pulled import _bench, _ways
from fitwright.mechanics.shrinkage.runs import runs_of
from fitwright.mechanics.shrinkage.welded import set_ups

Frame = tuple[Framed, tuple[Bead, ...]]


def search_of(frame: Frame) -> tuple[Search, list[list[list[int]]]]:
    runs = runs_of(frame[1], frame[0].piece.members)
    bench = _bench(set_ups(frame[0], frame[1])[0], frame[1], runs)
    shape = without_rigid(bench.points) @ bench.free.read(translations(bench.group, bench.points))
    return Search(bench.stages, shape), _ways(bench, runs)


def test_two_welds_are_ordered_as_well_as_by_trying_all(cross: Frame) -> None:
    search, ways = search_of(cross)
    runs = tuple(run for way in ways for run in way[0])
    best = min(search.movement(order) for order in permutations(runs))
    found = best_order(search, runs, runs)
    assert found.movement == pytest.approx(best, rel=1e-3)
    assert sorted(found.order) == sorted(runs)


def test_never_worse_than_listed_and_the_same_each_time(table: Frame) -> None:
    search, ways = search_of(table)
    listed = tuple(run for way in ways for run in way[0])
    found = best_order(search, listed, listed, tries=60)
    again = best_order(search, listed, listed, tries=60)
    assert found.movement <= search.movement(listed) + 1e-12
    assert found.order == again.order
    assert search.movement(found.order) == pytest.approx(found.movement)


def test_a_change_computed_from_where_it_begins_is_the_same(table: Frame) -> None:
    search, ways = search_of(table)
    order = [run for way in ways for run in way[0]]
    search.keep(order)
    changed = order[:4] + order[4:][::-1]
    assert search.changed(changed, 4, len(order) - 1) == pytest.approx(search.movement(changed))


def test_a_change_is_computed_up_to_where_the_same_joints_are_welded_again(table: Frame) -> None:
    search, ways = search_of(table)
    order = [run for way in ways for run in way[0]]
    search.keep(order)
    places = [(0, 3), (2, 5), (1, len(order) - 1)]
    for a, b in places:
        changed = order.copy()
        changed[a], changed[b] = changed[b], changed[a]
        fresh, _ = search_of(table)
        assert search.changed(changed, a, b) == pytest.approx(fresh.movement(changed), rel=1e-9)
        assert search.changed(order, a, b) == pytest.approx(fresh.movement(order), rel=1e-9)


def test_it_stops_when_told(table: Frame) -> None:
    search, ways = search_of(table)
    listed = tuple(run for way in ways for run in way[0])
    told: list[float] = []

    def ask(_: str, share: float) -> bool:
        told.append(share)
        return False

    found = best_order(search, listed, listed, ask)
    assert found.stopped
    assert told == [0.0, 0.0]
    assert found.movement <= search.movement(listed) + 1e-12


def test_one_side_of_every_joint_first(table: Frame) -> None:
    search, ways = search_of(table)
    order = one_side_first(search.stages, [run for way in ways for run in way[0]])
    joints = search.stages.connection[list(order)]
    assert len(np.unique(joints[:4])) == 4
