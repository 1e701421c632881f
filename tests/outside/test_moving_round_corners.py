"""Ladders, rectangles, a half disc and a cabinet moved round corners and stood up, against what is published of them.

The longest ladder round a right-angled corner of corridors a and b: (a^(2/3) + b^(2/3))^(3/2); of unit width 2 sqrt(2)
(E. W. Weisstein, "Moving Ladder Problem", MathWorld). A rectangle of width w fits at an angle t when no longer than
(a cos t + b sin t - w) / (sin t cos t) (C. Moretti, "Moving a Couch around a Corner", The College Mathematics Journal
33 (2002) 196-200; its printed couch of width 1 in corridors of 8 and 3 at 31 degrees is 12.8927 long). A half disc of
the corridors' width turns in place (Hammersley, as told under "Moving Sofa Problem", MathWorld). To stand up a cabinet
of depth d and height h takes a ceiling of sqrt(d^2 + h^2) (proved at math.stackexchange.com, question 339221; 6 ft by
2.5 ft takes 6.5 ft in a published calculator's example).
"""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from fitwright.job.obstacles import Corner, Corridor, Door
from fitwright.place.route.bulk import CORNERS
from fitwright.place.route.corners import corner_trial
from fitwright.place.route.lattice import Lattice
from fitwright.place.route.model import Bulk, Lump
from fitwright.place.route.proving import Proving
from fitwright.place.route.stances import height, rests, tallest_when_turned, tilted
from fitwright.place.route.straight import door_trial
from fitwright.place.route.turning import FINE_STEPS, Turn
from fitwright.place.route.world import blocks, corner_walls

FITS, FAILS = 0.99, 1.005  # of the formula's length: within 1 % below and 0.5 % above, asked of the planner
SQUARE = np.pi / 2
CORRIDORS = [(1000.0, 1000.0), (1000.0, 800.0), (1500.0, 600.0), (914.4, 1066.8)]


def rectangle(length: float, width: float) -> NDArray[np.float64]:
    return np.array([[-length, -width], [length, -width], [length, width], [-length, width]]) / 2


def block(width: float, depth: float, high: float) -> Bulk:
    """A closed cabinet."""
    return Bulk("a box", (Lump(CORNERS * np.array([width, depth, high]), 40.0, "box"),), 40.0,
                np.array([width, depth, high]) / 2)  # fmt: skip


def ladder(a: float, b: float) -> float:
    return float((a ** (2 / 3) + b ** (2 / 3)) ** 1.5)


def longest_rectangle(a: float, b: float, w: float) -> float:
    angle = np.radians(np.arange(0.01, 90, 0.01))
    return float(((a * np.cos(angle) + b * np.sin(angle) - w) / (np.sin(angle) * np.cos(angle))).min())


def test_the_ladder_of_unit_corridors_is_two_root_two() -> None:
    assert ladder(1.0, 1.0) == pytest.approx(2 * np.sqrt(2))


@pytest.mark.parametrize(("a", "b"), CORRIDORS)
@pytest.mark.parametrize("part", [FITS, FAILS])
def test_the_longest_ladder(a: float, b: float, part: float) -> None:
    found = Turn(rectangle(part * ladder(a, b), 0.0), a, b, SQUARE).best()
    assert (found.room > 0) == (part < 1)


@pytest.mark.parametrize(("a", "b"), CORRIDORS)
@pytest.mark.parametrize("width", [200.0, 450.0])
@pytest.mark.parametrize("part", [FITS, FAILS])
def test_the_longest_rectangle(a: float, b: float, width: float, part: float) -> None:
    found = Turn(rectangle(part * longest_rectangle(a, b, width), width), a, b, SQUARE).best()
    assert (found.room > 0) == (part < 1)


def test_the_room_of_a_rectangle_of_the_formulas_length_is_nought() -> None:
    for a, b in CORRIDORS:
        turn = Turn(rectangle(longest_rectangle(a, b, 300.0), 300.0), a, b, SQUARE, FINE_STEPS)
        assert turn.best().room == pytest.approx(0.0, abs=0.2)  # mm; the error of its steps is 0.9 at most


def test_the_published_couch_touches_at_its_published_angle() -> None:
    turn = Turn(100 * rectangle(12.8927, 1.0), 800.0, 300.0, SQUARE, FINE_STEPS)
    assert turn.room[310] == pytest.approx(0.0, abs=0.01)  # at 31.0 degrees, of 1289 mm
    assert turn.best().room < 0  # and is too long by a little at 33


def test_a_half_disc_turns_in_place() -> None:
    angles = np.linspace(0, np.pi, 721)
    disc = 1000 * np.column_stack([np.cos(angles), np.sin(angles)])
    assert Turn(disc, 1000.0, 1000.0, SQUARE).best().room == pytest.approx(0.0, abs=0.01)
    assert Turn(1.01 * disc, 1000.0, 1000.0, SQUARE).best().room < -2


@pytest.mark.parametrize("part", [FITS, FAILS])
def test_the_way_round_is_held_against_the_walls(part: float) -> None:
    """What fits has a way whose every step keeps clear of the walls, and what does not has none."""
    corner = Corner("corner", first=1000.0, second=900.0, turn=SQUARE, height=2400.0)
    box = block(part * longest_rectangle(1000.0, 900.0, 500.0), 500.0, 700.0)
    trial = corner_trial(corner, box, rests()[0])
    assert trial.fits == (part < 1)
    if trial.fits:
        proof = Proving(box, blocks(corner)).along(trial.lay())
        assert proof.free
        assert proof.least == pytest.approx(trial.side, abs=0.5)


def test_a_search_without_the_formula_agrees_with_it() -> None:
    """The lattice knows nothing of corners; its answer lies within what may lie between its points."""
    for length in (1000.0, 1250.0):
        outline = rectangle(length, 500.0)
        turn = Turn(outline, 1000.0, 900.0, SQUARE)
        window = np.array([[0.0, -900.0 - 2 * length], [1000.0 + 2 * length, 0.0]])
        lattice = Lattice((outline,), tuple(wall for _, wall in corner_walls(turn)), window, 50.0, 72)
        begins, ends = (
            lattice.extents(np.array([0.0, 1.0]))[1] <= -900,
            lattice.extents(np.array([1.0, 0.0]))[0] >= 1000,
        )
        found = lattice.best(begins, ends)
        assert found is not None
        exact = turn.best().room
        assert exact - found.slack <= found.room <= exact + 1.0


def test_a_cabinet_is_stood_up_under_a_ceiling_of_its_diagonal() -> None:
    feet = 304.8
    assert tallest_when_turned(block(4 * feet, 2.5 * feet, 6 * feet), "upright", "on its back") == pytest.approx(
        6.5 * feet
    )
    box = block(900.0, 600.0, 2200.0)
    assert tallest_when_turned(box, "upright", "on its back") == pytest.approx(np.hypot(600, 2200), rel=1e-4)
    assert tallest_when_turned(box, "upright", "on its side") == pytest.approx(np.hypot(900, 2200), rel=1e-4)


def test_a_cabinet_higher_than_a_door_goes_through_tilted_by_the_angle_of_statics() -> None:
    """Tilted by t it is H cos t + D sin t high; the first tilt looked at that is low enough gets it through."""
    door, box = Door("door", width=900.0, height=2000.0, jamb=120.0), block(800.0, 300.0, 2150.0)
    trials = [door_trial(door, box, stance) for stance in (*rests(), *tilted())]
    assert not trials[0].fits
    for trial in trials:
        if trial.stance.rest == "upright" and trial.stance.onto == "on its back":
            t = trial.stance.tilt
            high = 2150 * np.cos(t) + 300 * np.sin(t)
            assert height(box, trial.stance) == pytest.approx(high)
            assert (trial.above >= 0) == (high + 20 <= 2000)
    assert any(trial.fits and trial.stance.tilt for trial in trials)


@pytest.mark.parametrize("width", [702.0, 698.0])
def test_a_corridor_takes_the_least_width(width: float) -> None:
    from fitwright.place.route.straight import corridor_trial

    trial = corridor_trial(
        Corridor("hall", width=width, height=2400.0, length=5000.0), block(1200, 700, 900), rests()[0]
    )
    assert trial.side == pytest.approx((width - 700) / 2)
