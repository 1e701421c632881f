"""Round tube, pipe and bar against the annulus formulas."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest

from fitwright.stock import Pipe, RoundBar, RoundTube, StockError


def test_tube_by_the_annulus_formulas() -> None:
    tube = RoundTube(40.0, 2.0)
    assert tube.area == pytest.approx(pi / 4 * (40**2 - 36**2))
    assert tube.i_u == pytest.approx(pi / 64 * (40**4 - 36**4))
    assert tube.i_v == pytest.approx(tube.i_u)
    assert tube.j == pytest.approx(2 * tube.i_u)
    assert tube.z_plastic_u == pytest.approx((40**3 - 36**3) / 6)
    assert tube.s_u == pytest.approx(tube.i_u / 20)
    assert tube.metal_area == pytest.approx(tube.area)


def test_shape_factor_of_thin_tube_tends_to_four_over_pi() -> None:
    tube = RoundTube(100.0, 0.01)
    assert tube.z_plastic_u / tube.s_u == pytest.approx(4 / pi, rel=2e-4)


def test_pipe_uses_its_design_wall_for_strength_and_its_nominal_wall_for_weight() -> None:
    pipe = Pipe(42.0, 3.5, 3.25, "1 1/4", "40")
    assert pipe.shape == "pipe"
    assert pipe.area == pytest.approx(RoundTube(42.0, 3.25).area)
    assert pipe.metal_area == pytest.approx(RoundTube(42.0, 3.5).area)
    assert pipe.id == 35.0
    assert np.linalg.norm(pipe.bore()[0]) == pytest.approx(17.5)


def test_outline_starts_at_plus_u_and_has_n_points() -> None:
    outline = RoundTube(32.0, 2.0).outline(36)
    assert outline.shape == (36, 2)
    np.testing.assert_allclose(outline[[0, 9]], [[16, 0], [0, 16]], atol=1e-12)


def test_bar_by_the_circle_formulas() -> None:
    bar = RoundBar(10.0)
    assert bar.area == pytest.approx(pi * 25)
    assert bar.i_u == pytest.approx(pi / 64 * 1e4)
    assert bar.z_plastic_v == pytest.approx(1e3 / 6)
    assert bar.bore() is None
    assert bar.dimensions["diameter"] == 10.0


def test_dimensions_of_tube() -> None:
    dims = RoundTube(32.0, 2.0).dimensions
    assert (dims["od"], dims["id"], dims["wall"]) == (32.0, 28.0, 2.0)


@pytest.mark.parametrize(
    ("od", "wall"), [(0, 1), (-3, 1), (10, 0), (10, 5), (10, 6), (float("nan"), 1), (10, float("inf"))]
)
def test_tube_that_cannot_be(od: float, wall: float) -> None:
    with pytest.raises(StockError):
        RoundTube(od, wall)


def test_bar_that_cannot_be() -> None:
    with pytest.raises(StockError, match="more than 0"):
        RoundBar(0.0)
