from __future__ import annotations

import numpy as np
import pytest

from fitwright.mechanics.variation.seats import CLAMP, FIRM, PRESS, directions, seats
from fitwright.piece.model import JointKind
from tests.unit.mechanics.variation.samples import RACK, TABLE, setting_of


def test_every_kind_of_joint_has_a_seat() -> None:
    assert {str(kind) for kind in JointKind} <= set(seats())


def test_a_tee_is_free_along_the_branch_and_forced_across() -> None:
    fitted = np.diag(seats()["tee"].fitted)
    assert fitted[:3].tolist() == [PRESS, PRESS, CLAMP]


def test_a_lap_is_drawn_together_and_free_in_its_plane() -> None:
    assert seats()["lap"].forces == (True, False, False, False, True, True)


def test_a_sleeve_keeps_ends_in_line_and_lets_them_slide() -> None:
    assert seats()["sleeved"].forces == (False, True, True, False, True, True)


def test_a_fastened_joint_is_firm_every_way() -> None:
    for seat in seats().values():
        assert (np.diag(seat.fastened) >= FIRM).all()


def test_directions_are_square_and_keep_the_first() -> None:
    axes = directions(np.array([0.0, 0, 2]), np.array([1.0, 0, 1]))
    assert axes @ axes.T == pytest.approx(np.eye(3))
    assert axes[0].tolist() == [0, 0, 1]
    assert axes[1].tolist() == [1, 0, 0]


def test_parallel_parts_still_get_three_directions() -> None:
    axes = directions(np.array([1.0, 0, 0]), np.array([-3.0, 0, 0]))
    assert axes @ axes.T == pytest.approx(np.eye(3))


def test_kinds_found_on_a_piece() -> None:
    assert {m.seat.kind for m in setting_of(RACK).parts.meetings} == {"tee"}
    kinds = [m.seat.kind for m in setting_of(TABLE).parts.meetings]
    assert kinds.count("corner") == 4
    assert set(kinds) == {"corner", "tee"}
