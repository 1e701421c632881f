from __future__ import annotations

import pytest

from fitwright.making.welding.beads import bead_of, deposit_of, leg_of, section_of, tacks_on
from fitwright.mechanics.shrinkage import Seam, WeldKind, seams
from fitwright.piece import Piece


def _seam(piece: Piece, kind: WeldKind) -> Seam:
    return next(seam for seam in seams(piece) if seam.kind is kind)


def test_a_butt_goes_through_the_wall(piece: Piece) -> None:
    seam = _seam(piece, WeldKind.BUTT)
    assert leg_of(seam).make == seam.thickness == 2.0
    assert section_of(seam, 2.0) == pytest.approx(2.0 * (2.0 + seam.mean_gap))
    assert deposit_of(seam, 2.0) == pytest.approx(section_of(seam, 2.0) / 2)


def test_a_fillet_has_its_triangle_and_the_gap_under_it(piece: Piece) -> None:
    seam = _seam(piece, WeldKind.FILLET)
    assert section_of(seam, 2.0) == pytest.approx(0.5 * 4.0 * 1.1 + seam.mean_gap * 2.0)
    assert deposit_of(seam, 2.0) == section_of(seam, 2.0)


def test_the_bead_follows_the_wall(piece: Piece) -> None:
    bead = bead_of(_seam(piece, WeldKind.FILLET), "MIG")
    assert bead.throat == pytest.approx(bead.leg / 2**0.5)
    assert bead.heat > 0
    assert bead.tack_length == 6.0


@pytest.mark.parametrize(("length", "count"), [(10.0, 2), (90.0, 2), (91.0, 3), (200.0, 5), (2000.0, 8)])
def test_tacks_by_length(length: float, count: int) -> None:
    assert tacks_on(length) == count
