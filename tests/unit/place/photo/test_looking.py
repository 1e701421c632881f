from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fitwright.job.marks import EdgeMark, Photo, Spot
from fitwright.place.photo.looking import looked_up
from fitwright.place.photo.picture import Picture

GREY = np.where(np.arange(240)[:, None] < 120, 40, 200).repeat(320, axis=1).astype(np.uint8)
PICTURE = Picture(GREY, None, None, "PNG")
PHOTO = Photo(
    spots={"a": Spot(20, 122), "b": Spot(300, 117), "c": Spot(20, 20), "d": Spot(300, 20)},
    edges=(EdgeMark("x", ("a", "b"), snap=True), EdgeMark("x", ("c", "d"), snap=True), EdgeMark("y", ("a", "c"))),
)


def test_spots_found_along_an_edge_join_it() -> None:
    photo, lost = looked_up(PHOTO, PICTURE)
    spots = photo.edges[0].spots
    assert spots[:2] == ("a", "b")
    assert [photo.spots[name].v for name in spots[2:]] == pytest.approx([119.5] * 9, abs=0.05)
    assert all(0.05 < (photo.spots[name].click or 0) < 0.5 for name in spots[2:])
    assert photo.spots["a"] == PHOTO.spots["a"]
    assert lost == ("no edge was found within 6 px of edge 2 (c to d)",)
    assert photo.edges[1:] == PHOTO.edges[1:]


def test_a_picture_of_another_shape_than_its_camera_made_was_cropped() -> None:
    cut = Picture(GREY, 28.0, (640, 360), "JPEG")
    assert looked_up(PHOTO, cut)[0].cropped
    assert looked_up(PHOTO, PICTURE)[0].cropped is None
    assert looked_up(replace(PHOTO, cropped=False), cut)[0].cropped is False
