"""Dimension lines of one part are as long as they say, and stand off it."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.web.errors import NotThere
from fitwright.web.packed import part_sizes
from tests.demos import assessed


def test_the_legs_of_a_bent_tube_are_told_from_outside_to_outside() -> None:
    """The rack's hoop is drawn on its outside faces: 31 1/2 in wide, from the casters' top at 4 1/8 to 74 in."""
    lines = part_sizes(assessed("drying-rack"), "hoop 1")
    assert [line.label for line in lines] == ['69 7/8"', '31 1/2"', '69 7/8"']
    main = [line.lines[0] for line in lines]
    lengths = [float(np.linalg.norm(other - one)) / 25.4 for one, other in main]
    assert lengths == pytest.approx([69.875, 31.5, 69.875], abs=0.02)


def test_a_straight_member_is_told_as_it_is_cut() -> None:
    assessment = assessed("workbench")
    member = next(one for one in assessment.piece.members if not one.path.bent)
    (line,) = part_sizes(assessment, member.name)
    assert line.label == f"{assessment.job.style.length(member.cut_length)} cut"


def test_a_board_is_told_by_its_two_larger_sides() -> None:
    assessment = assessed("drying-rack")
    panel = assessment.piece.panels[0]
    lines = part_sizes(assessment, f"{panel.name} {panel.boards[0].role} 1")
    size = np.sort(panel.boards[0].high - panel.boards[0].low)[::-1]
    assert [line.label for line in lines] == [assessment.job.style.length(float(x)) for x in size[:2]]


def test_lines_stand_off_the_part() -> None:
    assessment = assessed("drying-rack")
    for name in ("hoop 1", "ledge 1", "rail"):
        member = next(one for one in assessment.piece.members if one.name.startswith(name))
        for line in part_sizes(assessment, member.name):
            assert member.body.distance(line.at[None])[0] > 10.0


def test_no_such_part_is_told() -> None:
    with pytest.raises(NotThere):
        part_sizes(assessed("drying-rack"), "nothing")
