from __future__ import annotations

import re

import numpy as np
import pytest

from fitwright.checks.board_bending import bend
from fitwright.checks.shelves import shelf_findings
from fitwright.checks.timber_strength import allowable_bending
from fitwright.findings import Verdict
from fitwright.job import parse_job
from fitwright.piece import build
from fitwright.stock import find_material
from fitwright.stock.materials import WOODS
from fitwright.units import GRAVITY
from tests.unit.checks.samples import changed, demo, one, table

TOP = """
  top:
    {kind}
    from: [{low}, 0, 700]
    to: [{high}, 400, 700]
    along: x
"""


def test_slats_span_between_the_ledges() -> None:
    """By hand: 4 slats of 88.9 x 19.05 mm share 30 lb and their own weight; ledges bear 15.9 mm at each end."""
    job, piece = demo("drying-rack")
    found = one(shelf_findings(job, piece), "sag")
    shelf = piece.panels[0]
    span = (769.9375 - 30.1625) - 15.875
    load = (job.brief.loads.on["shelf"] + shelf.mass * GRAVITY) / 4 / 739.775
    inertia = 88.9 * 19.05**3 / 12
    between = 5 * load * span**4 / (384 * 8500 * inertia)
    assert found.value == pytest.approx(1.5 * between, rel=0.01)
    assert found.limit == pytest.approx(span / 240, rel=1e-3)


def test_wet_timber_creeps_twice() -> None:
    dry = one(shelf_findings(*demo("drying-rack")), "sag").value
    wet = one(shelf_findings(*changed("drying-rack", ("budget: 1400", "budget: 1400\n  cautions: wet"))), "sag").value
    assert dry is not None
    assert wet == pytest.approx(dry * 2.0 / 1.5)


def test_the_advised_thickness_cures_the_sag() -> None:
    heavy = changed("drying-rack", ("shelf: 30 lb", "shelf: 200 lb"))
    found = one(shelf_findings(*heavy), "sag")
    assert found.verdict is Verdict.FAILS
    said = re.search(r'boards (?:(\d+) )?(\d+)/(\d+)" thick', found.advice)
    assert said is not None
    thick = f"{said[1] or 0} {said[2]}/{said[3]}" if said[1] else f"{said[2]}/{said[3]}"
    cured = changed(
        "drying-rack",
        ("shelf: 30 lb", "shelf: 200 lb"),
        ("slat: lumber 1x4 white pine", f"slat: board {thick} x 3 1/2 white pine"),
    )
    assert one(shelf_findings(*cured), "sag").verdict is Verdict.HOLDS


def test_allowable_stress_by_hand() -> None:
    allowed = allowable_bending(find_material("sugar maple", WOODS))
    assert allowed is not None
    assert allowed.stress == pytest.approx(109 * (1 - 1.645 * 0.16) / 2.1 * 0.65)


def test_a_load_that_is_not_said_is_asked_for() -> None:
    found = shelf_findings(*table(TOP.format(kind="slats: board", low=0, high=800)))
    assert one(found, "load").advice == "give brief: loads: top"


def test_boards_on_one_rail_fail() -> None:
    found = shelf_findings(*table(TOP.format(kind="slats: board", low=0, high=500), loads="top: 20 kg"))
    assert one(found, "rests").verdict is Verdict.FAILS


def test_an_end_that_hangs_far_over_is_told() -> None:
    found = shelf_findings(*table(TOP.format(kind="slats: board", low=-400, high=800), loads="top: 20 kg"))
    finding = one(found, "overhang")
    assert finding.verdict is Verdict.FAILS
    assert finding.value == pytest.approx(420)
    assert finding.limit == pytest.approx(760 / 3)


def test_a_sheet_bends_as_one_board() -> None:
    job, piece = table(TOP.format(kind="sheet: sheet", low=0, high=800), loads="top: 20 kg")
    found = one(shelf_findings(job, piece), "sag")
    load = (20 * GRAVITY + piece.panels[0].mass * GRAVITY) / 800
    stiffness = 9000 * 400 * 12**3 / 12
    shape = bend(800, np.array([20.0, 780.0]), load, stiffness)
    assert found.value == pytest.approx(1.5 * shape.sag, rel=1e-6)


def test_a_rest_that_would_pull_is_let_go() -> None:
    shape = bend(1000.0, np.array([0.0, 100.0, 1000.0]), 1.0, 1e9)
    plain = bend(1000.0, np.array([100.0, 1000.0]), 1.0, 1e9)
    assert len(shape.reactions) == 2
    assert shape.sag == pytest.approx(plain.sag)


IN_ANGLES = """
job: {name: Tray, unit: mm}
brief: {loads: {tray: 200 N}}
stock: {ledge: angle 30 x 30 x 3, sheet: plywood 12 mm birch}
parts:
  ledge: {stock: ledge, path: [[0, 20, 700], [400, 20, 700]], legs: [back, up], ends: free, mirror: {y: 100}}
  tray: {sheet: sheet, from: [10, 23, 703], to: [390, 177, 703]}
"""

THREE_LEGS = """
job: {name: Stand, unit: mm}
brief: {loads: {top: 200 N}}
stock: {leg: round bar 12, sheet: plywood 18 mm birch}
parts:
  left: {stock: leg, path: [[20, 55, 0], [20, 55, 700]]}
  right: {stock: leg, path: [[280, 55, 0], [280, 55, 700]]}
  back: {stock: leg, path: [[150, 280, 0], [150, 280, 700]]}
  top: {sheet: sheet, from: [0, 0, 700], to: [300, 300, 700]}
"""


def test_a_sheet_lies_in_two_angles_whose_other_legs_stand_beside_it() -> None:
    """By hand: middles of the bearings 23 to 50 and 150 to 177 mm, so a span of 127 mm."""
    job = parse_job(IN_ANGLES)
    found = one(shelf_findings(job, build(job)), "bending stress")
    assert found.verdict is Verdict.HOLDS
    assert "over 127 mm" in found.formula


def test_a_sheet_on_three_legs_is_bent_both_ways() -> None:
    """By hand: 200 N and its own weight on points 260 mm apart one way, 225 mm the other, of a sheet 300 mm square."""
    job = parse_job(THREE_LEGS)
    piece = build(job)
    found = shelf_findings(job, piece)
    total = 200 + piece.panels[0].mass * GRAVITY
    load, inertia = total / 300, 300 * 18**3 / 12
    e = piece.panels[0].stock.material.e
    ways = [bend(300, np.array(rests), load, e * inertia) for rests in ([55.0, 280.0], [20.0, 280.0])]
    stress = one(found, "bending stress")
    assert stress.value == pytest.approx(1.25 * max(way.moment for way in ways) * 6 / (300 * 18**2), rel=0.02)
    creep = 1.5
    assert one(found, "sag").value == pytest.approx(creep * sum(way.sag for way in ways), rel=0.05)


def test_a_sheet_whose_middle_no_leg_carries_fails() -> None:
    job = parse_job(THREE_LEGS.replace("[150, 280, 0], [150, 280, 700]", "[150, 30, 0], [150, 30, 700]"))
    assert one(shelf_findings(job, build(job)), "rests").verdict is Verdict.FAILS
