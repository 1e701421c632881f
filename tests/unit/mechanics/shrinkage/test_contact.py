from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.job import parse_job
from fitwright.mechanics.framing import Framed
from fitwright.mechanics.shrinkage import Bead, WeldKind, seam_of, seams, wall
from fitwright.piece import build
from fitwright.stock import Angle, Flat, RoundBar, RoundTube

Frame = tuple[Framed, tuple[Bead, ...]]


def test_a_tee_is_welded_all_round_its_cope(tee: Frame) -> None:
    seam = tee[1][0].seam
    assert seam.kind is WeldKind.FILLET
    assert seam.total == pytest.approx(seam.around)
    assert seam.total > math.pi * 30.0
    assert np.linalg.norm(seam.pull - [0, 0, 1]) < 1e-9
    assert np.abs(seam.middle[:2]).max() < 1e-6


def test_the_seam_lies_on_both_members(tee: Frame) -> None:
    seam, piece = tee[1][0].seam, tee[0].piece
    assert np.abs(piece.members[seam.second].body.distance(seam.points)).max() < 0.02
    assert np.abs(np.hypot(seam.points[:, 0], seam.points[:, 1]) - 15.0).max() < 0.01


def test_its_two_sides_are_halves(tee: Frame) -> None:
    seam = tee[1][0].seam
    for split in (0, 1):
        one, other = seam.sides(split)
        assert seam.length[one].sum() == pytest.approx(seam.length[other].sum(), rel=1e-6)
        assert (one ^ other).all()
    assert abs(seam.acrosses[0] @ seam.acrosses[1]) < 1e-12


def test_mitres_are_butts_across_the_mitre(box: Frame) -> None:
    assert [bead.seam.kind for bead in box[1]] == [WeldKind.BUTT] * 4
    for bead in box[1]:
        assert sorted(np.abs(bead.seam.pull).round(6)) == pytest.approx([0, 0.5**0.5, 0.5**0.5], abs=1e-5)
        assert bead.seam.total == pytest.approx(bead.seam.around)


def test_what_is_bolted_or_of_timber_is_not_welded(tee: Frame) -> None:
    piece = tee[0].piece
    assert seam_of(piece, 0) is not None
    assert len(seams(piece)) == len(piece.joints)


@pytest.mark.parametrize(
    ("section", "thickness"),
    [(RoundTube(30, 2), 2.0), (RoundBar(10), 5.0), (Flat(40, 5), 5.0), (Angle(30, 30, 3, 3, 1.5), 3.0)],
)
def test_the_wall_that_a_weld_sees(section: RoundTube | RoundBar | Flat | Angle, thickness: float) -> None:
    assert wall(section) == thickness


def test_a_ledge_along_a_rail_is_welded_in_stitches() -> None:
    """Two lines of 40 mm at every stitch, not all along: that would pull the rail out of true."""
    job = parse_job("""
job: {name: Bed, unit: mm}
stock: {rail: rectangular tube 60 x 30 x 2, ledge: angle 30 x 30 x 3}
parts:
  rail: {stock: rail, path: [[15, 0, 320], [15, 2000, 320]], wide: up, ends: free}
  ledge: {stock: ledge, path: [[30, 60, 310], [30, 1940, 310]], legs: [right, down], ends: free}
""")
    found = seams(build(job))
    assert len(found) > 2
    assert {round(seam.total, 1) for seam in found[1:-1]} == {80.0}
