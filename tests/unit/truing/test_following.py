"""What is not made yet follows what is: lengths by hand."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.truing.following import followed, settled
from tests.unit.truing.samples import rack, read


def test_a_wide_first_hoop_makes_everything_between_its_legs_longer_and_the_second_the_same() -> None:
    assessment = read("bend 1 of hoop 1: 90", "bend 2 of hoop 1: 90", "width at the top of hoop 1: 603")
    truing = assessment.truing
    assert truing is not None
    assert not truing.touches
    wide = truing.moves.members["hoop 1"]
    by = wide[2, 0] - wide[1, 0]
    assert by == pytest.approx(3.0, abs=0.4)
    assert truing.moves.members["hoop 2"] == pytest.approx(wide)
    old, new = rack().piece, assessment.trued.piece
    lengths = {m.name: m.cut_length for m in old.members}
    longer = {m.name: m.cut_length - lengths[m.name] for m in new.members}
    assert longer["rail"] == pytest.approx(by, abs=1e-6)
    assert longer["ledge 1"] == pytest.approx(0.0, abs=1e-6)
    assert new.panels[0].boards[0].length - old.panels[0].boards[0].length == pytest.approx(by, abs=1e-6)


def test_nothing_moves_where_readings_say_what_is_drawn() -> None:
    truing = read("bend 1 of hoop 1: 90", "bend 2 of hoop 1: 90", "width at the top of hoop 1: 600").truing
    assert truing is not None
    assert max((np.abs(shift).max() for shift in truing.moves.members.values()), default=0.0) < 0.2


def test_a_film_of_paint_makes_a_shelf_smaller_on_both_sides() -> None:
    assessment = read("paint thickness: 100 µm")
    old, new = rack().piece.panels[0].boards[0].length, assessment.trued.piece.panels[0].boards[0].length
    assert old - new == pytest.approx(0.2)


def test_what_moves_as_one_body_is_no_shift() -> None:
    points = np.array([[0.0, 0, 0], [100, 0, 0], [0, 100, 0], [0, 0, 100]])
    turned = np.cross(np.array([1e-3, -2e-3, 3e-3]), points) + np.array([1.0, 2.0, 3.0])
    assert settled(points, turned) == pytest.approx(np.zeros((4, 3)), abs=1e-9)


def test_a_straight_part_goes_with_both_ends_and_stays_level() -> None:
    vertices = np.array([[0.0, 0, 0], [0, 400, 0]])
    shifts = followed(vertices, [np.array([1.0, -2.0, 0]), np.array([2.0, 3.0, 0])])
    assert shifts == pytest.approx(np.array([[1.5, -2.0, 0], [1.5, 3.0, 0]]))
    assert followed(vertices, [None, np.array([0.0, 1.0, 0])]) == pytest.approx(np.array([[0, 1.0, 0], [0, 1.0, 0]]))
