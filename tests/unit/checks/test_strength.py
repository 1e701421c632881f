from __future__ import annotations

import numpy as np
import pytest

from fitwright.checks.strength import (
    WELDED_ALUMINIUM,
    allowed_stress,
    bending_stress,
    equivalent_stress,
    governing_case,
    strength_findings,
    stresses,
    torsion_stress,
)
from fitwright.findings import Verdict
from fitwright.stock import Angle, parse_stock
from tests.unit.checks.frames import findings, one, rack, results

TUBE = parse_stock("round tube 32 x 2").section
SQUARE = parse_stock("square tube 40 x 40 x 2").section


def forces(**parts: float) -> np.ndarray[tuple[int, int, int, int], np.dtype[np.float64]]:
    names = ("n", "vy", "vz", "t", "my", "mz")
    return np.array([parts.get(name, 0.0) for name in names]).reshape(1, 1, 6, 1)


def test_pull_and_bending_add_at_the_outline() -> None:
    stress = equivalent_stress(forces(n=-1000.0, my=3e4, mz=4e4), TUBE)
    assert stress.item() == pytest.approx(1000 / TUBE.area + 5e4 / TUBE.s_u)
    more = equivalent_stress(forces(n=-1000.0, my=3e4, mz=4e4), TUBE, magnified=1.2)
    assert more.item() == pytest.approx(1000 / TUBE.area + 6e4 / TUBE.s_u)


def test_twist_is_shear() -> None:
    assert torsion_stress(TUBE) == pytest.approx(16 / TUBE.j)
    assert equivalent_stress(forces(t=1e4), TUBE).item() == pytest.approx(np.sqrt(3) * 1e4 * 16 / TUBE.j)


def test_shear_alone_counts_at_the_middle() -> None:
    """Twice the mean in a thin round tube: Gere, Mechanics of Materials, 7th ed., section 5.9."""
    assert equivalent_stress(forces(vy=500.0), TUBE).item() == pytest.approx(np.sqrt(3) * 2 * 500 / TUBE.area)


def test_torsion_of_a_square_tube_by_bredt() -> None:
    """Mean line 38 x 38 with corners of radius 3: tau = T / (2 A t)."""
    inside = 38**2 - (4 - np.pi) * 3**2
    assert torsion_stress(SQUARE) == pytest.approx(1 / (2 * inside * 2))


def test_torsion_of_a_flat_is_near_three_over_b_t_squared() -> None:
    assert torsion_stress(parse_stock("flat 100 x 2").section) == pytest.approx(3 / (100 * 2**2), rel=0.02)


def test_an_angle_bends_about_its_principal_axes() -> None:
    """Against the fibres: strain in proportion to distance, no force, the two moments."""
    section = Angle(40.0, 40.0, 4.0)
    fibres = section.fibres()
    y, z = (fibres[:, :2] - section.centroid).T
    rows = np.array(
        [[fibres[:, 2] @ (z * z), fibres[:, 2] @ (y * z)], [fibres[:, 2] @ (y * z), fibres[:, 2] @ (y * y)]]
    )
    my, mz = 2e5, -1e5
    per_z, per_y = np.linalg.solve(rows, [my, -mz])
    corners = section.outline() - section.centroid
    expected = np.abs(corners[:, 1] * per_z + corners[:, 0] * per_y).max()
    assert bending_stress(np.array(my), np.array(mz), section) == pytest.approx(expected, rel=1e-6)


def test_a_mirrored_angle_under_mirrored_moments_is_as_stressed() -> None:
    section = Angle(50.0, 30.0, 4.0)
    plain = bending_stress(np.array(2e5), np.array(1e5), section, 1.0)
    assert bending_stress(np.array(-2e5), np.array(1e5), section, -1.0) == pytest.approx(plain)


def test_limits_by_material() -> None:
    steel, oak = parse_stock("round tube 32 x 2").material, parse_stock("board 20 x 95 oak").material
    limit = allowed_stress(steel, 1.67)
    assert limit is not None
    assert limit[0] == pytest.approx(235 / 1.67)
    timber = allowed_stress(oak, 1.67)
    assert timber is not None
    assert oak.mor is not None
    assert timber[0] == pytest.approx(oak.mor * (1 - 1.645 * 0.16) / 2.1)
    light = parse_stock("square tube 40 x 40 x 2 aluminium 6061").material
    welded = allowed_stress(light, 1.67)
    assert welded is not None
    assert welded[0] == pytest.approx(WELDED_ALUMINIUM * 240 / 1.67)


def test_each_part_has_one_finding_with_its_place_and_case() -> None:
    made = rack()
    found = strength_findings(made[0], results(made))
    assert [f.subject.split(" (")[0] for f in found] == ["leg", "top", "side", "ledge"]
    leg = one(found, "stress", "leg")
    assert leg.verdict is Verdict.HOLDS
    assert "mm above the floor" in leg.formula
    assert "235 MPa / 1.67" in leg.formula
    assert leg.margin == pytest.approx((leg.limit or 0) - (leg.value or 0))


def test_a_heavier_load_is_a_higher_stress() -> None:
    light, heavy = (one(findings(rack(f"shelf: {kg} kg")), "stress", "ledge") for kg in (20, 200))
    assert (heavy.value or 0) > 5 * (light.value or 0)


def test_a_jolt_counts_three_quarters() -> None:
    made = rack()
    found, plain = stresses(results(made)), results(made)
    assert found.values.shape == plain.forces[:, :, 0].shape
    assert set(plain.cases.counts.tolist()) == {1.0}


def test_the_governing_case_is_that_of_the_worst_finding() -> None:
    made = rack()
    found = results(made)
    worst = max(strength_findings(made[0], found), key=lambda f: (f.value or 0) / (f.limit or 1))
    assert found.cases.cases[governing_case(made[0], found)].name in worst.formula
