"""Random cameras before a box-like piece, clicked to half a pixel: how near, how unbiased, how well covered."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from fitwright.place.photo import solve
from tests.unit.place.photo.samples import SIZE, Clicks, box_photo, random_camera, random_size

Floats = NDArray[np.float64]

CLICK_PX = 0.5
MEASURES = ("depth", "height", "diagonal")


def study(cameras: int, seed: int, between: int) -> tuple[Floats, Floats]:
    """Relative errors (cameras, 3), and errors over the stated plus or minus (cameras, 3)."""
    errors, ratios = [], []
    for number in range(cameras):
        chance = np.random.default_rng((seed, number))
        size = random_size(chance)
        clicks = Clicks(random_camera(chance, size), chance, noise=CLICK_PX, stated=CLICK_PX)
        measured = solve(box_photo(clicks, size, between), SIZE).by_name
        true = {"depth": size[1], "height": size[2], "diagonal": float(np.hypot(size[0], size[1]))}
        found = [measured[name] for name in MEASURES]
        off = [(one.value or 0.0) - true[one.name] for one in found]
        errors.append([miss / true[one.name] for miss, one in zip(off, found, strict=True)])
        ratios.append([miss / (one.plus_minus or 0.0) for miss, one in zip(off, found, strict=True)])
    return np.array(errors), np.array(ratios)


def judge(errors: Floats, ratios: Floats) -> None:
    assert np.all(np.median(np.abs(errors), axis=0) < 0.005)
    # No bias: the mean of errors counted in spreads is nothing within three of its own spreads.
    assert np.all(np.abs(1.96 * ratios.mean(axis=0)) < 3 / np.sqrt(len(ratios)))
    cover = (np.abs(ratios) <= 1).mean()
    assert 0.90 <= cover <= 0.98


@pytest.mark.parametrize("between", [0, 3], ids=["corners only", "spots along the edges"])
def test_hundred_cameras(between: int) -> None:
    judge(*study(100, seed=7, between=between))


@pytest.mark.nightly
@pytest.mark.parametrize("between", [0, 3], ids=["corners only", "spots along the edges"])
def test_five_hundred_cameras(between: int) -> None:
    judge(*study(500, seed=11, between=between))


def test_errors_grow_in_proportion_to_the_clicks() -> None:
    """A quarter of the click, a quarter of the error, camera by camera with the same chance."""

    def error(noise: float) -> float:
        found = []
        for number in range(15):
            chance = np.random.default_rng((3, number))
            size = random_size(chance)
            clicks = Clicks(random_camera(chance, size), chance, noise=noise, stated=noise)
            depth = solve(box_photo(clicks, size, 3), SIZE).by_name["depth"].value
            found.append(abs((depth or 0.0) / size[1] - 1))
        return float(np.median(found))

    assert error(0.4) / error(0.1) == pytest.approx(4, rel=0.4)
