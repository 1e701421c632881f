from __future__ import annotations

import numpy as np
import pytest

from fitwright.checks.tees import ROUND_BASIS, Bears, Footprint, tee_findings, wall_bears
from fitwright.stock import Angle, RectTube, RoundTube
from tests.unit.checks.frames import one, rack, results

TUBE = RoundTube(32.0, 2.0)


def test_a_wider_branch_and_a_thicker_wall_bear_more() -> None:
    narrow, wide = (wall_bears(TUBE, Footprint(d, d, 32, True), 235) for d in (16.0, 32.0))
    thick = wall_bears(RoundTube(32.0, 3.0), Footprint(16.0, 16.0, 32, True), 235)
    assert narrow is not None
    assert wide is not None
    assert thick is not None
    assert narrow.axial < wide.axial
    assert narrow.out_of_plane < wide.out_of_plane
    assert thick.axial > 2 * narrow.axial


def test_a_plate_on_round_tube() -> None:
    """AISC 360-22, K2-1a and K2-2a: 5.5 Fy t^2 / (1 - 0.81 B/D) across, 5.5 Fy t^2 (1 + 0.25 l/D) along, over 1.67."""
    bears = wall_bears(TUBE, Footprint(30.0, 16.0, 32.0, False), 235)
    assert bears is not None
    unit = 5.5 * 235 * 4 / 1.67
    assert bears.axial == pytest.approx(unit / (1 - 0.81 * 0.5))
    assert bears.out_of_plane == pytest.approx(0.5 * 16 * unit / (1 - 0.81 * 0.5))
    assert bears.in_plane == pytest.approx(0.8 * 30 * unit * (1 + 0.25 * 30 / 32))


def test_no_tube_no_rule() -> None:
    assert wall_bears(Angle(40.0, 40.0, 4.0), Footprint(20, 20, 40, True), 235) is None


def test_uses_add() -> None:
    three = (np.array([50.0]), np.array([30.0]), np.array([10.0]))
    assert Bears(100, 60, 20, ROUND_BASIS).use(*three) == pytest.approx([0.5 + 0.25 + 0.5])
    assert Bears(100, 60, 20, "others").use(*three) == pytest.approx([1.5])


def test_the_face_under_the_branch_is_the_one_that_counts() -> None:
    """A 40 x 20 tube bears less on its wide face."""
    tube = RectTube(40.0, 20.0, 2.0, 4.0)
    wide, narrow = (wall_bears(tube, Footprint(16.0, 16.0, face, False), 235) for face in (40.0, 20.0))
    assert wide is not None
    assert narrow is not None
    assert wide.axial < narrow.axial


def test_tees_of_a_rack() -> None:
    made = rack()
    found = tee_findings(made[0], results(made))
    ledge = one(found, "wall of the tube at the tee", "ledge on leg")
    assert 0 < (ledge.value or 0) < 1
    assert "in the plane of both" in ledge.formula


def test_near_an_open_end_the_wall_bears_half() -> None:
    """The top rail of 32 mm tube, 20 mm under the open top of its leg: less than 0.75 D past the rail."""
    made = rack(frame="round tube 32 x 2", ledge="round tube 25 x 1.5")
    solved = results(made)
    found = tee_findings(made[0], solved)
    assert "halved" in one(found, "wall of the tube at the tee", "top on leg").formula
    assert "halved" not in one(found, "wall of the tube at the tee", "ledge on leg").formula
    whole = wall_bears(RoundTube(32.0, 2.0), Footprint(32.0, 32.0, 32.0, True), 235)
    assert whole is not None
    assert whole.halved().use(np.ones(1), np.zeros(1), np.zeros(1)) == pytest.approx(2 / whole.axial)


def test_a_branch_as_wide_as_a_square_tube_needs_no_room() -> None:
    """B sqrt(1 - b) is nothing for b = 1."""
    made = rack()
    assert not any("halved" in finding.formula for finding in tee_findings(made[0], results(made)))
