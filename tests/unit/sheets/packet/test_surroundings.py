from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fitwright.job.model import Opening
from fitwright.sheets.drawing.model import LinearDimension, View
from fitwright.sheets.drawing.scales import scales
from fitwright.sheets.packet.surroundings import Surroundings, front_picture, plan_picture
from tests.demos import assessed
from tests.unit.sheets.packet.jobs import stand


@pytest.fixture(scope="module")
def around() -> Surroundings:
    """The boot stand in its opening."""
    assessment = stand()
    opening, fit = assessment.job.space.opening, assessment.fit
    assert opening is not None
    assert fit is not None
    return Surroundings(assessment.job, opening, fit, assessment.piece.envelope)


EMPTY = View("front", scales("metric")[0])


def test_walls_stand_where_they_were_measured(around: Surroundings) -> None:
    # widths 702 at the floor, 700 at 1050, 704 at 2100; the right wall leans in by 3, so the left one makes the rest
    assert [around.right(z) for z in (0.0, 1050.0, 2100.0)] == pytest.approx([702.0, 700.5, 699.0])
    assert [around.left(z) for z in (0.0, 1050.0, 2100.0)] == pytest.approx([0.0, 0.5, -5.0])
    assert around.heights == [0.0, 1050.0, 2100.0]


def test_a_leaning_wall_leans_over_its_full_height(around: Surroundings) -> None:
    leaning = replace(around, opening=replace(around.opening, lean={"left": 20.0, "back": 10.0}))
    assert leaning.left(2100.0) == pytest.approx(20.0)
    assert leaning.left(1050.0) == pytest.approx(10.0)
    assert leaning.back(1050.0) == pytest.approx(420.0 - 5.0)


def test_the_front_shows_the_smallest_gaps_as_computed(around: Surroundings) -> None:
    drawing = front_picture(around, EMPTY)
    shown = sorted(d.value for d in drawing.views[0].dimensions if isinstance(d, LinearDimension))
    expected = sorted(gap.value for gap in around.fit.gaps if gap.side in ("left", "right", "top"))
    assert len(shown) == 3
    assert shown == pytest.approx(expected, abs=1e-6)


def test_the_plan_shows_the_gap_behind_and_the_depth(around: Surroundings) -> None:
    drawing = plan_picture(around, EMPTY)
    shown = sorted(d.value for d in drawing.views[0].dimensions if isinstance(d, LinearDimension))
    assert shown == pytest.approx([5.0, 420.0])


def test_neighbours_stand_outside_the_opening(around: Surroundings) -> None:
    drawing = front_picture(around, EMPTY)
    dashed = [stroke.points for stroke in drawing.views[0].strokes if stroke.kind.value == "hidden"]
    assert len(dashed) == 1
    assert dashed[0][:, 0].min() == pytest.approx(702.0)
    assert np.ptp(dashed[0][:, 1]) == pytest.approx(1200.0)


def test_only_a_depth_gives_only_a_plan(around: Surroundings) -> None:
    narrow = replace(around, opening=Opening(depths=((0.0, 420.0),)))
    assert plan_picture(narrow, EMPTY).paper.width > 0


def test_things_doors_and_feet_are_drawn(around: Surroundings) -> None:
    """In the coat rail's place: a socket and a door that swings, and what is turned out of the four feet."""
    assessment = assessed("coat-rail")
    opening, fit = assessment.job.space.opening, assessment.fit
    assert opening is not None
    assert fit is not None
    assert fit.stance is not None
    there = Surroundings(assessment.job, opening, fit, assessment.piece.envelope)
    assert there.numbered == {"socket": 1, "cloakroom door": 2}
    view = plan_picture(there, EMPTY).views[0]
    assert {mark.text for mark in view.marks} == {"1", "2"}
    shims = sorted(assessment.job.style.bare(shim) for shim in fit.stance.shims.tolist())
    assert sorted(note.text for note in view.notes) == shims
    assert there.room[1] < around.room[1]  # its tables are longer
