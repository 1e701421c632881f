from __future__ import annotations

import math

import pytest

from fitwright.making.finishing import PartArea, areas_of
from fitwright.making.finishing.areas import outside
from tests.unit.sheets.packet.jobs import of_text, stand


def _areas(text: str) -> dict[str, PartArea]:
    return {area.part: area for area in areas_of(of_text(text).piece)}


def test_straight_tube_with_open_ends() -> None:
    text = """
job: {name: Rail, unit: mm}
stock: {tube: round tube 32 x 2}
parts: {rail: {stock: tube, path: [[0, 0, 0], [1000, 0, 0]], ends: free}}
"""
    rings = 2 * math.pi / 4 * (32**2 - 28**2)
    assert _areas(text)["rail"].outside == pytest.approx(math.pi * 32 * 1000 + rings, rel=1e-9)


def test_a_bend_is_its_centreline_long() -> None:
    """Pappus: the outside of a round tube is its girth times the centreline."""
    text = """
job: {name: Ring, unit: mm}
stock: {bar: round bar 12}
parts: {ring: {stock: bar, ring: {centre: [0, 0, 500], radius: 200}}}
"""
    assert _areas(text)["ring"].outside == pytest.approx(math.pi * 12 * 2 * math.pi * 200, rel=1e-4)


def test_a_mitre_takes_off_as_much_as_it_leaves() -> None:
    """Cut at 45 degrees through the middle of a square tube: the mean length of its four sides is the centreline."""
    text = """
job: {name: Frame, unit: mm}
stock: {tube: square tube 40 x 40 x 2}
parts: {frame: {stock: tube, path: [[0, 0, 0], [500, 0, 0], [500, 400, 0], [0, 400, 0]], closed: true, corners: mitred}}
"""
    assessment = of_text(text)
    girth = 4 * 40 - (8 - 2 * math.pi) * assessment.piece.members[0].stock.section.corner  # type: ignore[attr-defined]
    assert sum(outside(assessment.piece, m) for m in assessment.piece.members) == pytest.approx(girth * 1800, rel=2e-3)


def test_a_tube_set_square_on_another_of_its_size_covers_a_saddle_of_four_radii_squared() -> None:
    """Two equal cylinders at right angles: the saddle on one of them is 4 R^2 (calculus)."""
    text = """
job: {name: Tee, unit: mm}
stock: {tube: round tube 60 x 2}
parts:
  run: {stock: tube, path: [[0, 0, 0], [400, 0, 0]], ends: free}
  branch: {stock: tube, path: [[200, 0, 0], [200, 0, 300]], ends: [auto, free]}
"""
    areas = _areas(text)
    assert areas["run"].joints == pytest.approx(4 * 30**2, rel=0.06)
    # coped, each line of the branch stops R |cos| above the axis that it meets, 2 R / pi on average
    mean = 300 - 30 * 2 / math.pi
    ring = math.pi / 4 * (60**2 - 56**2)
    assert areas["branch"].outside == pytest.approx(2 * math.pi * 30 * mean + ring, rel=5e-3)


def test_panels_that_stay_cover_and_loose_ones_do_not() -> None:
    text = """
job: {name: Stool, unit: mm}
stock: {tube: square tube 40 x 40 x 2, top: board 20 x 400 oak}
parts:
  rail: {stock: tube, path: [[0, 20, 0], [500, 20, 0]], ends: free, repeat: {y: [0, 300]}}
  top: {solid: top, from: [0, 0, 20], to: [500, 340, 20], along: x, fastened: %s}
"""
    fixed, loose = _areas(text % "screwed")["rail"], _areas(text % "rests")["rail"]
    assert fixed.panels > 2 * 500 * 25
    assert fixed.panels < 2 * 500 * 40
    assert (loose.panels, loose.rests) == (0.0, fixed.panels)
    assert fixed.shown == fixed.bare - fixed.panels


def test_boards_are_coated_all_round_but_where_they_touch() -> None:
    shelf = next(area for area in areas_of(stand().piece) if area.part == "shelf")
    slat = 2 * (520 * 95 + 95 * 20 + 20 * 520)
    batten = 2 * (330 * 45 + 45 * 20 + 20 * 330)
    assert shelf.outside == pytest.approx(3 * slat + 2 * batten)
    assert shelf.joints == pytest.approx(2 * 6 * 95 * 45)
    assert not shelf.metal
