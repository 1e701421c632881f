from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fitwright.job.arithmetic import parse
from fitwright.job.marks import DimMark, Length, Photo, Quantity
from fitwright.place.photo import MarksError, solve
from fitwright.place.photo.reckoning import reckoned
from tests.unit.place.photo.samples import SIZE, Clicks, box_photo, camera

BOX = (800.0, 600.0, 900.0)


def with_dims(photo: Photo, **dims: str) -> Photo:
    return replace(photo, dims={name: DimMark(name, text, parse(text)) for name, text in dims.items()})


def photo(seed: int = 1, noise: float = 0.5) -> Photo:
    return box_photo(Clicks(camera(), np.random.default_rng(seed), noise=noise), BOX)


def test_arithmetic_on_measures() -> None:
    found, sized = reckoned(solve(with_dims(photo(noise=0.0), a="depth + height", b="height / 3"), SIZE))
    assert sized
    assert found["a"].value == pytest.approx(1500, rel=2e-3)
    assert found["b"].value == pytest.approx(300, rel=2e-3)


def test_what_is_in_common_is_counted_once() -> None:
    """A measure less itself is known exactly; twice it has twice the spread."""
    solved = solve(with_dims(photo(), none="depth - depth + 1", twice="2 * depth"), SIZE)
    found, _ = reckoned(solved)
    assert found["none"].plus_minus == pytest.approx(0, abs=1e-6)
    assert found["twice"].plus_minus == pytest.approx(2 * (solved.by_name["depth"].plus_minus or 0.0), rel=1e-6)


def test_the_stated_spread_is_that_of_many_clickings() -> None:
    """Monte Carlo: the camera stays, the clicks are drawn again; a spread under the stated one is right."""
    solved = [solve(with_dims(photo(seed), sum="depth + height"), SIZE) for seed in range(2, 62)]
    found = [reckoned(one)[0]["sum"] for one in solved]
    values = np.array([one.value for one in found])
    stated = float(np.median([one.plus_minus for one in found])) / 1.96
    assert 0.5 * stated < values.std() < 1.2 * stated
    assert np.mean([abs(one.value - 1500) <= one.plus_minus for one in found]) >= 0.9


def test_shares_without_a_known_length() -> None:
    bare = replace(photo(noise=0.0), known={})
    found, sized = reckoned(solve(with_dims(bare, a="height", b="depth"), SIZE))
    assert not sized
    assert found["a"].value / found["b"].value == pytest.approx(1.5, rel=5e-3)


def test_measures_that_do_not_hang_together() -> None:
    both = photo()
    apart: dict[str, Quantity] = {"depth": Length("c4", "c6", along="y"), "height": Length("c1", "c5", along="z")}
    loose = replace(both, known={}, edges=(), measures=apart)
    with pytest.raises(MarksError, match="no known length hangs together"):
        reckoned(solve(with_dims(loose, a="height", b="depth"), SIZE))
