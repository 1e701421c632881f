from __future__ import annotations

import numpy as np
import pytest

from fitwright.checks.frame_findings import frame_results
from fitwright.mechanics.loads import GRAVITY
from tests.unit.checks.frames import WHEELS, rack, results

MADE = rack()


def test_feet_carry_every_case() -> None:
    found = results(MADE)
    down = np.array(
        [case.pattern.nodal[:, 2].sum() + found.framed.lengths @ case.pattern.line[:, 2] for case in found.cases.cases]
    )
    standing = ~found.tips
    assert found.press[:, standing].sum(axis=0) == pytest.approx(-down[standing], rel=1e-5)
    assert found.press[:, 0].sum() == pytest.approx(MADE[1].mass * GRAVITY)


def test_the_foot_over_a_hollow_carries_less() -> None:
    found = results(MADE)
    full = int(found.cases.of_kind("full")[0])
    for case in found.cases.of_kind("foot"):
        hollow = found.cases.cases[case].hollow
        assert found.press[hollow, case] < 0.5 * found.press[hollow, full]


def test_a_tall_narrow_piece_goes_over_and_says_so() -> None:
    found = results(rack("shelf: 1 kg, push: {force: 200 N, height: 1100}"))
    pushes = found.cases.of_kind("push")
    assert found.tips[pushes].any()
    assert np.isnan(found.displacements[:, :, pushes[found.tips[pushes]]]).all()


def test_the_deflected_shape_is_drawn_larger() -> None:
    found = results(MADE)
    case = int(found.cases.of_kind("push")[0])
    at, scale = found.deflected(case)
    moved = np.linalg.norm(at - found.framed.model.ends, axis=2).max()
    assert scale > 1
    assert moved == pytest.approx(0.08 * found.framed.piece.envelope.size.max())
    plain, one = found.deflected(case, 1.0)
    assert one == 1
    assert np.linalg.norm(plain - found.framed.model.ends, axis=2).max() == pytest.approx(moved / scale)


def test_second_order_grows_with_the_load() -> None:
    light, heavy = results(MADE), results(rack("shelf: 300 kg"))
    assert heavy.load_factor < light.load_factor / 5
    assert 1 < light.magnified < heavy.magnified
    assert light.magnified == pytest.approx(1 / (1 - 1 / light.load_factor))
    assert light.cases.cases[light.free_case].kind == "full"


def test_joints_pass_what_the_branch_carries() -> None:
    """Both ends of a ledge together hold its load and its own weight."""
    found = results(MADE)
    full = int(found.cases.of_kind("full")[0])
    ledge = next(k for k, line in found.framed.lines.items() if line.member.name == "ledge 1")
    own = found.framed.elements_of[ledge]
    load = found.framed.lengths[own] @ found.cases.cases[full].pattern.line[own, 2]
    passed = [p.force[2, full] for p in found.passed if p.joint.first == ledge]
    assert len(passed) == 2
    assert sum(passed) == pytest.approx(-load)


def test_a_piece_on_a_wall_needs_no_floor() -> None:
    job, piece = rack(space="walls: {back: 5000}", more=WHEELS, foot=60.0)
    found = frame_results(piece, job)
    assert not found.tips[0]
