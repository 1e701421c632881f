from __future__ import annotations

import numpy as np
import pytest

from fitwright.checks.weld_line import WeldLineError, around, weld_line, weld_stress
from fitwright.stock import Angle, RectTube, RoundTube


def test_an_oblique_branch_has_a_longer_line() -> None:
    tube = RectTube(50.0, 50.0, 2.0, 0.0)
    line = around(tube, np.pi / 4, 0.0)
    assert line.length == pytest.approx(2 * 50 + 2 * 50 * np.sqrt(2))
    assert line.i_u == pytest.approx(2 * 50 * np.sqrt(2) * 25**2 + 2 * 50**3 / 12)


def test_an_ellipse_is_as_long_as_ramanujan_says() -> None:
    """Ramanujan's second approximation of an ellipse's perimeter."""
    a, b = 20 / np.sin(np.radians(60)), 20.0
    h = ((a - b) / (a + b)) ** 2
    line = around(RoundTube(40.0, 2.0), np.radians(60), 0.7)
    assert line.length == pytest.approx(np.pi * (a + b) * (1 + 3 * h / (10 + np.sqrt(4 - 3 * h))), rel=1e-4)


def test_pull_shear_and_torque_on_a_circle() -> None:
    line = around(RoundTube(40.0, 2.0))
    throat = 3.0 * 0.70710678
    for force, per_length in (
        ([0, 0, 1000, 0, 0, 0], 1000 / line.length),
        ([600, 800, 0, 0, 0, 0], 1000 / line.length),
        ([0, 0, 0, 0, 0, 5e4], 5e4 / (2 * np.pi * 20**2)),
        ([0, 0, 0, 3e4, 4e4, 0], 5e4 / (np.pi * 20**2)),
    ):
        assert float(weld_stress(np.array(force, dtype=float), line, 3.0)) == pytest.approx(
            per_length / throat, rel=1e-3
        )


def test_many_forces_at_once() -> None:
    line = around(RectTube(40.0, 40.0, 2.0, 4.0))
    forces = np.random.default_rng(1).normal(size=(3, 5, 6)) * 1000
    found = weld_stress(forces, line, 3.0)
    assert found.shape == (3, 5)
    assert float(found[1, 2]) == pytest.approx(float(weld_stress(forces[1, 2], line, 3.0)))


def test_a_force_off_the_centroid_is_a_force_and_a_moment() -> None:
    line = around(Angle(40.0, 30.0, 4.0))
    at = line.centroid + np.array([12.0, -7.0])
    moved = weld_stress(np.array([100.0, 200, 300, 0, 0, 0]), line, 3.0, at)
    moment = np.cross([12.0, -7.0, 0.0], [100.0, 200.0, 300.0])
    same = weld_stress(np.array([100.0, 200, 300, *moment]), line, 3.0)
    assert float(moved) == pytest.approx(float(same))


def test_bending_of_an_angle_balances_the_moment() -> None:
    """The pull along the line, summed over it, gives back the moment: unsymmetrical bending."""
    line = around(Angle(40.0, 30.0, 4.0))
    a, b = line.starts - line.centroid, line.ends - line.centroid
    curve = np.linalg.solve(line.inertia, np.array([0.0, 1000.0]))
    simpson = [(w, a + (b - a) * s) for w, s in ((1 / 6, 0.0), (4 / 6, 0.5), (1 / 6, 1.0))]
    moment = sum(w * (line.runs * (p @ curve)) @ p for w, p in simpson)
    assert np.asarray(moment) == pytest.approx([0.0, 1000.0], abs=1e-6)


def test_mistakes() -> None:
    with pytest.raises(WeldLineError, match="no length"):
        weld_line(np.zeros((2, 2)))
    with pytest.raises(WeldLineError, match="weld its edges as a lap"):
        around(RoundTube(40.0, 2.0), 0.0)
