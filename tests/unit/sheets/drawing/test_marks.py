"""Part marks round a view."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest

from fitwright.sheets.drawing.directions import FRONT, ISOMETRIC
from fitwright.sheets.drawing.hidden import look
from fitwright.sheets.drawing.marks import marked, spots
from fitwright.sheets.drawing.scales import Scale
from fitwright.sheets.drawing.solids import gather
from tests.unit.sheets.drawing.shapes import box

FULL = Scale(Fraction(1))


def test_spots_lie_on_their_part_and_are_seen() -> None:
    found = spots(look(gather([box("A", (0, 0, 0), (10, 10, 10)), box("B", (0, 50, 0), (30, 60, 10))]), FRONT))
    assert set(found) == {"A", "B"}
    assert ((found["A"] >= 0) & (found["A"] <= 10)).all()
    assert (found["B"][:, 0] > 10).all()


def test_a_part_out_of_sight_has_no_spots() -> None:
    found = spots(look(gather([box("A", (0, 0, 0), (10, 10, 10)), box("B", (2, 50, 2), (8, 60, 8))]), FRONT))
    assert set(found) == {"A"}


def test_like_parts_share_a_mark() -> None:
    bodies = [box("A", (x, 0, 0), (x + 10, 10, 10)) for x in (0, 100, 200)]
    view = look(gather(bodies), ISOMETRIC)
    assert [m.text for m in marked(spots(view), (0, 0, 200, 50), FULL)] == ["A"]


@pytest.mark.parametrize("side", ["left", "right"])
def test_marks_stay_on_the_sides_given(side: str) -> None:
    seen = {f"M{i}": np.array([[10.0 * i + 5, 20.0], [10.0 * i + 5, 30.0]]) for i in range(9)}
    sides = ("left",) if side == "left" else ("right",)
    marks = marked(seen, (0, 0, 100, 50), FULL, sides)  # type: ignore[arg-type]
    assert len(marks) == 9
    assert all((m.text_at[0] < 0) if side == "left" else (m.text_at[0] > 100) for m in marks)
    heights = sorted(m.text_at[1] for m in marks)
    assert min(np.diff(heights)) >= 8 - 1e-9
