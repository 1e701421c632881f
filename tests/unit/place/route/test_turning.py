"""Turns at corners that need no formula: what slides, what never fits, other angles than square."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.place.route.convex import box_corners, turned
from fitwright.place.route.turning import Turn

SQUARE = np.pi / 2
BOX = box_corners((-400, -300), (400, 300))


def test_a_small_box_slides_round_without_turning() -> None:
    found = Turn(box_corners((-300, -300), (300, 300)), 1000, 900, SQUARE).best()
    assert len(found.indices) == 1
    assert found.room == pytest.approx((900 - 600) / 2)


def test_a_box_wider_than_the_passage_never_fits() -> None:
    turn = Turn(BOX, 1000, 590, SQUARE)
    assert turn.best().room == pytest.approx((590 - 600) / 2, abs=turn.error)


def test_the_room_in_a_passage_is_the_room_at_its_corner_too() -> None:
    turn = Turn(BOX, 900, 900, SQUARE)
    assert (turn.room >= np.maximum(turn.in_first, turn.in_second) - 1e-9).all()


def test_a_gentle_bend_takes_what_a_square_one_does_not() -> None:
    long = box_corners((-1500, -200), (1500, 200))
    assert Turn(long, 900, 900, np.radians(30)).best().room > 0 > Turn(long, 900, 900, SQUARE).best().room


@pytest.mark.parametrize("angle", [30.0, 60.0, 90.0, 120.0])
def test_the_placed_outline_keeps_off_all_walls(angle: float) -> None:
    turn = Turn(box_corners((-600, -200), (600, 200)), 900, 800, np.radians(angle))
    run = turn.best()
    assert run.room > 0
    inward = np.array([np.cos(turn.angle), -np.sin(turn.angle)])
    for index in run.indices:
        seen = turned(turn.outline, float(turn.headings[index])) + turn.place(int(index), run.room)
        first, second = seen[:, 0], seen @ inward
        assert first.min() == pytest.approx(run.room, abs=1e-6)
        assert second.min() == pytest.approx(run.room, abs=1e-6)
        assert not ((first > turn.first) & (second > turn.second)).any()


def test_ends_can_be_asked_for() -> None:
    turn = Turn(BOX, 1000, 1000, SQUARE)
    only = np.zeros(turn.steps, dtype=bool)
    only[180] = True
    found = turn.best(ends=only)
    assert found.indices[-1] == 180
