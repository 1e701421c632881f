from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.assess import Assessment
from fitwright.sheets.drawing import Drawing
from fitwright.sheets.drawing.model import LinearDimension, RadiusDimension
from fitwright.sheets.packet.bentshape import ROOM, bent_picture, flat
from tests.unit.sheets.packet.jobs import bent


@pytest.fixture(scope="module")
def parts() -> dict[str, tuple[Assessment, Drawing]]:
    """Pictures by the name of the part."""
    assessment = bent()
    marks = {mark.mark: mark for mark in assessment.member_marks}
    return {
        f"{assessment.made[mark].part} {mark}": (assessment, bent_picture(assessment, marks[mark], sheet))
        for mark, sheet in assessment.bend_sheets.items()
    }


Pictures = dict[str, tuple[Assessment, Drawing]]


def _of(parts: Pictures, part: str) -> Drawing:
    return next(drawing for name, (_, drawing) in parts.items() if name.startswith(part))


def _said(drawing: Drawing) -> list[str]:
    view = drawing.views[0]
    return [note.text for note in view.notes] + [mark.text for mark in view.marks] + [d.text for d in view.dimensions]


def test_every_picture_says_where_to_start(parts: Pictures) -> None:
    assert all("start" in _said(drawing) for _, drawing in parts.values())


def test_every_picture_fits_its_room(parts: Pictures) -> None:
    for _, drawing in parts.values():
        assert drawing.paper.width <= ROOM[0] + 2
        assert drawing.paper.height <= ROOM[1] + 2


def test_a_ring_is_one_bend_of_a_full_turn(parts: Pictures) -> None:
    drawing = _of(parts, "ring")
    assert "bend 1: R 200.0, 360.0°" in _said(drawing)
    turned = sum(arc.end - arc.start for arc in drawing.views[0].arcs if abs(arc.radius - 206.0) < 1e-6)
    assert turned == pytest.approx(2 * math.pi)


def test_half_a_turn_is_one_bend_between_two_straights(parts: Pictures) -> None:
    drawing = _of(parts, "hairpin")
    radii = [d for d in drawing.views[0].dimensions if isinstance(d, RadiusDimension)]
    straights = [d.value for d in drawing.views[0].dimensions if isinstance(d, LinearDimension)]
    assert [d.text for d in radii] == ["bend 1: R 200.0, 180.0°"]
    assert straights == pytest.approx([600.0, 600.0])


def test_a_loop_shows_four_bends_and_its_butt(parts: Pictures) -> None:
    drawing = _of(parts, "loop")
    said = _said(drawing)
    assert [f"bend {k}" in said for k in (1, 2, 3, 4)] == [True] * 4
    straights = sorted(d.value for d in drawing.views[0].dimensions if isinstance(d, LinearDimension))
    assert straights == pytest.approx([200.0, 200.0, 200.0, 200.0, 400.0])


def test_out_of_plane_parts_are_seen_in_space_with_each_bend_on_its_corner(parts: Pictures) -> None:
    assessment, drawing = next(pair for name, pair in parts.items() if name.startswith("hand"))
    mark = next(mark for mark, member in assessment.made.items() if member.part == "hand")
    assert not flat(assessment.bend_sheets[mark])
    view = drawing.views[0]
    points = np.concatenate([stroke.points for stroke in view.strokes])
    for told in view.marks:
        nearest = np.hypot(*(points - np.array(told.anchor)).T).min()
        assert nearest < 40.0, told.text  # on the tube of 32 mm
