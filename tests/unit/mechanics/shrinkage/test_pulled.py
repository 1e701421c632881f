from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from fitwright.mechanics.framing import Framed
from fitwright.mechanics.shrinkage import Bead, Pull, Spread, pull_of
from fitwright.units import Style

Frame = tuple[Framed, tuple[Bead, ...]]


def moved(pull: Pull, name: str) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    group = pull.groups[0]
    return np.asarray(group.listed.moved[next(i for i, point in enumerate(group.points) if point.name == name)])


def test_a_tee_bows_toward_its_branch(tee: Frame) -> None:
    pull = pull_of(*tee)
    ends = [moved(pull, f"open end {k} of host") for k in (1, 2)]
    assert ends[0][2] == pytest.approx(ends[1][2], abs=1e-6)
    assert moved(pull, "leg on host")[2] - ends[0][2] > 0.2
    bow = pull.groups[0].proposed.largest()[0]
    assert bow.words().startswith("A1 (host) bows up by ")


def test_a_symmetric_balanced_cross_keeps_its_host_straight(cross: Frame) -> None:
    pull = pull_of(*cross)
    middle = moved(pull, "post on host")
    for end in (1, 2):
        assert (moved(pull, f"open end {end} of host") - middle)[2] == pytest.approx(0.0, abs=0.01)


def test_the_clamps_are_in_balance(table: Frame) -> None:
    for order in (pull_of(*table).groups[0].listed, pull_of(*table).groups[0].proposed):
        group = pull_of(*table).groups[0]
        force = order.clamp_forces
        assert np.abs(force).max() > 1.0
        assert force.sum(axis=0) == pytest.approx([0, 0, 0], abs=1e-6 * np.abs(force).max() * 100)
        assert np.cross(group.clamps, force).sum(axis=0) == pytest.approx([0, 0, 0], abs=1e-3 * np.abs(force).max())


def test_clamped_it_moves_less_than_released(table: Frame) -> None:
    order = pull_of(*table).groups[0].listed
    held = np.linalg.norm(order.held, axis=1).max()
    assert held < np.linalg.norm(order.moved, axis=1).max()


def test_feet_pull_in_and_more_with_larger_welds(table: Frame) -> None:
    frame, beads = table
    sizes = []
    for leg in (2.0, 3.0, 4.0):
        larger = [replace(bead, leg=leg, area=0.55 * leg**2) for bead in beads]
        pull = pull_of(frame, larger, progress=lambda text, share: False)
        feet = next(
            m for m in pull.groups[0].listed.movements if "leg 1" in m.measure.subject and m.measure.kind == "apart"
        )
        assert feet.change.mean < 0
        assert "come together" in feet.words()
        sizes.append(-feet.change.mean)
    assert sizes == sorted(sizes)


def test_the_shop_s_factor_scales_and_narrows(table: Frame) -> None:
    wide = pull_of(*table)
    narrow = pull_of(*table, factor=Spread(0.5, 0.05, "12 readings of this shop", sure=True), before=wide)
    for a, b in zip(wide.groups[0].proposed.movements, narrow.groups[0].proposed.movements, strict=True):
        assert b.change.mean == pytest.approx(a.change.mean / 2)
        assert b.change.sd <= a.change.sd / 2
        assert "readings" in b.change.basis


def test_stitches_in_the_same_order(table: Frame) -> None:
    frame, beads = table
    whole = pull_of(frame, beads)
    half = pull_of(frame, [replace(bead, share=0.5) for bead in beads], before=whole)
    assert half.groups[0].proposed.runs == whole.groups[0].proposed.runs
    assert half.groups[0].proposed.size == pytest.approx(whole.groups[0].proposed.size / 2, rel=1e-6)


def test_the_order_proposed_is_never_worse(box: Frame, table: Frame, cross: Frame) -> None:
    for frame in (box, table, cross):
        group = pull_of(*frame).groups[0]
        assert group.proposed.size <= group.listed.size + 1e-12
        assert group.tried > 1


def test_clamps_where_they_are_put(table: Frame) -> None:
    pull = pull_of(*table, clamps=[np.array([0.0, 0, 500]), np.array([800.0, 0, 500]), np.array([100.0, 0, 0])])
    assert len(pull.groups[0].clamps) == 3


def test_words_in_the_units_of_the_job(table: Frame) -> None:
    movement = pull_of(*table).groups[0].proposed.largest()[0]
    assert movement.words().endswith(" mm")
    assert movement.words(Style.inch()).endswith(" in")


def test_no_welds_no_movement(tee: Frame) -> None:
    assert pull_of(tee[0], []).groups == ()


def test_two_separate_frames_are_two_groups(welded: Callable[[str], Frame]) -> None:
    two = """parts:
  leg: {stock: tube, path: [[0, 0, 0], [0, 0, 500]], repeat: {x: [0, 1000]}}
  host: {stock: tube, path: [[-200, 0, 500], [200, 0, 500]], ends: free, repeat: {x: [0, 1000]}}
"""
    pull = pull_of(*welded(two))
    assert len(pull.groups) == 2
    assert pull.groups[0].listed.size == pytest.approx(pull.groups[1].listed.size, rel=1e-6)


def test_a_subassembly_comes_off_the_bench_by_itself(table: Frame) -> None:
    frame, beads = table
    name = {member.name: member.index for member in frame.piece.members}
    legs = [name["leg 1"], name["leg 2"], name["stretcher"]]
    pull = pull_of(frame, beads, subassemblies=[legs])
    first, last = pull.groups
    assert first.group.members == tuple(legs)
    assert set(first.beads) | set(last.beads) == set(range(len(beads)))
    assert not set(first.beads) & set(last.beads)
    assert last.group.members == tuple(range(4))
    assert any("open ends" in m.measure.subject for m in first.proposed.movements)
    # ends welded in the first set-up are no open ends in the second
    assert not any(point.open_end and "stretcher" in point.name for point in last.points)
    assert last.listed.size < pull_of(frame, beads).groups[0].listed.size
