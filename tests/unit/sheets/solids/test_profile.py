"""Outlines of sections as lines and arcs."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.sheets.solids.profile import Circle, Loop, Stroke, bore_loop, outer_loop
from fitwright.stock import parse_stock


def _strokes(loop: Loop | None) -> tuple[Stroke, ...]:
    assert isinstance(loop, tuple)
    return loop


def test_round_tube_is_two_circles() -> None:
    section = parse_stock("round tube 32 x 2 mm").section
    assert outer_loop(section) == Circle(16.0)
    assert bore_loop(section) == Circle(14.0)


def test_pipe_has_its_nominal_bore() -> None:
    section = parse_stock("pipe 1 sch 40").section
    bore = bore_loop(section)
    assert isinstance(bore, Circle)
    assert 2 * bore.radius == pytest.approx(section.dimensions["id"])


def test_square_tube_has_four_lines_and_four_arcs_of_its_radius() -> None:
    section = parse_stock("square tube 40 x 40 x 2").section
    strokes = _strokes(outer_loop(section))
    arcs = [stroke for stroke in strokes if stroke.through is not None]
    assert (len(strokes), len(arcs)) == (8, 4)
    for stroke in strokes:
        assert section.distance(stroke.start) == pytest.approx(0, abs=1e-9)
        middle = stroke.through if stroke.through is not None else (stroke.start + stroke.finish) / 2
        assert section.distance(middle) == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("words", ["angle 30 x 30 x 3", "angle 50 x 30 x 5", "flat 25 x 5", "square tube 40 x 40 x 2"])
def test_outlines_close_and_lie_on_the_section(words: str) -> None:
    section = parse_stock(words).section
    strokes = _strokes(outer_loop(section))
    for stroke, after in zip(strokes, strokes[1:] + strokes[:1], strict=True):
        np.testing.assert_allclose(stroke.finish, after.start, atol=1e-9)
        if stroke.through is not None:
            assert section.distance(stroke.through) == pytest.approx(0, abs=1e-9)


def test_solid_and_open_sections_have_no_bore() -> None:
    for words in ("round bar 10", "flat 25 x 5", "angle 30 x 30 x 3"):
        assert bore_loop(parse_stock(words).section) is None
