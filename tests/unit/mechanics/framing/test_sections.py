from __future__ import annotations

import numpy as np
import pytest

from fitwright.mechanics import beams, bend_softening
from fitwright.mechanics.framing import with_stock
from fitwright.mechanics.framing.sections import element_data, outline_points, shear_centre, softening
from fitwright.stock import parse_stock
from tests.unit.mechanics.framing.pieces import TABLE, frame


def test_a_mirrored_section_has_its_product_of_inertia_turned_over() -> None:
    angle = parse_stock("angle 40 x 40 x 4")
    plain, mirrored = element_data(angle, 1.0), element_data(angle, -1.0)
    assert plain.i_yz == -mirrored.i_yz != 0
    assert plain.shear_centre[1] == -mirrored.shear_centre[1]
    assert outline_points(angle.section, -1.0)[:, 1] == pytest.approx(-outline_points(angle.section, 1.0)[:, 1])


def test_shear_centre_of_an_angle_is_where_its_legs_meet() -> None:
    section = parse_stock("angle 40 x 40 x 4").section
    assert np.array(shear_centre(section)) + section.centroid == pytest.approx([2, 2])
    assert shear_centre(parse_stock("round tube 32 x 2").section) == (0, 0)


def test_only_bends_of_round_tube_are_softened() -> None:
    tube, square = parse_stock("round tube 32 x 2"), parse_stock("square tube 40 x 40 x 2")
    assert softening(tube, 80.0) == bend_softening(2, 80, 32) > 1
    assert softening(tube, None) == 1
    assert softening(square, 80.0) == 1


def test_another_wall_changes_only_the_members_of_that_stock() -> None:
    plain = frame(TABLE)
    heavy = with_stock(plain, "frame", parse_stock("square tube 40 x 40 x 4", key="frame"))
    assert heavy.model.area == pytest.approx(parse_stock("square tube 40 x 40 x 4").section.area)
    assert (heavy.model.mass_per_mm > 1.8 * plain.model.mass_per_mm).all()
    assert with_stock(plain, "tube", parse_stock("round tube 40 x 4")).model.area == pytest.approx(plain.model.area)
    assert beams(heavy.model).stiffness[0, 0, 0] > beams(plain.model).stiffness[0, 0, 0]
