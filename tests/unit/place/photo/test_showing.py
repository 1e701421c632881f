from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fitwright.job.marks import Arc, Height, Length, PlaneMark, Quantity, Spacing
from fitwright.place.photo import solve
from fitwright.place.photo.showing import shown_marks
from tests.unit.place.photo.samples import SIZE, Clicks, box_photo, camera

BOX = (800.0, 600.0, 900.0)
SEEN = camera()
CLICKS = Clicks(SEEN, np.random.default_rng(1))


def test_a_length_is_drawn_from_spot_to_spot_as_the_lens_bows_it() -> None:
    solved = solve(box_photo(CLICKS, BOX), SIZE)
    shown = {one.name: one for one in shown_marks(solved)}
    (line,) = shown["depth"].lines
    true = SEEN.sees(np.array([[0, y, 900.0] for y in np.linspace(0, 600, len(line))]))
    assert line == pytest.approx(true, abs=0.2)
    assert shown["depth"].lead == ()


def test_what_is_only_apart_is_drawn_in_its_direction_and_led_to_the_spot() -> None:
    measures: dict[str, Quantity] = {"apart": Length("c4", "c7", across="y")}
    (apart,) = [
        one for one in shown_marks(solve(box_photo(CLICKS, BOX, measures=measures), SIZE)) if one.kind == "measure"
    ]
    assert apart.lines[0][-1] == pytest.approx(SEEN.sees(np.array([0.0, 600, 900]))[0], abs=0.3)
    assert apart.lead[0][-1] == pytest.approx(SEEN.sees(np.array([800.0, 600, 900]))[0], abs=0.3)


def test_edges_known_lengths_heights_rows_and_bends() -> None:
    photo = box_photo(CLICKS, BOX)
    spots = dict(photo.spots)
    angles = np.radians(np.linspace(10, 170, 7))
    for k, angle in enumerate(angles):
        spots[f"arc{k}"] = CLICKS(np.array([400 + 250 * np.cos(angle), 0.0, 400 + 250 * np.sin(angle)]))
    for k in range(4):
        spots[f"row{k}"] = CLICKS(np.array([60.0, 0.0, 100 + 180.0 * k]))
    rows, arc = tuple(f"row{k}" for k in range(4)), tuple(f"arc{k}" for k in range(7))
    planes = {"front": PlaneMark("y", ("c0", "c1", "c4", "c5", *rows))}
    measures: dict[str, Quantity] = {
        "rise": Height("c5", "c1"), "pitch": Spacing(rows, "z"), "bend": Arc(arc, "front"),
    }  # fmt: skip
    solved = solve(replace(photo, spots=spots, planes=planes, measures=measures), SIZE)
    shown = {one.name: one for one in shown_marks(solved)}
    assert [one.kind for one in shown.values()].count("edge") == 9
    assert shown["width"].kind == "known"
    assert shown["rise"].lines[0][-1] == pytest.approx(SEEN.sees(np.array([800.0, 0, 900]))[0], abs=0.3)
    assert len(shown["pitch"].lines) == 1 + 4
    bend = shown["bend"].lines[0]
    true = SEEN.sees(
        np.array(
            [[400 + 250 * np.cos(a), 0.0, 400 + 250 * np.sin(a)] for a in np.linspace(angles[0], angles[-1], len(bend))]
        )
    )
    assert np.abs(bend - true).max() < 1.0 or np.abs(bend[::-1] - true).max() < 1.0
