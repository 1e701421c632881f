from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fitwright.job.marks import Photo
from fitwright.place.photo import Wishes, propose, readings, solve
from tests.unit.place.photo.samples import SIZE, Clicks, box_photo, camera

BOX = (800.0, 600.0, 900.0)


def photo() -> Photo:
    return box_photo(Clicks(camera(), np.random.default_rng(1), noise=0.5), BOX)


def test_in_mm_where_a_length_is_known() -> None:
    solved = solve(photo(), SIZE)
    found = readings(solved)
    assert list(found) == ["depth", "height", "diagonal"]
    assert found["depth"].value == solved.by_name["depth"].value
    assert found["depth"].plus_minus == solved.by_name["depth"].plus_minus


def test_from_proportions_alone_to_dims() -> None:
    """No length is known on the photo: the width held says how large the new piece is."""
    found = readings(solve(replace(photo(), known={}), SIZE))
    assert found["depth"].value == 1
    new = propose(found, Wishes(held={"depth": 450.0}, step=0.5))
    assert new["height"].value == pytest.approx(675, rel=0.01)
    assert new["diagonal"].value == pytest.approx(750, rel=0.01)


def test_nothing_measured() -> None:
    assert readings(solve(replace(photo(), measures={}), SIZE)) == {}
