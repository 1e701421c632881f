from __future__ import annotations

import numpy as np
import pytest

from fitwright.job.marks import EdgeMark, Known, Photo, Spot
from fitwright.place.photo import solve
from fitwright.place.photo.beginning import BARREL_TRIES, beginnings, begun
from fitwright.place.photo.gathering import gathered
from fitwright.place.photo.scene import known_name
from fitwright.place.photo.unknowns import BARREL, Unknowns
from fitwright.place.photo.usual import expected
from tests.unit.place.photo.samples import SIZE, Clicks, box_photo, camera

BOX = (800.0, 600.0, 900.0)


def box(barrel: float = -0.1, film: float = 30.0) -> Photo:
    return box_photo(Clicks(camera(barrel=barrel, film=film), np.random.default_rng(1)), BOX, 4)


@pytest.mark.parametrize("film", [22.0, 30.0, 55.0])
def test_focal_length_to_begin_with(film: float) -> None:
    """One hollow of the likelihood, within a step of the tries; the rest is the fit's."""
    photo = box(film=film)
    first = beginnings(gathered(photo, 1.0), expected(photo, *SIZE), SIZE)[0]
    assert first.focal == pytest.approx(film / 43.267 * 2000, rel=0.2)


@pytest.mark.parametrize("barrel", [-0.24, -0.03, 0.06])
def test_bow_from_marks_along_edges(barrel: float) -> None:
    """Within a step of the tries, toward the usual bow; the rest is the fit's."""
    photo = box(barrel)
    step = float(np.diff(BARREL_TRIES)[0])
    found = beginnings(gathered(photo, 0.5), expected(photo, *SIZE), SIZE)[0].barrel
    assert found == pytest.approx(barrel, abs=1.01 * step)
    fitted = solve(photo, SIZE).estimate
    spread = float(np.sqrt(fitted.covariance[BARREL, BARREL]))
    assert fitted.state.lens.barrel == pytest.approx(barrel, abs=1.96 * spread)
    assert spread < 0.05


def test_without_marks_along_edges_the_usual_bow() -> None:
    photo = Photo(spots={"a": Spot(9, 9), "b": Spot(90, 99)}, edges=(EdgeMark("x", ("a", "b")),))
    assert beginnings(gathered(photo, 1.0), expected(photo, *SIZE), SIZE)[0].barrel == expected(photo, *SIZE).barrel


def test_begun_at_the_scale_of_the_known_length() -> None:
    one = camera()
    photo = box_photo(Clicks(one, np.random.default_rng(1)), BOX, 0)
    scene = gathered(photo, 1.0)
    known: list[tuple[str, Known]] = [(known_name(name), what) for name, what in photo.known.items()]
    start = begun(scene, one.lens, known)
    unknowns = Unknowns(scene, start.lens, start.rotation)
    state = unknowns.state(unknowns.row(start))
    assert start.rotation == pytest.approx(one.rotation, abs=1e-6)
    assert state.points[scene.at("c6")] == pytest.approx(np.array([0, 600, 900]) - one.eye, rel=1e-4)


def test_a_row_reads_back() -> None:
    one = camera()
    photo = box_photo(Clicks(one, np.random.default_rng(1)), BOX, 1)
    scene = gathered(photo, 1.0)
    start = begun(scene, one.lens, [])
    unknowns = Unknowns(scene, start.lens, start.rotation)
    row = unknowns.row(start)
    assert len(row) == unknowns.size
    state = unknowns.state(row)
    assert state.lens.focal == pytest.approx(one.lens.focal)
    assert state.lens.centre == pytest.approx(one.lens.centre)
    assert state.rotation == pytest.approx(start.rotation)
    assert state.coordinates.tolist() == start.coordinates.tolist()
