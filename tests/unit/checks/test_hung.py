from __future__ import annotations

import numpy as np
import pytest

from fitwright.checks.hung import hung, wall_side
from fitwright.checks.standing import anchors
from fitwright.checks.tipping import stability_findings
from fitwright.findings import Verdict
from fitwright.job import parse_job
from fitwright.job.model import Job
from fitwright.piece import Piece, build
from fitwright.piece.model import Hardware
from fitwright.units import GRAVITY
from tests.unit.checks.samples import one, table

ANCHORS = """
  anchor:
    anchor: {diameter: 8, length: 60, rated: 20 N}
    at: [[20, 400, 690], [780, 400, 690]]
"""
RACK = """
job: {name: Hanging rack, unit: mm}
brief: {loads: {bar: 400 N}}
space: {walls: {SIDE}}
stock: {frame: square tube 20 x 20 x 2}
parts:
  strip: {stock: frame, path: [[0, 490, 1900], [800, 490, 1900]]}
  arm: {stock: frame, path: [[0, 490, 1900], [0, 0, 1900]], mirror: {x: 400}}
  drop: {stock: frame, path: [[0, 0, 1900], [0, 0, 1500]], mirror: {x: 400}}
  bar: {stock: frame, path: [[0, 0, 1500], [800, 0, 1500]]}
  anchor: {anchor: {size: M8 x 60, rated: 1500 N}, at: [[20, 500, 1900], [780, 500, 1900]]}
"""


def rack(side: str = "back: 500") -> tuple[Job, Piece]:
    """A strip on the wall, two arms out of it, and a bar hung 400 mm lower, half a metre in front of the wall."""
    job = parse_job(RACK.replace("SIDE", side))
    return job, build(job)


def test_a_hanging_piece_pulls_by_its_weight_and_lever() -> None:
    job, piece = table(ANCHORS, foot="300")
    worst = hung(job, piece)
    assert worst.lever == pytest.approx(690 - 300)
    assert worst.pull == pytest.approx(piece.mass * GRAVITY * (400 - piece.centre[1]) / (690 - 300) / 2)
    assert worst.shear == pytest.approx(piece.mass * GRAVITY / 2)
    found = one(stability_findings(job, piece), "hanging")
    assert found.verdict is Verdict.FAILS
    assert found.value == pytest.approx(worst.both)


@pytest.mark.parametrize("side", ["back: 500", ""])
def test_what_hangs_in_front_of_the_wall_is_no_lever(side: str) -> None:
    """The lowest edge, 400 mm down, is half a metre off the wall: all there is is half the strip's height, 10 mm."""
    job, piece = rack(side)
    worst = hung(job, piece)
    moment = 400 * 500 + piece.mass * GRAVITY * (500 - piece.centre[1])
    assert worst.pull == pytest.approx(moment / worst.lever / 2, rel=1e-6)
    assert worst.lever == pytest.approx(10, abs=0.5)  # less the rounding of the tube's corner
    found = one(stability_findings(job, piece), "hanging")
    assert found.verdict is Verdict.FAILS
    assert "let it bear on the wall" in found.advice


def test_bearing_lower_on_the_wall_cures_it() -> None:
    legs = "  leg: {stock: frame, path: [[0, 490, 1890], [0, 490, 1815]], ends: {finish: free}, mirror: {x: 400}}\n"
    job = parse_job(RACK.replace("SIDE", "back: 500").replace("  anchor:", legs + "  anchor:"))
    assert one(stability_findings(job, build(job)), "hanging").verdict is Verdict.HOLDS


def test_a_piece_at_a_wall_without_anchors_is_asked_what_holds_it() -> None:
    text = RACK.replace("SIDE", "back: 500")
    job = parse_job(text[: text.index("  anchor:")])
    (found,) = stability_findings(job, build(job))
    assert found.verdict is Verdict.NEEDS_INPUT
    assert "anchor" in found.advice
    job = parse_job(text[: text.index("  anchor:")].replace("back: 500", ""))
    assert stability_findings(job, build(job))[0].verdict is Verdict.FAILS


def test_the_wall_is_the_one_in_whose_plane_the_anchors_lie() -> None:
    assert wall_side(*_held(rack(""))) == "back"
    turned = RACK.replace("20, 500, 1900", "-10, 0, 1900").replace("780, 500, 1900", "-10, 480, 1900")
    job = parse_job(turned.replace("SIDE", ""))
    assert wall_side(*_held((job, build(job)))) == "left"


def _held(made: tuple[Job, Piece]) -> tuple[Job, tuple[Hardware, ...]]:
    return made[0], anchors(made[1])


def test_loads_on_both_sides_of_the_anchors_balance() -> None:
    """A row of hooks pulls by how far it stands out, not by how wide it is."""
    hooks = "\n  hook:\n    stock: frame\n    path: [[100, 380, 680], [100, 300, 680]]\n    ends: free\n"
    moments = []
    for more in ("    repeat: {x: [0, 600]}\n", "    repeat: {x: [300]}\n"):
        job, piece = table(ANCHORS + hooks + more, foot="300", loads="hook: 60 N")
        moments.append(hung(job, piece).moment - piece.mass * GRAVITY * float(400 - piece.centre[1]))
    assert moments[0] == pytest.approx(2 * moments[1], rel=1e-6)


def test_a_load_beside_the_anchors_adds_shear() -> None:
    hook = "\n  hook:\n    stock: frame\n    path: [[20, 20, 640], [20, -200, 640]]\n    ends: free\n"
    job, piece = table(ANCHORS + hook, foot="300", loads="hook: 60 N")
    worst, total = hung(job, piece), 60 + piece.mass * GRAVITY
    beside = (60 * (400 - 20) + piece.mass * GRAVITY * (400 - piece.centre[0])) / total
    assert worst.shear == pytest.approx(total / 2 + total * beside * 380 / (2 * 380**2), rel=1e-6)
    assert np.isfinite(worst.both)
