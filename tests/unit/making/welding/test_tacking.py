from __future__ import annotations

import numpy as np

from fitwright.making.welding import WeldPlan
from fitwright.making.welding.tacking import far_apart, tack_plan


def test_ends_before_the_middle() -> None:
    order = far_apart(np.array([[0.0, 0, 0], [50.0, 0, 0], [100.0, 0, 0], [30.0, 0, 0]]))
    assert set(order[:2]) == {0, 2}
    assert order[2] == 1


def test_one_tack_on_every_joint_before_a_second(plan: WeldPlan) -> None:
    count = len(plan.welds)
    assert {tack.weld for tack in plan.tacks[:count]} == {weld.number for weld in plan.welds}
    assert [tack.number for tack in plan.tacks] == list(range(1, len(plan.tacks) + 1))
    assert len(plan.tacks) == sum(weld.bead.tacks for weld in plan.welds)


def test_the_second_tack_lies_across_from_the_first(plan: WeldPlan) -> None:
    for weld in plan.welds:
        first, second = [tack.at for tack in plan.tacks if tack.weld == weld.number][:2]
        others = [tack.at for tack in plan.tacks if tack.weld == weld.number]
        assert np.linalg.norm(second - first) == max(np.linalg.norm(at - first) for at in others)


def test_nothing_to_tack() -> None:
    assert tack_plan(()) == ()
