from __future__ import annotations

import json
from dataclasses import replace

import numpy as np
import pytest

from fitwright.place.photo import solve
from fitwright.place.photo.telling import amount, as_json, told
from fitwright.units import Style
from tests.unit.place.photo.samples import SIZE, Clicks, box_photo, camera

BOX = (800.0, 600.0, 900.0)
CLICKS = Clicks(camera(film=30), np.random.default_rng(1), noise=0.5)


def test_lines_for_a_terminal() -> None:
    solved = solve(box_photo(CLICKS, BOX), SIZE)
    lines = told(solved, Style.inch())
    assert lines[0].startswith("camera: sees as ")
    assert " down" in lines[0]
    (depth,) = [line for line in lines if line.startswith("depth ")]
    assert '" ± ' in depth
    assert " %)" in depth


def test_a_plus_or_minus_is_never_printed_smaller_than_it_is() -> None:
    one = replace(solve(box_photo(CLICKS, BOX), SIZE).measures[0], value=600.0, plus_minus=0.1)
    assert amount(one, Style.inch()) == '23 5/8" ± 1/16" (0.0 %)'
    assert amount(one, Style.metric()) == "600.0 mm ± 0.5 mm (0.0 %)"


def test_shares_where_no_length_is_known() -> None:
    lines = told(solve(replace(box_photo(CLICKS, BOX), known={}), SIZE), Style.metric())
    assert any(line.startswith("height") and line.endswith(" of depth") for line in lines)
    assert any(line.startswith("note: depth, height, diagonal: a known length") for line in lines)


def test_plain_data_hold_the_same_numbers() -> None:
    solved = solve(box_photo(CLICKS, BOX), SIZE)
    data = json.loads(json.dumps(as_json(solved)))
    assert data["measures"]["depth"]["value_mm"] == solved.by_name["depth"].value
    assert data["camera"]["focal_35mm"] == pytest.approx(30, rel=0.1)
    assert data["camera"]["focal_px"] == solved.estimate.state.lens.focal
    assert data["doubts"] == []
