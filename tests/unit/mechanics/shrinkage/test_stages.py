from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fitwright.mechanics.framing import Framed
from fitwright.mechanics.shrinkage import Bead, runs_of
from fitwright.mechanics.shrinkage.clamps import clamped
from fitwright.mechanics.shrinkage.stages import SECOND_SIDE, TOGETHER, Stages, stages_of, step, walk, weld
from fitwright.mechanics.shrinkage.tacks import tack_stiffness
from fitwright.mechanics.shrinkage.welded import compliance, joined, welded_groups

Frame = tuple[Framed, tuple[Bead, ...]]


def stages_for(frame: Frame, stiffer: float = 1.0) -> Stages:
    group = welded_groups(frame[0], frame[1])[0]
    runs = runs_of(frame[1], frame[0].piece.members)
    links = joined(group, dict(enumerate(frame[1])), runs)
    k = compliance(group, links.gaps, clamped(group)).joint_stiffness
    tacks = [
        stiffer * tack_stiffness(b, links.gaps.points[links.of_bead[i]], 2e5, 30.0) for i, b in enumerate(frame[1])
    ]
    return stages_of(k, np.array(tacks), links, frame[1], runs, range(len(runs)))


def test_a_joint_that_is_welded_gives_no_more(table: Frame) -> None:
    stages = stages_for(table)
    state = weld(stages, stages.tacked, 0)
    assert 0 not in state.left
    gaps = step(stages, state, 4).reshape(-1, 6, 4)
    assert not gaps[0].any()
    assert gaps[1].any()


def test_stiffness_grows_step_by_step(table: Frame) -> None:
    stages = stages_for(table)
    state = stages.tacked
    j = slice(6, 12)
    before = state.flexible[j, j].copy()
    after = weld(stages, state, 0)
    place = after.place(1)
    assert place is not None
    loss = np.linalg.eigvalsh(before - after.flexible[place, place])
    assert loss.min() > -1e-12 * np.abs(before).max()
    assert weld(stages, after, 0) is after


def test_what_is_left_of_a_joint_agrees_with_factoring_anew(table: Frame) -> None:
    stages = stages_for(table)
    state = weld(stages, weld(stages, stages.tacked, 0), 8)
    rows = np.concatenate([np.arange(6 * j, 6 * j + 6) for j in state.left])
    anew = stages.stiffness[np.ix_(rows, rows)].copy()
    for place, j in enumerate(state.left.tolist()):
        anew[6 * place : 6 * place + 6, 6 * place : 6 * place + 6] += stages.tacks[j]
    assert state.flexible == pytest.approx(np.linalg.inv(anew), rel=1e-6, abs=1e-15)


def test_tacks_that_do_not_give_leave_only_the_joint_that_is_welded(table: Frame) -> None:
    soft, hard = stages_for(table), stages_for(table, stiffer=1e6)
    given = [np.abs(step(s, s.tacked, 0)[6:24]).max() for s in (soft, hard)]
    assert given[1] < 1e-4 * given[0]


def test_the_second_side_pulls_by_its_share(tee: Frame) -> None:
    stages = stages_for(tee)
    done = walk(stages, (0, 1))
    tilt = done[:, 3:6, 1]
    assert np.linalg.norm(tilt[1]) <= SECOND_SIDE * np.linalg.norm(tilt[0]) + 1e-12
    assert tilt[0] @ tilt[1] < 0


def test_parts_add_up_to_the_whole_step(table: Frame) -> None:
    stages = stages_for(table)
    apart = step(stages, stages.tacked, 2)
    assert step(stages, stages.tacked, 2, TOGETHER)[:, 0] == pytest.approx(apart.sum(axis=1), abs=1e-12)


def test_a_stiffer_frame_shrinks_less(table: Frame) -> None:
    stages = stages_for(table)
    stiff = replace(stages, stiffness=100.0 * stages.stiffness)
    draws = [np.linalg.norm(step(s, s.tacked, 8)[:, 0][6 * int(s.connection[8]) :][:3]) for s in (stages, stiff)]
    assert draws[1] < draws[0]
