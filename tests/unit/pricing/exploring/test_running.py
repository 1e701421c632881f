"""Many points on all cores: the same as one after another, stoppable, and no point is lost."""

from __future__ import annotations

import os
from itertools import count

import pytest

from fitwright.pricing.exploring import Base, Figures, Point, Tried, explore, grid, read_vary
from fitwright.pricing.exploring.running import DIED, cores
from fitwright.shop import Shop
from fitwright.shop.learning import Learnt
from fitwright.units import Style
from tests.stand import SHOP, TEXT, figures, quick_judge

BASE = Base(TEXT, SHOP)
POINTS = grid([read_vary("width=400..500:5", TEXT, Style.metric()), read_vary("rails=1|2", TEXT, Style.metric())])


def dying_judge(text: str, shop: Shop, learnt: Learnt | None) -> Figures:
    """A judge whose process dies of every third width."""
    if "width: 425" in text:
        os._exit(9)
    return figures()


def test_cores_find_what_one_finds_with_progress() -> None:
    told: list[tuple[int, int]] = []
    one = explore(POINTS, BASE, quick_judge, workers=1)
    many = explore(
        POINTS, BASE, quick_judge, workers=2, progress=lambda done, total, _: told.append((done, total))
    )  # fmt: skip
    assert many == one
    assert [row.point for row in one] == list(POINTS)
    assert sum(row.figures is None for row in one) == 2
    assert told == [(done, len(POINTS)) for done in range(1, len(POINTS) + 1)]


@pytest.mark.parametrize("workers", [1, 2])
def test_stopped_it_keeps_what_is_done(workers: int) -> None:
    """Asked at every look: it says stop from the third on, and what is under way is finished."""
    looks = count()
    found = explore(POINTS, BASE, quick_judge, workers=workers, stop=lambda: next(looks) >= 3)
    assert 0 <= len(found) < len(POINTS)
    assert found == tuple(row for row in explore(POINTS, BASE, quick_judge, workers=1) if row in found)


def test_stopped_before_it_begins_there_is_nothing() -> None:
    assert explore(POINTS, BASE, quick_judge, workers=1, stop=lambda: True) == ()


def test_a_process_that_dies_loses_no_row() -> None:
    found = explore(POINTS, BASE, dying_judge, workers=2)
    assert len(found) == len(POINTS)
    assert DIED in {row.wrong for row in found}


def test_one_point_needs_no_processes() -> None:
    (found,) = explore(POINTS[:1], BASE, quick_judge)
    assert isinstance(found, Tried)
    assert cores() >= 1


def test_points_of_any_order_come_back_in_order() -> None:
    mixed: list[Point] = [POINTS[5], POINTS[0], POINTS[3]]
    assert [row.point for row in explore(mixed, BASE, quick_judge, workers=1)] == [POINTS[0], POINTS[3], POINTS[5]]
