"""What holds of every drawing: rows that never collide, lines covered once, pictures that move with the piece."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from fitwright.sheets.drawing import A3, DimensionRequest, arrangement
from fitwright.sheets.drawing.directions import FRONT, ISOMETRIC
from fitwright.sheets.drawing.hidden import look, visible
from fitwright.sheets.drawing.lines import tidy, united
from fitwright.sheets.drawing.rows import Ask, ranged
from fitwright.sheets.drawing.solids import gather
from fitwright.sheets.drawing.svg import inked
from fitwright.units import Style
from tests.unit.sheets.drawing.proof import leaders_crossing, written_over
from tests.unit.sheets.drawing.shapes import box

place = st.floats(0, 200).map(lambda x: round(x, 1))
asks = st.lists(
    st.tuples(place, place, st.floats(4, 30)).filter(lambda t: abs(t[0] - t[1]) > 0.5), min_size=1, max_size=14
)
size = st.integers(5, 400)
boxes = st.lists(st.tuples(*[st.integers(-300, 300)] * 3, size, size, size), min_size=1, max_size=5)


@given(asks)
def test_in_a_row_nothing_overlaps(given_asks: list[tuple[float, float, float]]) -> None:
    wanted = [Ask(min(a, b), max(a, b), text) for a, b, text in given_asks]
    places = ranged(wanted)
    for i, (ask, place) in enumerate(zip(wanted, places, strict=True)):
        for other, there in zip(wanted[:i], places[:i], strict=True):
            if place.row != there.row:
                continue
            assert ask.high <= other.low + 1e-6 or other.high <= ask.low + 1e-6
            assert abs(place.middle - there.middle) >= (ask.text + other.text) / 2


@given(asks)
def test_no_extension_line_crosses_a_shorter_dimension_line_in_its_own_span(
    given_asks: list[tuple[float, float, float]],
) -> None:
    wanted = [Ask(min(a, b), max(a, b), text) for a, b, text in given_asks]
    places = ranged(wanted)
    for ask, place in zip(wanted, places, strict=True):
        for other, there in zip(wanted, places, strict=True):
            held = ask.low < other.low - 1e-6 and other.high < ask.high - 1e-6
            if held and other.span < ask.span - 1e-3:
                assert place.row > there.row


@settings(max_examples=25, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 1800), st.integers(0, 1800)), max_size=9))
def test_whatever_is_asked_nothing_is_written_over_anything(levels: list[tuple[int, int]]) -> None:
    bodies = [
        box("A1", (0, 0, 0), (60, 60, 1800)),
        box("A2", (700, 0, 0), (760, 60, 1800)),
        box("B1", (0, 0, 900), (760, 60, 960)),
    ]
    requests = [DimensionRequest((0, 0, a), (0, 0, b), "z") for a, b in levels if a != b]
    drawing = arrangement(bodies, Style.metric(), requests, A3)
    assert written_over(inked(drawing)) == []
    assert leaders_crossing(drawing) == []


@given(
    st.lists(
        st.tuples(st.integers(-20, 20), st.integers(-20, 20), st.integers(0, 3), st.integers(1, 20)),
        min_size=1,
        max_size=25,
    )
)
def test_united_lines_cover_what_was_given_once(parts: list[tuple[int, int, int, int]]) -> None:
    ways = np.array([[1, 0], [0, 1], [1, 1], [1, -1]])
    bits = np.array([[[x, y], [x + n * ways[w][0], y + n * ways[w][1]]] for x, y, w, n in parts], dtype=float)
    cells = {(x + k * ways[w][0], y + k * ways[w][1], w) for x, y, w, n in parts for k in range(n)}
    expected = sum(float(np.hypot(*ways[w])) for _, _, w in cells)
    made = united(bits)
    assert abs(np.hypot(*(made[:, 1] - made[:, 0]).T).sum() - expected) < 1e-6
    joined = sum(float(np.hypot(*np.diff(line, axis=0).T).sum()) for line in tidy(bits))
    assert abs(joined - expected) < 1e-6


@settings(max_examples=40, deadline=None)
@given(boxes, st.tuples(*[st.integers(-5000, 5000)] * 3))
def test_a_picture_moves_with_the_piece(parts: list[tuple[int, ...]], by: tuple[int, int, int]) -> None:
    bodies = [box("A", (x, y, z), (x + a, y + b, z + c)) for x, y, z, a, b, c in parts]
    moved = [body.moved(by) for body in bodies]
    here, there = (united(visible(look(gather(group), ISOMETRIC)).points) for group in (bodies, moved))
    length = [float(np.hypot(*(bits[:, 1] - bits[:, 0]).T).sum()) for bits in (here, there)]
    assert abs(length[0] - length[1]) < 0.01 * (1 + length[0] / 100)


@settings(max_examples=40, deadline=None)
@given(boxes)
def test_adding_a_body_behind_everything_changes_nothing_in_front(parts: list[tuple[int, ...]]) -> None:
    bodies = [box("A", (x, y, z), (x + a, y + b, z + c)) for x, y, z, a, b, c in parts]
    wall = box("W", (-3000, 2000, -3000), (3000, 2010, 3000))
    alone = visible(look(gather(bodies), FRONT))
    with_wall = visible(look(gather([*bodies, wall]), FRONT))
    mine = with_wall.points[with_wall.body < len(bodies)]
    assert np.allclose(united(mine), united(alone.points))
