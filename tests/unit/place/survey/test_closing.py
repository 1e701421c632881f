"""Surveys that do not close: the wrong number is made by hand, and has to be found."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.job.model import Measured, Opening, PlanSurvey, Space
from fitwright.place.survey import closures

ACROSS = float(np.hypot(1000.0, 800.0))
SQUARE = {
    "front": 1000.0,
    "back": 1000.0,
    "left": 800.0,
    "right": 800.0,
    "front left to back right": ACROSS,
    "front right to back left": ACROSS,
}


def plan(**wrong: float) -> Space:
    return Space(opening=Opening(plan=PlanSurvey({**SQUARE, **{k.replace("_", " "): v for k, v in wrong.items()}})))


def test_a_square_closes() -> None:
    (found,) = closures(plan())
    assert found.miss == pytest.approx(0.0, abs=1e-6)
    assert found.chance == pytest.approx(1.0)
    assert not found.suspects


@pytest.mark.parametrize("name", SQUARE)
@pytest.mark.parametrize("off", [-100.0, 50.0])
def test_the_wrong_length_is_the_likeliest(name: str, off: float) -> None:
    (found,) = closures(plan(**{name.replace(" ", "_"): SQUARE[name] + off}))
    assert found.chance < 1e-6
    assert found.suspects[0].name == name
    assert found.suspects[0].others == pytest.approx(SQUARE[name], abs=0.5)
    assert found.miss == pytest.approx(abs(off), abs=0.5)


def test_a_little_off_cannot_be_told_apart() -> None:
    """10 mm could as well be a wall out of square: more than one length is named, the right one first."""
    (found,) = closures(plan(front=1010.0))
    assert found.suspects[0].name == "front"
    assert len(found.suspects) > 1


def test_one_diagonal_checks_nothing() -> None:
    lengths = {name: length for name, length in SQUARE.items() if not name.startswith("front right")}
    (found,) = closures(Space(opening=Opening(plan=PlanSurvey(lengths))))
    assert "diagonals" in found.missing


def leaning(top: float) -> Space:
    sizes = (Measured("width", 0.0, 900.0), Measured("width", 2000.0, top))
    return Space(opening=Opening(measures=sizes, tops=((0.0, 2000.0),), lean={"left": 6.0, "right": 4.0}))


def test_widths_say_what_the_walls_lean_by() -> None:
    (found,) = closures(leaning(890.0))
    assert found.miss == pytest.approx(0.0)
    (found,) = closures(leaning(875.0))
    # 25 mm narrower at the top, and the plumb line says 10
    assert found.miss == pytest.approx(15.0)
    assert found.chance < 0.001


def test_a_lean_not_measured_checks_nothing() -> None:
    opening = Opening(measures=(Measured("width", 0.0, 900.0), Measured("width", 2000.0, 890.0)), lean={"left": 5.0})
    assert closures(Space(opening=opening)) == ()
    assert closures(Space()) == ()
