from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from fitwright.mechanics import at_points, beams, factorise, forces, frame_model, refine, solve, supports
from fitwright.mechanics.fixed_ends import fixed_end_forces, uniform_fixed_ends

SECTION: dict[str, Any] = {
    "e": 2e5,
    "g": 8e4,
    "area": 200.0,
    "i_y": 2e4,
    "i_z": 3e4,
    "i_yz": 9e3,
    "j": 6e4,
    "y_axis": (0, 1, 0),
}


def test_uniform_by_hand() -> None:
    ends = uniform_fixed_ends(np.array([120.0]), np.array([[[1.0], [2.0], [-3.0]]]))[0, :, 0]
    assert ends.tolist() == [-60, -120, 180, 0, -3600, -2400, -60, -120, 180, 0, 3600, 2400]


@pytest.mark.parametrize("share", [0.25, 0.75])
def test_force_between_the_ends_is_a_force_on_a_node(share: float) -> None:
    """Four parts with the force on a node between give the ends what one element gives, shear and shear centre too."""
    model = frame_model(
        [[0, 0, 0], [400, 0, 0]], [[0, 1]], **SECTION, shear_y=50.0, shear_z=80.0, shear_centre=(4.0, -6.0)
    )
    force = np.array([30.0, -50, 70, 2e3, -3e3, 4e3])
    one = fixed_end_forces(model, beams(model), at_points(model, [0], [share * 400], [force]))
    fine = refine(model, 4)
    nodal = np.zeros(fine.dof_count)
    at = fine.element_dofs[round(4 * share) - 1, 6:]
    nodal[at] = force
    other = solve(factorise(fine, supports(fine, {0: "fixed", 1: "fixed"})), forces(fine, nodal))
    assert one is not None
    assert one[0, :6, 0] == pytest.approx(other.reactions[:6, 0], rel=1e-8, abs=1e-6)
    assert one[0, 6:, 0] == pytest.approx(other.reactions[6:12, 0], rel=1e-8, abs=1e-6)


@pytest.mark.parametrize(("place", "end"), [(0.0, 0), (400.0, 1)])
def test_force_at_an_end_goes_into_that_end(place: float, end: int) -> None:
    model = frame_model([[0, 0, 0], [400, 0, 0]], [[0, 1]], **SECTION)
    force = np.array([30.0, -50, 70, 2e3, -3e3, 4e3])
    ends = fixed_end_forces(model, beams(model), at_points(model, [0], [place], [force]))
    assert ends is not None
    assert ends[0, 6 * end : 6 * end + 6, 0] == pytest.approx(-force)
    assert ends[0, 6 - 6 * end : 12 - 6 * end, 0] == pytest.approx(np.zeros(6), abs=1e-9)
