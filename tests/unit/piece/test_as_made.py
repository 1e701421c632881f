"""A piece built as it comes out: parts moved, everything else following by trimming."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.job import parse_job
from fitwright.piece import build
from fitwright.piece.as_made import Moves

JOB = """
job: {name: Frame, unit: mm}
stock: {tube: round tube 30 x 2, slat: board 20 x 95 oak}
parts:
  post: {stock: tube, ends: free, path: [[0, 0, 0], [0, 0, 800]], repeat: {x: [0, 600]}}
  rail: {stock: tube, path: [[0, 0, 500], [600, 0, 500]]}
  shelf: {slats: slat, from: [20, -100, 515], to: [580, 100, 515], along: x, gap: 5}
"""


def test_a_post_moved_aside_makes_the_rail_longer() -> None:
    job = parse_job(JOB)
    shift = np.array([[4.0, 0, 0], [4.0, 0, 0]])
    ends = np.array([[0.0, 0, 0], [4.0, 0, 0]])
    old, new = build(job), build(job, Moves({"post 2": shift, "rail": ends}))
    rail = [next(m for m in piece.members if m.name == "rail") for piece in (old, new)]
    assert rail[1].cut_length - rail[0].cut_length == pytest.approx(4.0)
    assert new.envelope.high[0] - old.envelope.high[0] == pytest.approx(4.0)


def test_boards_grow_along_and_move_across() -> None:
    job = parse_job(JOB)
    shift = (np.array([-1.0, -2.0, 0]), np.array([3.0, 2.0, 0]))
    old, new = build(job).panels[0], build(job, Moves(panels={"shelf": shift})).panels[0]
    assert new.boards[0].length - old.boards[0].length == pytest.approx(4.0)
    assert new.boards[0].low[0] == pytest.approx(19.0)
    assert [b.width for b in new.boards] == pytest.approx([b.width for b in old.boards])
    assert new.boards[0].low[1] < old.boards[0].low[1]
    assert new.boards[-1].high[1] > old.boards[-1].high[1]


def test_without_moves_it_is_as_drawn() -> None:
    job = parse_job(JOB)
    assert [m.cut_length for m in build(job, Moves()).members] == [m.cut_length for m in build(job).members]
