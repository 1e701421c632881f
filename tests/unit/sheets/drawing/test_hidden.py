"""Hidden edges against cases whose answer is known in closed form."""

from __future__ import annotations

from math import asin, pi

import numpy as np
import pytest
from numpy.typing import NDArray

from fitwright.sheets.drawing.directions import FRONT, ISOMETRIC, RIGHT, TOP, Direction
from fitwright.sheets.drawing.hidden import exposed, look, visible
from fitwright.sheets.drawing.lines import tidy, united
from fitwright.sheets.drawing.solids import gather
from tests.unit.sheets.drawing.shapes import Shape, box, rack, ring, rounded, tube

Floats = NDArray[np.float64]


def seen(bodies: list[Shape], direction: Direction, body: int | None = None) -> Floats:
    """Bits (k, 2, 2) seen, of one body or of all, coincident ones united."""
    found = visible(look(gather(bodies), direction))
    return united(found.points if body is None else found.points[found.body == body])


def lengths(bits: Floats) -> float:
    return float(np.hypot(*(bits[:, 1] - bits[:, 0]).T).sum())


def level_at(bits: Floats, height: float) -> list[tuple[float, float]]:
    """Spans of the level bits at a height."""
    flat = bits[np.all(np.abs(bits[:, :, 1] - height) < 1e-6, axis=1)]
    return sorted((float(x.min()), float(x.max())) for x in flat[:, :, 0])


def turned_about(axis: int, angle: float) -> Floats:
    c, s = np.cos(angle), np.sin(angle)
    i, j = [k for k in range(3) if k != axis]
    matrix = np.eye(3)
    matrix[i, i], matrix[i, j], matrix[j, i], matrix[j, j] = c, -s, s, c
    return matrix


def test_cube_behind_cube() -> None:
    front, behind = box("A", (0, 0, 0), (100, 100, 100)), box("B", (50, 200, 30), (250, 300, 70))
    bits = seen([front, behind], FRONT, 1)
    assert level_at(bits, 30) == [pytest.approx((100, 250))]
    assert level_at(bits, 70) == [pytest.approx((100, 250))]
    assert lengths(bits) == pytest.approx(150 + 150 + 40)
    assert lengths(seen([front, behind], FRONT, 0)) == pytest.approx(400)
    assert lengths(seen([front, behind], FRONT)) == pytest.approx(740)


def test_order_of_the_bodies_does_not_matter() -> None:
    front, behind = box("A", (0, 0, 0), (100, 100, 100)), box("B", (50, 200, 30), (250, 300, 70))
    assert lengths(seen([behind, front], FRONT)) == pytest.approx(740)


def test_tube_in_front_of_a_board_hides_its_own_diameter() -> None:
    board = box("B", (-100, 50, 20), (200, 70, 80))
    post = tube("T", np.array([[50.0, 0, 0], [50, 0, 200]]), od=20)
    bits = seen([board, post], FRONT, 0)
    for height in (20, 80):
        assert level_at(bits, height) == [pytest.approx((-100, 40)), pytest.approx((60, 200))]
    outline = seen([board, post], FRONT, 1)
    assert lengths(outline) == pytest.approx(2 * 200 + 2 * 20)


def test_board_in_front_of_a_tube() -> None:
    board = box("B", (0, -50, 50), (100, -30, 120))
    post = tube("T", np.array([[50.0, 0, 0], [50, 0, 200]]), od=20)
    bits = seen([board, post], FRONT, 1)
    plumb = bits[np.abs(bits[:, 0, 0] - bits[:, 1, 0]) < 1e-6]
    spans = sorted((float(z.min()), float(z.max())) for z in plumb[:, :, 1])
    assert spans == [pytest.approx(s) for s in ((0, 50), (0, 50), (120, 200), (120, 200))]


def test_slanting_board_is_hidden_only_where_it_goes_behind() -> None:
    # a thin board that dives through the plane y = 0 of the big one's front at x = 150
    wall = box("W", (0, 0, 0), (300, 40, 100))
    t = np.arctan2(100, 100)
    stick = box("S", (-200, -2, 40), (200, 2, 60)).turned(turned_about(2, t)).moved((150, 0, 0))
    bits = seen([wall, stick], FRONT, 1)
    (span,) = [s for s in level_at(bits, 60) if s[1] - s[0] > 20]
    # it begins at the far corner of its end, which faces us;
    # the stick's near face, 2 mm off its middle, meets y = 0 at x = 150 + 2 sqrt(2), and an edge counts as on a face
    # until it is 0.25 behind it
    assert span[0] == pytest.approx(150 - 200 * np.cos(t) - 2 * np.sin(t), abs=0.01)
    assert span[1] == pytest.approx(150 + 2 * 2**0.5, abs=0.4)


def test_linked_rings() -> None:
    lying = ring("L", 100, 20)
    standing = ring("S", 100, 20).turned(turned_about(0, pi / 2)).moved((100, 0, 0))
    above = seen([lying, standing], TOP, 0)
    # the upper half of the standing ring covers the lying one where it is within 10 of the x axis, on one side
    expected = sum(2 * pi * r - 2 * r * asin(10 / r) for r in (90, 110))
    assert lengths(above) == pytest.approx(expected, rel=0.003)
    front = seen([lying, standing], FRONT, 1)
    # the near half of the lying ring passes before the standing one at x = 0 and nowhere else
    near = front.reshape(-1, 2)
    assert not np.any((np.abs(near[:, 1]) < 9.9) & (near[:, 0] < 50))
    assert np.any((np.abs(near[:, 1]) < 9.9) & (near[:, 0] > 150))
    whole = sum(2 * pi * r - 2 * r * asin(10 / r) for r in (90, 110))
    assert lengths(front) == pytest.approx(whole, rel=0.003)


@pytest.mark.parametrize("turn", [0.0, 0.3, 1.1, 2.5])
@pytest.mark.parametrize("direction", [FRONT, RIGHT, TOP, ISOMETRIC], ids=lambda d: d.name)
def test_every_edge_that_faces_us_of_one_convex_body_is_seen(turn: float, direction: Direction) -> None:
    body = box("A", (0, 0, 0), (120, 70, 40)).turned(turned_about(2, turn) @ turned_about(0, turn / 2))
    towards = direction.frame[2]
    edges = body.vertices[body.edges]
    corners = body.vertices[body.faces]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    facing = normals @ towards > 1e-6 * np.linalg.norm(normals, axis=1)
    on_face = np.array([[sum(v in face for v in edge) == 2 for face in body.faces] for edge in body.edges])
    wanted = edges[(on_face & facing).any(axis=1)]
    flat = direction.flat(wanted)
    assert lengths(seen([body], direction)) == pytest.approx(lengths(united(flat)), abs=1e-6)


@pytest.mark.parametrize("direction", [FRONT, RIGHT, TOP, ISOMETRIC], ids=lambda d: d.name)
def test_moving_everything_moves_the_picture(direction: Direction) -> None:
    bodies = rack(shelves=2, slats=3)
    by = (1234.5, -876.25, 333.125)
    here = seen(bodies, direction)
    there = seen([body.moved(by) for body in bodies], direction) - direction.flat(np.array(by))
    assert lengths(there) == pytest.approx(lengths(here), abs=0.5)
    assert np.abs(there.reshape(-1, 2).min(axis=0) - here.reshape(-1, 2).min(axis=0)).max() < 1e-6


@pytest.mark.parametrize("turn", np.linspace(0, 2 * pi, 9)[:-1])
def test_the_outline_of_a_bent_tube_does_not_break_up(turn: float) -> None:
    path = rounded([(0, 0, 0), (0, 0, 500), (400, 0, 500), (400, 0, 0)], 100, step_deg=9)
    body = tube("A", path, od=28, sides=28).turned(turned_about(2, turn) @ turned_about(0, 0.4))
    lines = tidy(visible(look(gather([body]), ISOMETRIC)).points)
    size = [float(np.hypot(*np.diff(line, axis=0).T).sum()) for line in lines]
    # two outlines, the rims of the ends outside and in, and here and there a cusp where a bend turns away
    assert len(lines) <= 16
    assert sum(s for s in size if s < 3.0) < 6.0


def test_touching_faces_stay_drawn() -> None:
    # a foot of a post standing on a base: the edge they share is seen from the front
    base, post = box("B", (0, 0, 0), (200, 100, 20)), box("P", (50, 0, 20), (100, 50, 220))
    assert level_at(seen([base, post], FRONT), 20) == [pytest.approx((0, 200))]


def test_exposed_points() -> None:
    front, behind = box("A", (0, 0, 0), (100, 100, 100)), box("B", (50, 200, 30), (250, 300, 70))
    view = look(gather([front, behind]), FRONT)
    points = np.array([[50.0, 0, 50], [60, 200, 50], [150, 200, 50], [150, 300, 50]])
    assert exposed(view, points, np.array([0, 1, 1, 1])).tolist() == [True, False, True, False]
