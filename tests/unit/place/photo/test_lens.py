from __future__ import annotations

import numpy as np
import pytest

from fitwright.place.photo.lens import Lens, drawing_in

PIXELS = np.array([[10.0, 20.0], [300.0, 260.0], [639.0, 479.0], [320.5, 239.5]])


@pytest.mark.parametrize("barrel", [-0.2, -0.03, 0.0, 0.05])
def test_rays_and_back(barrel: float) -> None:
    lens = Lens(640, 480, 500.0, (320.5, 239.5), barrel)
    assert lens.drawn(lens.rays(PIXELS)) == pytest.approx(PIXELS, abs=1e-9)
    assert lens.drawn(7 * lens.rays(PIXELS)) == pytest.approx(PIXELS, abs=1e-9)


def test_a_corner_is_drawn_in_by_what_the_barrel_says() -> None:
    """A drawn radius of half the diagonal (400 px) comes from a straight one of 400 / (1 - 0.2) = 500 px."""
    lens = Lens(640, 480, 500.0, (0.0, 0.0), -0.2)
    assert lens.drawn(np.array([[1.0, 0.0, 1.0]]))[0] == pytest.approx([400, 0])
    assert lens.straightened(np.array([[0.0, 400.0]]))[0] == pytest.approx([0, 500])


def test_what_is_behind_is_not_drawn() -> None:
    assert np.isnan(Lens(640, 480, 500.0, (0.0, 0.0)).drawn(np.array([[0.0, 0.0, -1.0], [1.0, 1.0, 0.0]]))).all()


@pytest.mark.parametrize("barrel", [-0.3, 0.0, 0.1])
def test_rates_of_drawing_in(barrel: float) -> None:
    square, step = np.array([0.01, 0.3, 1.1]), 1e-6
    _, by_square, by_barrel = drawing_in(square, barrel)
    ahead, behind = drawing_in(square + step, barrel)[0], drawing_in(square - step, barrel)[0]
    assert by_square == pytest.approx((ahead - behind) / (2 * step), abs=1e-8)
    ahead, behind = drawing_in(square, barrel + step)[0], drawing_in(square, barrel - step)[0]
    assert by_barrel == pytest.approx((ahead - behind) / (2 * step), abs=1e-8)
