from __future__ import annotations

import numpy as np
import pytest

from fitwright.checks.frame_results import FrameResults
from fitwright.checks.joint_forces import JointForce
from tests.unit.checks.frames import rack, results


def between(solved: FrameResults, first: str, second: str) -> JointForce:
    members = solved.framed.piece.members
    found = [
        passed for passed in solved.passed
        if (members[passed.joint.first].name, members[passed.joint.second].name) == (first, second)
    ]  # fmt: skip
    assert len(found) == 1, [(members[p.joint.first].name, members[p.joint.second].name) for p in solved.passed]
    return found[0]


def test_the_branch_is_the_one_that_ends_at_the_side_of_the_other() -> None:
    """The legs run on to the top; the rails between them are cut to fit, whichever way round the joint was found."""
    solved = results(rack())
    passed = between(solved, "top 1", "leg 1")
    assert passed.axis == pytest.approx([-1, 0, 0])
    assert passed.joint.end == 0
    assert passed.point[0] == pytest.approx(40)


def test_a_rail_passes_what_its_own_end_does() -> None:
    """A rail with nothing on it but itself hangs half of its weight on each leg."""
    solved = results(rack())
    passed = between(solved, "top 1", "leg 1")
    rail = solved.framed.piece.members[passed.joint.first]
    assert passed.force[2, 0] == pytest.approx(rail.mass * 9.80665 / 2, rel=0.01)
    assert np.abs(passed.force[:2, 0]).max() < 1.0
