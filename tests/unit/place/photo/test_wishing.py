"""Dims from the photo of the drying rack's example: it is drawn by builders/old_photo, so every true size is known."""

from __future__ import annotations

import csv
from dataclasses import replace
from pathlib import Path

import pytest

from builders.old_photo.camera import CAMERA
from builders.old_photo.marking import spots, true_sizes
from fitwright.job import Job, load_job
from fitwright.job.beside import Beside
from fitwright.job.model import Space
from fitwright.place.photo import WishError
from fitwright.place.photo.answering import PhotoAnswer, photo_answer
from fitwright.place.photo.proposal import Why
from fitwright.place.photo.wishing import photo_dims, room_for, sizes_on_sale
from fitwright.shop import default_shop
from fitwright.stock import parse_stock

RACK = Path(__file__).parents[4] / "examples" / "drying-rack" / "job.yaml"
with (Path(__file__).parent / "old_rack_sizes.csv").open(encoding="utf-8") as file:
    TRUE = {row["measure"]: float(row["true_mm"]) for row in csv.DictReader(file)}
SHOP = default_shop("inch")


@pytest.fixture(scope="module")
def job() -> Job:
    return load_job(RACK)


@pytest.fixture(scope="module")
def answer(job: Job) -> PhotoAnswer:
    found = photo_answer(job, SHOP, Beside(RACK.parent))
    assert found is not None
    return found


def changed(job: Job, **dims: object) -> Job:
    """The same with some of its photo's dims marked differently."""
    assert job.photo is not None
    marks = {name: replace(mark, **dims.get(name, {})) for name, mark in job.photo.dims.items()}  # type: ignore[arg-type]
    return replace(job, photo=replace(job.photo, dims=marks))


def test_the_sizes_are_those_of_the_picture() -> None:
    assert true_sizes() == pytest.approx(TRUE, abs=1e-3)


def test_the_marks_lie_where_the_camera_of_the_picture_has_them(job: Job) -> None:
    """Clicked within about a pixel, feet and ledges less sharply."""
    assert job.photo is not None
    for name, place in spots().items():
        seen, marked = CAMERA.draws(place)[0], job.photo.spots[name]
        assert (marked.u, marked.v) == pytest.approx(tuple(seen), abs=4.5), name


@pytest.mark.parametrize("name", list(TRUE))
def test_what_is_stated_covers_the_true_size_of_the_old_rack(name: str, answer: PhotoAnswer) -> None:
    assert answer.solved is not None
    measure = answer.solved.by_name[name]
    assert measure.value is not None
    assert measure.plus_minus is not None
    assert abs(measure.value - TRUE[name]) <= measure.plus_minus


def test_the_long_measures_are_near(answer: PhotoAnswer) -> None:
    assert answer.solved is not None
    for name in ("uprights", "hoops", "bar", "rail"):
        assert answer.solved.by_name[name].value == pytest.approx(TRUE[name], rel=0.01), name


def test_the_camera_is_found(answer: PhotoAnswer) -> None:
    """The renderer's: 37 mm on 35 mm film, corners 4.5 % in; neither stands in the picture's data."""
    assert answer.solved is not None
    lens = answer.solved.estimate.state.lens
    assert lens.focal / lens.half_diagonal / 2 * 43.267 == pytest.approx(37, rel=0.03)
    assert lens.barrel == pytest.approx(-0.045, abs=0.015)


def test_the_jobs_dims_are_those_that_follow_from_photo_and_place(answer: PhotoAnswer) -> None:
    assert answer.dims is not None
    assert answer.dims.sized
    assert {row.mark.name for row in answer.dims.rows if row.taken} == {
        "width", "depth", "height", "lowest", "pitch", "rail_height", "frame.od",
    }  # fmt: skip
    assert all(row.agrees for row in answer.dims.rows)
    assert answer.dims["height"].proposed.why is Why.PHOTO
    assert answer.dims["frame.od"].proposed.why is Why.STOCK


def test_the_same_dims_follow_from_the_marks_alone(job: Job) -> None:
    """Without the picture nothing is snapped; the marks say enough."""
    found = photo_answer(job, SHOP, None)
    assert found is not None
    assert found.dims is not None
    assert all(row.taken for row in found.dims.rows)
    assert found.not_found == ("edges were not snapped: the picture is not at hand",)


def test_a_sum_knows_what_its_measures_have_in_common(answer: PhotoAnswer) -> None:
    """width is uprights + tube: as one length its spread is no sum of two."""
    assert answer.solved is not None
    assert answer.dims is not None
    parts = [answer.solved.by_name[name] for name in ("uprights", "tube")]
    whole = answer.dims["width"].old
    assert whole.value == pytest.approx(sum(one.value or 0.0 for one in parts))
    spreads = [one.plus_minus or 0.0 for one in parts]
    assert 0.5 * max(spreads) < whole.plus_minus < sum(spreads)


def test_a_dim_that_leaves_the_proportion_is_told(job: Job) -> None:
    low = replace(job, dims={**job.dims, "height": replace(job.dims["height"], value=66 * 25.4)})
    found = photo_answer(low, SHOP, None)
    assert found is not None
    assert found.dims is not None
    assert [row.mark.name for row in found.dims.rows if not row.agrees] == ["height"]


def test_the_place_bounds_the_height(job: Job) -> None:
    opening = job.space.opening
    assert opening is not None
    space = replace(job.space, opening=replace(opening, tops=((0.0, 72 * 25.4),)))
    found = photo_answer(replace(job, space=space), SHOP, None)
    assert found is not None
    assert found.dims is not None
    height = found.dims["height"].proposed
    assert height.value == pytest.approx(68 * 25.4)  # 72 less the 4 kept clear
    assert height.why is Why.MOST


def test_room_in_the_opening(job: Job) -> None:
    assert room_for(job.space, "width") == pytest.approx((36 + 5 / 8 - 1) * 25.4)
    assert room_for(job.space, "height") == pytest.approx(80 * 25.4)
    assert room_for(Space(), "width") is None


def test_sizes_on_sale_are_of_the_same_shape() -> None:
    sizes = sizes_on_sale(SHOP, parse_stock("lumber 1x4 white pine", unit="inch"), "width")
    assert [size / 25.4 for size in sizes] == pytest.approx([2.5, 3.5])


def test_wishes_that_cannot_be_met_are_told(job: Job) -> None:
    crossed = changed(job, height={"least": 3000.0, "fits": "height"})
    found = photo_answer(crossed, SHOP, None)
    assert found is not None
    assert found.dims is None
    assert "height has to be at least" in found.wrong
    assert found.solved is not None
    assert crossed.photo is not None
    with pytest.raises(WishError):
        photo_dims(crossed, SHOP, replace(found.solved, photo=crossed.photo))


def test_proportions_alone_where_no_length_is_known(job: Job) -> None:
    assert job.photo is not None
    found = photo_answer(replace(job, photo=replace(job.photo, known={})), SHOP, None)
    assert found is not None
    assert found.dims is not None
    assert not found.dims.sized
    assert found.dims["height"].proposed.value == pytest.approx(74 * 25.4, abs=13)
