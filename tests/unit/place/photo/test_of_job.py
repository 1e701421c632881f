from __future__ import annotations

from dataclasses import replace
from io import BytesIO

import numpy as np
import pytest
from PIL import Image

from fitwright.place.photo import MarksError, PictureError, solve_photo
from tests.unit.place.photo.samples import SIZE, Clicks, box_photo, camera

PHOTO = replace(box_photo(Clicks(camera(), np.random.default_rng(1)), (800.0, 600.0, 900.0)), picture="old.jpg")


def picture(size: tuple[int, int] = SIZE, film: int | None = None) -> bytes:
    held, exif = BytesIO(), Image.Exif()
    if film:
        exif.get_ifd(0x8769)[0xA405] = film
    Image.new("L", size, 100).save(held, "JPEG", exif=exif)
    return held.getvalue()


def test_without_the_picture_its_size_has_to_be_said() -> None:
    solved, lost = solve_photo(PHOTO, None)
    assert solved.size == SIZE
    assert lost == ()
    with pytest.raises(MarksError, match=r"old.jpg is not at hand: put it beside the job, or give its size"):
        solve_photo(replace(PHOTO, size=None), None)


def test_edges_to_snap_need_the_picture() -> None:
    snapping = replace(PHOTO, edges=tuple(replace(edge, snap=True) for edge in PHOTO.edges))
    assert solve_photo(snapping, None)[1] == ("edges were not snapped: the picture is not at hand",)
    lost = solve_photo(snapping, picture())[1]
    assert len(lost) == 9


def test_the_focal_length_comes_from_the_picture() -> None:
    solved, _ = solve_photo(PHOTO, picture(film=30))
    assert solved.estimate.equations.expected.focal_from == "the picture's own data"


def test_another_picture_than_was_marked() -> None:
    with pytest.raises(MarksError, match="800 x 600 pixels upright, and the marks were made on 1600 x 1200"):
        solve_photo(PHOTO, picture((800, 600)))
    assert solve_photo(replace(PHOTO, size=None), picture((800, 600)))[0].size == (800, 600)


def test_no_photo_and_no_picture() -> None:
    with pytest.raises(MarksError, match="no photo section"):
        solve_photo(None, None)
    with pytest.raises(PictureError, match=r"old\.jpg"):
        solve_photo(PHOTO, b"nothing")
