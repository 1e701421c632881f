from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fitwright.mechanics.framing import Framed
from fitwright.mechanics.shrinkage import Bead, runs_of
from fitwright.mechanics.shrinkage.runs import drawn, host_kink, one_sided

Frame = tuple[Framed, tuple[Bead, ...]]


def test_the_parts_of_a_seam_add_up_to_a_plain_draw(tee: Frame) -> None:
    seam = tee[1][0].seam
    for split in (0, 1):
        total = sum((drawn(seam, part, 0.2) for part in seam.sides(split)), np.zeros(6))
        assert total[:3] == pytest.approx(0.2 * seam.pull, abs=1e-12)
        assert np.abs(total[3:]).max() < 1e-12


def test_one_side_draws_its_share_and_tilts_toward_itself(tee: Frame) -> None:
    seam = tee[1][0].seam
    side = seam.acrosses[0]
    motion = drawn(seam, seam.sides(0)[0], 0.2)
    assert motion[:3] @ seam.pull == pytest.approx(0.1)
    # the far end of the member lies against the pull, and swings to the side that was welded
    far = np.cross(motion[3:], -500.0 * seam.pull)
    assert far @ side > 0.5
    # a ring with half of it shortened by d tilts by 4 / pi d over its diameter, with the saddle a little less
    assert np.linalg.norm(motion[3:]) == pytest.approx(0.2 * 4 / np.pi / 30.0, rel=0.1)


def test_the_host_bends_round_the_weld(tee: Frame) -> None:
    bead = tee[1][0]
    host = tee[0].piece.members[bead.seam.second]
    point, along, kink = host_kink(bead, np.ones(len(bead.seam.length), dtype=np.bool_), host, 0.2)
    assert point == pytest.approx([0, 0, 500], abs=1e-6)
    assert kink[:3] @ along > 0
    # the leg is below: the part behind turns its far end down
    assert np.cross(kink[3:], -400 * along)[2] < -0.1


def test_kinks_of_both_sides_add_up_and_grow_with_the_weld(tee: Frame) -> None:
    bead, members = tee[1][0], tee[0].piece.members
    runs = runs_of([bead], members)
    larger = runs_of([replace(bead, leg=4.0, area=9.0)], members)
    assert len(runs) == 4
    for split in (0, 1):
        mine = [run.kink for run in runs if run.split == split]
        whole = host_kink(bead, np.ones(len(bead.seam.length), dtype=np.bool_), members[bead.seam.second], _draw(bead))
        assert sum(mine) == pytest.approx(whole[2])
    for small, large in zip(runs, larger, strict=True):
        assert np.linalg.norm(large.kink) > np.linalg.norm(small.kink)
        assert np.linalg.norm(large.drawn) > np.linalg.norm(small.drawn)


def _draw(bead: Bead) -> float:
    return 0.10 * bead.area / bead.seam.thickness


def test_stitches_pull_by_their_share(tee: Frame) -> None:
    bead, members = tee[1][0], tee[0].piece.members
    for whole, half in zip(runs_of([bead], members), runs_of([replace(bead, share=0.5)], members), strict=True):
        assert half.drawn == pytest.approx(whole.drawn / 2)
        assert half.kink == pytest.approx(whole.kink / 2)
        assert half.length == pytest.approx(whole.length / 2)


def test_a_butt_bends_no_host(box: Frame) -> None:
    assert all(not run.kink.any() for run in runs_of(box[1], box[0].piece.members))


def test_a_weld_on_one_face_turns_about_its_own_line(tee: Frame) -> None:
    seam = tee[1][0].seam
    line = replace(seam, along=np.tile([1.0, 0, 0], (len(seam.length), 1)))
    assert one_sided(line, 0.02) == pytest.approx([0, 0, 0, 0.02, 0, 0])
