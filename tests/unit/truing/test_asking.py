"""Where each reading is taken, and what it would be as drawn: numbers by hand from the drawing of the small rack."""

from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.job.readings import parse_of
from fitwright.truing.asking import Asking
from fitwright.truing.errors import TruingError
from fitwright.truing.functional import Functional, worked_out
from tests.unit.truing.samples import rack


@pytest.fixture(scope="module")
def asking() -> Asking:
    assessment = rack()
    assert assessment.making is not None
    return Asking(assessment.making, assessment.set_ups, assessment.bend_sheets, assessment.job.style)


def of(asking: Asking, words: str) -> Functional:
    parsed = parse_of(words)
    assert parsed is not None, words
    return worked_out(asking.setting, [asking.of(parsed)])[0]


@pytest.mark.parametrize(
    ("words", "drawn"),
    [
        ("bend 2 of A1/2", math.pi / 2),
        ("rotation at bend 2 of hoop 1", 0.0),
        ("leg 1 of hoop 1", 1040.0),  # from the foot at 60 to the outside of the top at 1100
        ("leg 2 of hoop 1", 600.0),  # outside to outside
        ("spread at the ends of A1", 600.0),
        ("spread at the bends of hoop 2", 600.0),
        ("width at the top of hoop 1", 600.0),
        ("width of the piece", 600.0),
        ("depth at the bottom left of the piece", 400.0),
        ("height of the piece", 1100.0),
        ("height of hoop 1", 1040.0),
        ("gap above", 400.0),  # 1500 less 1100
        ("height of foot 2", 0.0),
        ("paint thickness", 0.0),
    ],
)
def test_what_is_read_as_drawn(asking: Asking, words: str, drawn: float) -> None:
    assert of(asking, words).drawn == pytest.approx(drawn, abs=1.0 if "height" in words else 1e-6)


def test_a_bend_is_its_own_error_and_a_leg_that_of_its_place_and_tip(asking: Asking) -> None:
    keys = [effect.key for effect in asking.setting.found]
    bend, leg = of(asking, "bend 1 of hoop 1").row, of(asking, "leg 1 of hoop 1").row
    assert {keys[i]: bend[i] for i in np.flatnonzero(bend)} == {"bend:0:1": 1.0}
    assert {keys[i]: leg[i] for i in np.flatnonzero(leg)} == {"place:0:1": 1.0, "tip:0:0": 1.0}


def test_the_spread_of_a_loose_part_in_full_geometry(asking: Asking) -> None:
    """20° more of bend 1: the far end turned about the middle of each of its chords, from the last to the first."""
    spread = of(asking, "spread at the ends of hoop 1")
    keys = [effect.key for effect in asking.setting.found]
    errors = np.zeros(len(keys))
    errors[keys.index("bend:0:1")] = math.radians(20)
    at = asking.setting.parts.model.nodes
    first, end = (at[asking.setting.parts.nodes_of[0][i]][[0, 2]] for i in (0, -1))
    chords = [(row // 6, amount) for _, row, amount in asking.setting.found[keys.index("bend:0:1")].entries]
    shares = {m: sum(abs(part) for n, part in chords if n == m) for m, _ in chords}
    for m in sorted(shares, reverse=True):
        middle = asking.setting.parts.model.ends[m].mean(axis=0)[[0, 2]]
        turn = -math.radians(20) * shares[m]
        c, s = math.cos(turn), math.sin(turn)
        end = middle + np.array([[c, -s], [s, c]]) @ (end - middle)
    tube = 2 * asking.setting.framed.piece.members[0].body.reach
    assert spread.value(errors) == pytest.approx(float(np.linalg.norm(end - first)) + tube, abs=1e-6)
    assert abs(spread.value(errors) - spread.drawn - float(spread.row @ errors)) > 1.0


def test_heights_of_feet_leave_the_floor_open(asking: Asking) -> None:
    assert set(of(asking, "height of foot 3").unknown) == {"level", "tilt along x", "tilt along y"}


def test_gap_under_a_foot_is_what_is_left_of_the_plane_of_the_others(asking: Asking) -> None:
    """On a rectangle the gap under one foot is h1 - h2 + h3 - h4: a foot 1 mm short hangs by 1 mm."""
    keys = [effect.key for effect in asking.setting.found]
    row = of(asking, "gap under foot 1").row
    feet = [row[keys.index(f"foot:{f}")] for f in range(4)]
    assert np.abs(feet) == pytest.approx([1.0] * 4, abs=1e-3)
    assert sum(feet) == pytest.approx(0.0, abs=1e-3)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ("bend 3 of A1", "bends 1 to 2 are there"),
        ("bend 1 of hoop 7", "did you mean hoop"),
        ("bend 1 of A1/3", "of A1 there are 2"),
        ("leg 1 of ledge 1", "has no legs; read its cut length"),
        ("height of foot 9", "1 to 4 are there"),
        ("opening for sofa", "nothing here is called 'sofa'"),
        ("clear width of boots", "no such opening"),
        ("diagonal 1 of table", "nothing here is called 'table'"),
        ("opening above shelf", "no shelf lies over"),
    ],
)
def test_what_this_piece_does_not_have(asking: Asking, words: str, says: str) -> None:
    with pytest.raises(TruingError, match=says):
        of(asking, words)
