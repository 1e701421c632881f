"""The spread that the covariance states against the spread of many clickings of one picture (Monte Carlo)."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray

from fitwright.job.marks import Arc, Height, Length, LensMark, Photo, PlaneMark, Quantity, Spacing, Spot, Tube
from fitwright.place.photo import Solved, solve
from tests.unit.place.photo.samples import SIZE, Clicks, box_photo, camera

Floats = NDArray[np.float64]

CLICKINGS = 120
CLICK_PX = 0.5
BOX = (800.0, 600.0, 900.0)


def marked(noise_seed: int, noise: float) -> Photo:
    """A box with an arc and even spots on its front, a tube before it, a spot on its top, all in one photo."""
    one = camera(eye=(1900, -2300, 1500))
    clicks = Clicks(one, np.random.default_rng(noise_seed), noise=noise, stated=CLICK_PX)
    photo = box_photo(clicks, BOX, between=2)
    spots = dict(photo.spots)
    angles = np.radians(np.linspace(10, 170, 7))
    arc = [f"arc{k}" for k in range(len(angles))]
    for name, angle in zip(arc, angles, strict=True):
        spots[name] = clicks(np.array([400 + 250 * np.cos(angle), 0.0, 400 + 250 * np.sin(angle)]))
    row = [f"row{k}" for k in range(4)]
    for k, name in enumerate(row):
        spots[name] = clicks(np.array([60.0, 0.0, 100 + 180.0 * k]))
    spots["on post"] = clicks(np.array([700.0, 0.0, 300.0]))
    sides = _outlines(clicks, np.array([700.0, 0.0]), 20.0, spots)
    measures: dict[str, Quantity] = {
        **photo.measures,
        "radius": Arc(tuple(arc), "front"),
        "pitch": Spacing(tuple(row), "z"),
        "tube": Tube(sides, "z", "on post"),
        "rise": Height("c5", "c1"),
        "across": Length("c4", "c7", across="y"),
    }
    planes = {"front": PlaneMark("y", ("c0", "c1", "c4", "c5", *row, "on post"))}
    return replace(photo, spots=spots, planes=planes, measures=measures)


def _outlines(
    clicks: Clicks, axis: Floats, radius: float, spots: dict[str, Spot]
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Spots on both outlines of an upright tube: where planes through the eye touch it."""
    toward = axis - clicks.camera.eye[:2]
    away = float(np.linalg.norm(toward))
    names = []
    for side in (1, -1):
        angle = np.arctan2(-toward[1], -toward[0]) + side * np.arccos(radius / away)
        foot = axis + radius * np.array([np.cos(angle), np.sin(angle)])
        pair = tuple(f"side{side}.{k}" for k in range(2))
        for k, name in enumerate(pair):
            spots[name] = clicks(np.array([*foot, 150 + 400 * k]))
        names.append(pair)
    return names[0], names[1]


TRUE = {
    "depth": 600.0, "height": 900.0, "diagonal": 1000.0, "radius": 250.0, "pitch": 180.0, "tube": 40.0, "rise": 900.0,
    "across": 600.0,
}  # fmt: skip


def test_without_noise_everything_is_exact() -> None:
    """The camera's lens is told here, so that what is usual of cameras does not pull."""
    one = camera(eye=(1900, -2300, 1500)).lens
    photo = replace(marked(0, 0.0), lens=LensMark(one.focal, None, one.centre, one.barrel))
    for measure in solve(photo, SIZE).measures:
        assert measure.value == pytest.approx(TRUE[measure.name], rel=2e-6), measure.name


@pytest.fixture(scope="module")
def clickings() -> list[Solved]:
    before = solve(marked(0, 0.0), SIZE)
    return [solve(marked(seed, CLICK_PX), SIZE, before=before) for seed in range(1, CLICKINGS + 1)]


@pytest.mark.parametrize("name", list(TRUE))
def test_stated_spread_is_the_true_one(name: str, clickings: list[Solved]) -> None:
    """The camera is one of many that the expectation allows; so a spread under the stated one is right, over it is not.

    The known width is drawn again each time too; focal length, bow and centre are learnt from the marks for the most.
    """
    found = np.array([one.by_name[name].value for one in clickings], dtype=float)
    stated = float(np.median([one.by_name[name].plus_minus or 0.0 for one in clickings])) / 1.96
    assert 0.6 * stated < found.std() < 1.15 * stated
    given = np.array([one.by_name[name].plus_minus for one in clickings], dtype=float)
    assert np.mean(np.abs(found - TRUE[name]) <= given) >= 0.9
