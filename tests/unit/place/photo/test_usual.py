from __future__ import annotations

import math
from dataclasses import replace

import pytest

from fitwright.job.marks import LensMark, Photo
from fitwright.place.photo.usual import LOOSE, expected, usual_click


def test_nothing_known() -> None:
    usual = expected(Photo(), 4000, 3000)
    assert math.exp(usual.log_focal) == pytest.approx(32 / 43.27 * 5000, rel=1e-3)
    assert usual.centre == (1999.5, 1499.5)
    # 95 of 100: from 17 to 61 mm on 35 mm film.
    low, high = (32 * math.exp(sign * 1.96 * usual.log_focal_sigma) for sign in (-1, 1))
    assert (low, high) == pytest.approx((17, 61), abs=1)


def test_from_the_picture_itself() -> None:
    usual = expected(Photo(), 4000, 3000, exif_35mm=26)
    assert math.exp(usual.log_focal) == pytest.approx(26 / 43.27 * 5000, rel=1e-3)
    assert usual.log_focal_sigma < 0.05
    assert usual.barrel_sigma < expected(Photo(), 4000, 3000).barrel_sigma


def test_a_cropped_picture_has_lost_what_its_data_say() -> None:
    usual = expected(Photo(cropped=True), 4000, 3000, exif_35mm=26)
    assert usual.log_focal_sigma > 0.3
    assert usual.centre_sigma > 5 * expected(Photo(), 4000, 3000).centre_sigma


@pytest.mark.parametrize("cut", [1.0, 1.35, 1.9])
def test_a_lens_told_is_that_of_the_whole_picture(cut: float) -> None:
    """35 mm on a picture `cut` times as large as what is left of it: within two deviations, and not sure."""
    told = Photo(lens=LensMark(focal_35mm=35.0))
    left, whole = (1200, 1600), (round(1200 * cut), round(1600 * cut))
    found = expected(replace(told, cropped=True), *left)
    true = expected(told, *whole).log_focal
    assert abs(found.log_focal - true) < 2 * found.log_focal_sigma
    assert found.log_focal_sigma > 0.15
    assert found.focal_from in LOOSE


def test_what_the_maker_says_goes_first() -> None:
    lens = LensMark(focal=3000, centre=(1990, 1510), barrel=0.0)
    usual = expected(Photo(lens=lens), 4000, 3000, exif_35mm=26)
    assert math.exp(usual.log_focal) == pytest.approx(3000)
    assert usual.centre == (1990, 1510)
    assert usual.barrel == 0
    assert usual.focal_from == "told"
    assert math.exp(expected(Photo(lens=LensMark(focal_35mm=43.27)), 300, 400).log_focal) == pytest.approx(
        500, rel=1e-3
    )


def test_clicks_grow_with_the_picture() -> None:
    assert usual_click(800, 600) == 1
    assert usual_click(4000, 3000) == 2.5
