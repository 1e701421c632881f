from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fitwright.job.marks import EdgeMark, Length, Photo, Spot
from fitwright.place.photo import solve
from tests.unit.place.photo.samples import SIZE, Clicks, box_photo, camera

BOX = (800.0, 600.0, 900.0)


def clicked(noise: float = 0.5, seed: int = 1) -> Photo:
    return box_photo(Clicks(camera(), np.random.default_rng(seed), noise=noise), BOX)


def test_covariance_is_the_inverse_of_the_information() -> None:
    estimate = solve(clicked(), SIZE).estimate
    rates = estimate.equations.rates(estimate.state.row)
    product = estimate.covariance @ (rates.T @ rates)
    scale = np.sqrt(np.diag(rates.T @ rates))
    assert product * scale[:, None] / scale == pytest.approx(np.eye(len(scale)), abs=1e-5)


def test_something_quite_open_has_an_enormous_spread_and_not_none() -> None:
    """A spot that nothing ties: how far away it is hangs on the gauge of its own group, and no length says it."""
    photo = clicked()
    spots = {**photo.spots, "lone": Spot(800, 300)}
    solved = solve(replace(photo, spots=spots, measures={"far": Length("c4", "lone")}), SIZE)
    assert solved.by_name["far"].value is None
    assert np.isfinite(solved.estimate.covariance).all()


def test_misfit_is_about_its_freedom() -> None:
    """Chi squared over its degrees of freedom is 1, over many clickings."""
    found = [solve(clicked(seed=seed), SIZE).estimate for seed in range(30)]
    ratio = sum(one.misfit for one in found) / sum(one.freedom for one in found)
    assert ratio == pytest.approx(1, abs=0.15)
    assert all(one.raised == 1 for one in found)


def test_marks_worse_than_said_raise_the_spread_to_what_they_show() -> None:
    """Clicked to 2 px and said to be to 0.5: four times."""
    raised = [solve(clicked(noise=2.0, seed=seed), SIZE).estimate.raised for seed in range(10)]
    assert np.median(raised) == pytest.approx(4, rel=0.25)


def test_one_edge_and_nothing_else() -> None:
    photo = Photo(spots={"a": Spot(300, 300), "b": Spot(900, 350)}, edges=(EdgeMark("x", ("a", "b")),))
    estimate = solve(photo, SIZE).estimate
    assert estimate.misfit == pytest.approx(0, abs=1e-3)
    assert np.linalg.eigvalsh(estimate.covariance).min() > -1e-6 * np.linalg.eigvalsh(estimate.covariance).max()
