from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fitwright.job import parse_job
from fitwright.job.marks import LensMark, Photo
from fitwright.piece import build
from fitwright.place.photo import MarksError, Solved, laid_over, piece_over_photo, solve, standing
from tests.unit.place.photo.samples import SIZE, Camera, Clicks, box_photo, camera, corners

BOX = (800.0, 600.0, 900.0)


def told(photo: Photo, one: Camera) -> Solved:
    lens = LensMark(one.lens.focal, None, one.lens.centre, one.lens.barrel)
    return solve(replace(photo, lens=lens), SIZE)


def with_places(places: dict[str, tuple[float, float, float]]) -> tuple[Solved, Camera]:
    one = camera()
    photo = box_photo(Clicks(one, np.random.default_rng(1)), BOX)
    spots = {name: replace(spot, place=places.get(name)) for name, spot in photo.spots.items()}
    return told(replace(photo, spots=spots), one), one


def test_one_spot_says_where_the_piece_stands() -> None:
    solved, one = with_places({"c5": (800, 0, 900)})
    for line in ([[0, 0, 0], [0, 0, 900]], [[0, 0, 900], [800, 600, 900]]):
        (drawn,) = laid_over(solved, [np.array(line, dtype=float)])
        assert drawn[[0, -1]] == pytest.approx(one.sees(np.array(line, dtype=float)), abs=0.05)
        # In between it is bowed as the lens bows it.
        assert drawn[4] == pytest.approx(one.sees(np.mean(line, axis=0))[0], abs=0.05)


def test_two_spots_also_say_which_way_round() -> None:
    """The same picture for a maker whose x and y go the other way on this piece."""
    solved, one = with_places({"c5": (0, 600, 900), "c6": (800, 0, 900), "c4": (800, 600, 900)})
    stands = standing(solved)
    assert stands.off < 0.05
    (drawn,) = laid_over(solved, [np.array([[800.0, 600, 0], [0, 600, 0]])], stands)
    assert drawn[[0, -1]] == pytest.approx(one.sees(corners(BOX)[:2]), abs=0.05)


def test_spots_that_do_not_agree_are_told_by_how_much() -> None:
    solved, _ = with_places({"c5": (800, 0, 900), "c4": (0, 0, 930)})
    assert standing(solved).off == pytest.approx(15, abs=0.5)


def test_what_is_behind_or_far_out_is_left_out() -> None:
    solved, _ = with_places({"c5": (800, 0, 900)})
    behind = np.array([[2200.0, -3400, 1700], [2200, -4400, 1700]])
    through = np.array([[400.0, 300, 450], [4000, -5100, 2950]])
    aside = np.array([[-90000.0, 0, 0], [-80000, 0, 0]])
    assert laid_over(solved, [behind]) == []
    assert laid_over(solved, [aside]) == []
    (part,) = laid_over(solved, [through])
    assert 2 <= len(part) < 9


def test_no_place_said() -> None:
    solved, _ = with_places({})
    with pytest.raises(MarksError, match="say for one spot"):
        piece_over_photo(solved, build(parse_job(JOB)))


JOB = """job: {name: Post, unit: mm}
stock: {bar: square bar 40 mm}
parts: {post: {stock: bar, path: [[780, 20, 0], [780, 20, 900]], wide: x, ends: free}}
"""


def test_a_piece_over_the_photo() -> None:
    """A square post at the front right corner: its outer corner is the box's edge, and no line leaves its outline."""
    solved, one = with_places({"c5": (800, 0, 900)})
    lines = piece_over_photo(solved, build(parse_job(JOB)))
    ends = np.vstack([line[[0, -1]] for line in lines])
    for corner in ([800, 0, 0], [800, 0, 900], [760, 0, 900], [800, 40, 900]):
        assert np.linalg.norm(ends - one.sees(np.array(corner, dtype=float)), axis=1).min() < 0.5, corner
    seen = one.sees(np.array([[x, y, z] for x in (760, 800) for y in (0, 40) for z in (0, 900)], dtype=float))
    everything = np.vstack(lines)
    assert (everything.min(axis=0) > seen.min(axis=0) - 1.5).all()
    assert (everything.max(axis=0) < seen.max(axis=0) + 1.5).all()
