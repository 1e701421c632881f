from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from fitwright.job import load_job, parse_job
from fitwright.piece import Piece, build
from fitwright.place.photo import MarksError, Solved, laid_over, solve, standing
from fitwright.sheets.photo_piece import piece_seen
from tests.unit.place.photo.samples import SIZE, Clicks, box_photo, camera

BOX = (800.0, 600.0, 900.0)
RACK = Path(__file__).parents[3] / "examples" / "drying-rack" / "job.yaml"
BLOCK = """job: {name: Block, unit: mm}
stock: {bar: square bar 40, thick: flat 400 x 400}
parts:
  near: {stock: thick, path: [[200, 200, 0], [200, 200, 400]], ends: free}
  far: {stock: bar, path: [[200, 800, 0], [200, 800, 300]], ends: free}
"""


@cache
def solved(placed: bool = True) -> Solved:
    clicks = Clicks(camera(), np.random.default_rng(1))
    photo = box_photo(clicks, BOX)
    spots = dict(photo.spots)
    if placed:
        for name, place in (("c0", (0.0, 0.0, 0.0)), ("c1", (800.0, 0.0, 0.0)), ("c5", (800.0, 0.0, 900.0))):
            spots[name] = clicks(np.array(place), place)
    return solve(replace(photo, spots=spots), SIZE)


def rack() -> Piece:
    return build(load_job(RACK))


def test_every_line_lies_on_the_piece_as_the_lens_draws_it() -> None:
    """The corners of a block are where the camera has them, a line is bowed between them."""
    piece = build(parse_job(BLOCK))
    lines = piece_seen(solved(), piece)
    corners = np.array([[x, y, 400.0] for x in (0, 400) for y in (0, 400)])
    expected = np.concatenate(
        laid_over(solved(), [np.repeat(one[None], 2, axis=0) for one in corners], standing(solved()))
    )
    drawn = np.concatenate(lines)
    for corner in expected[::9]:
        assert np.abs(drawn - corner).max(axis=1).min() < 0.05


def test_what_is_behind_is_hidden() -> None:
    """A low post straight behind a large block, seen from low in front, is not drawn."""
    eye = (200.0, -3000.0, 200.0)
    clicks = Clicks(camera(eye=eye, aim=(200, 300, 200), roll=0.0), np.random.default_rng(1))
    photo = box_photo(clicks, BOX)
    spots = {**photo.spots, "c0": clicks(np.zeros(3), (0.0, 0.0, 0.0))}
    view = solve(replace(photo, spots=spots), SIZE)
    both = piece_seen(view, build(parse_job(BLOCK)))
    alone = piece_seen(view, build(parse_job("\n".join(BLOCK.splitlines()[:-1]))))
    assert len(both) == len(alone)


def test_a_grown_piece_is_drawn_larger_about_its_spot() -> None:
    own, grown = (np.concatenate(piece_seen(solved(), rack(), by)) for by in (1.0, 1.2))
    assert np.ptp(grown[:, 1]) > 1.1 * np.ptp(own[:, 1])


def test_no_spot_on_the_piece() -> None:
    with pytest.raises(MarksError, match="say for one spot"):
        piece_seen(solved(placed=False), rack())
