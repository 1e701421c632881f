"""Quadrature of the pieces, against integrals by hand."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest

from fitwright.stock.patches import gauss, rectangle, ring, ring_quarter, root_fillet


def test_gauss_is_exact_for_a_cubic_with_two_points() -> None:
    at, weights = gauss(1.0, 3.0, 2)
    assert weights @ at**3 == pytest.approx((3**4 - 1) / 4)


def test_rectangle() -> None:
    fibres = rectangle((1.0, 3.0), (-1.0, 2.0), 2, 2)
    assert fibres[:, 2].sum() == pytest.approx(6.0)
    assert fibres[:, 2] @ (fibres[:, 0] ** 2 * fibres[:, 1]) == pytest.approx((27 - 1) / 3 * 1.5)


def test_ring() -> None:
    fibres = ring(3.0, 5.0, 3, 12)
    assert fibres[:, 2].sum() == pytest.approx(pi * 16)
    assert fibres[:, 2] @ fibres[:, 0] ** 2 == pytest.approx(pi / 4 * (5**4 - 3**4))
    np.testing.assert_allclose(fibres[:, 2] @ fibres[:, :2], 0.0, atol=1e-12)


@pytest.mark.parametrize(("quadrant", "sign"), [(0, (1, 1)), (1, (-1, 1)), (2, (-1, -1)), (3, (1, -1))])
def test_quarter_ring(quadrant: int, sign: tuple[int, int]) -> None:
    fibres = ring_quarter((0.0, 0.0), (0.0, 3.0), quadrant)
    assert fibres[:, 2].sum() == pytest.approx(pi * 9 / 4)
    np.testing.assert_allclose(fibres[:, 2] @ fibres[:, :2], np.array(sign) * 9.0, rtol=1e-12)


def test_root_fillet_is_a_square_less_a_quarter_circle() -> None:
    fibres = root_fillet(2.0, 3.0)
    area = 9 * (1 - pi / 4)
    assert fibres[:, 2].sum() == pytest.approx(area, rel=1e-11)
    # square from 2 to 5, less the quarter circle about (5, 5) whose centroid is 4 r / (3 pi) from it
    first = 9 * 3.5 - pi * 9 / 4 * (5 - 4 * 3 / (3 * pi))
    np.testing.assert_allclose(fibres[:, 2] @ fibres[:, :2], first, rtol=1e-11)
