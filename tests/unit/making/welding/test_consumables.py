from __future__ import annotations

from dataclasses import replace

import pytest

from fitwright.making.welding.beads import bead_of
from fitwright.making.welding.consumables import used_by
from fitwright.making.welding.model import Used
from fitwright.mechanics.shrinkage import seams
from fitwright.piece import Piece


def test_use_adds_up() -> None:
    total = sum((Used(0.1, 0.09, 5.0, 20.0) for _ in range(3)), Used())
    assert (total.filler, total.metal, total.gas, total.arc_time) == pytest.approx((0.3, 0.27, 15.0, 60.0))


def test_filler_is_more_than_what_stays_and_gas_follows_the_arc(piece: Piece) -> None:
    bead = bead_of(seams(piece)[0], "MIG")
    used = used_by(bead, 7850.0)
    assert used.metal / used.filler == pytest.approx(0.96)
    assert used.gas == pytest.approx(12.5 * used.arc_time / 60)


def test_half_the_seam_takes_half(piece: Piece) -> None:
    bead = bead_of(seams(piece)[0], "MIG")
    whole, half = used_by(bead, 7850.0), used_by(replace(bead, share=0.5), 7850.0)
    assert half.filler == pytest.approx(whole.filler / 2)
    assert half.arc_time == pytest.approx(whole.arc_time / 2)
