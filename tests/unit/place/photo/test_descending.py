from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray

from fitwright.place.photo import solve
from fitwright.place.photo.descending import least
from tests.unit.place.photo.samples import SIZE, Clicks, box_photo, camera, random_camera, random_size

Floats = NDArray[np.float64]


def valley(row: Floats) -> Floats:
    """Rosenbrock's curved valley, least 0 at (1, 1)."""
    return np.array([10 * (row[1] - row[0] ** 2), 1 - row[0]])


def valley_rates(row: Floats) -> Floats:
    return np.array([[-20 * row[0], 10.0], [-1.0, 0.0]])


@pytest.mark.parametrize("start", [(-1.2, 1.0), (8.0, -5.0), (1.0, 1.0)])
def test_down_a_curved_valley(start: tuple[float, float]) -> None:
    assert least(valley, valley_rates, np.array(start)) == pytest.approx([1, 1], abs=1e-6)


def test_a_straight_problem_in_mixed_units() -> None:
    """Columns that differ a million times over; the answer of the normal equations."""
    chance = np.random.default_rng(1)
    table, right = chance.normal(size=(12, 4)) * [1e-3, 1.0, 1e3, 1.0], chance.normal(size=12)
    found = least(lambda row: table @ row - right, lambda _: table, np.zeros(4))
    assert found == pytest.approx(np.linalg.lstsq(table, right)[0], rel=1e-6)


def test_what_nothing_depends_on_stays() -> None:
    table = np.array([[2.0, 0.0]])
    assert least(lambda row: table @ row - 4, lambda _: table, np.array([0.0, 7.0])) == pytest.approx([2, 7])


def test_steps_into_nowhere_are_taken_back() -> None:
    """The logarithm has no value for what a whole step would try."""

    def misses(row: Floats) -> Floats:
        with np.errstate(invalid="ignore", divide="ignore"):
            return np.log(row)

    assert least(misses, lambda row: np.diag(1 / row), np.array([8.0])) == pytest.approx([1], rel=1e-6)


@pytest.mark.parametrize("number", range(6))
def test_as_deep_as_minpack(number: int) -> None:
    """The same photo by scipy's MINPACK from the same beginning."""
    from scipy.optimize import least_squares

    chance = np.random.default_rng((1, number))
    size = random_size(chance)
    photo = box_photo(Clicks(random_camera(chance, size), chance, noise=0.5), size, 2)
    estimate = solve(photo, SIZE).estimate
    start = estimate.state.row * (1 + 0.01 * chance.standard_normal(len(estimate.state.row)))
    other = least_squares(
        estimate.equations.misses, start, jac=estimate.equations.rates, method="lm", x_scale="jac", max_nfev=500
    )
    ours = least(estimate.equations.misses, estimate.equations.rates, start)
    total = float(np.sum(estimate.equations.misses(ours) ** 2))
    assert total <= 2 * other.cost * (1 + 1e-6)
    assert total == pytest.approx(estimate.misfit, rel=1e-6)


def test_far_from_the_marks_it_still_comes_home() -> None:
    """Every mark moved by a tenth of the picture at once: the answer from the one before is that from nothing."""
    photo = box_photo(Clicks(camera(), np.random.default_rng(1), noise=0.5), (800.0, 600.0, 900.0))
    before = solve(photo, SIZE)
    spots = {name: replace(spot, u=spot.u - 150, v=spot.v + 60) for name, spot in photo.spots.items()}
    moved = replace(photo, spots=spots)
    warm, cold = solve(moved, SIZE, before=before), solve(moved, SIZE)
    assert warm.estimate.misfit == pytest.approx(cold.estimate.misfit, rel=1e-4)
