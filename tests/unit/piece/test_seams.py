from __future__ import annotations

import numpy as np
import pytest

from fitwright.piece.model import JointKind
from fitwright.piece.seams import STITCH_MM
from tests.unit.piece.conftest import Built

BED = """
stock: {{rail: rectangular tube 60 x 30 x 2, ledge: angle 30 x 30 x 3}}
parts:
  rail: {{stock: rail, path: [[15, 0, 320], [15, 2000, 320]], wide: up, ends: free}}
  ledge: {{stock: ledge, path: [[30, {from_y}, 310], [30, {to_y}, 310]], legs: [right, down], ends: free}}
"""


def laps(built: Built, from_y: float, to_y: float) -> list[float]:
    """Where along the rail a ledge on its side is joined to it."""
    joints = built(BED.format(from_y=from_y, to_y=to_y)).joints
    assert {joint.kind for joint in joints} == {JointKind.LAP}
    return sorted(float(joint.point[1]) for joint in joints)


def test_a_ledge_along_a_rail_is_stitched_from_end_to_end(built: Built) -> None:
    at = laps(built, 60, 1940)
    assert at[0] == pytest.approx(75)
    assert at[-1] == pytest.approx(1925)
    assert np.diff(at).max() <= STITCH_MM
    assert np.ptp(np.diff(at)) == pytest.approx(0, abs=1e-6)


def test_a_ledge_past_the_end_of_the_rail_is_stitched_where_both_are(built: Built) -> None:
    assert laps(built, 1500, 2400)[-1] == pytest.approx(1985)


def test_a_short_lap_is_one_weld(built: Built) -> None:
    assert len(laps(built, 500, 610)) == 1
