"""Worked values of single-view measuring.

Focal length from two orthogonal vanishing points and the orthocentre of three: B. Caprile and V. Torre, "Using
vanishing points for camera calibration", IJCV 4 (1990), 127-139 (citation from memory). Heights over the floor from the
horizon and the vertical vanishing point: A. Criminisi, I. Reid and A. Zisserman, "Single view metrology", IJCV 40
(2000), 123-148. The numbers here are derived from the pinhole model itself, with the camera given beside them. Size
against depth: similar triangles.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pytest
from numpy.typing import NDArray

from fitwright.job.marks import EdgeMark, Height, Known, Length, LensMark, Photo, PlaneMark, Spot
from fitwright.place.photo import Solved, solve

Floats = NDArray[np.float64]

SIZE = (1601, 1201)
CENTRE = (800.0, 600.0)
FINE_PX = 0.02

X_POINT, Y_POINT, Z_POINT = (3413.107, 388.408), (231.799, 388.408), (800.0, 7405.538)
"""Vanishing points of a camera of focal length 1200 px, centre (800, 600), turned 25 and looking down 10 degrees."""


def toward(
    point: Sequence[float], starts: Sequence[tuple[float, float]], along: str, to: dict[str, Spot]
) -> list[EdgeMark]:
    """Edges from places on the picture toward a vanishing point, half the picture long or so."""
    edges = []
    for k, start in enumerate(starts):
        gap = np.array(point) - start
        end = np.array(start) + gap * min(0.5, 500 / float(np.linalg.norm(gap)))
        names = (f"{along}{k}", f"{along}{k}'")
        to[names[0]] = Spot(*start, click=FINE_PX)
        to[names[1]] = Spot(float(end[0]), float(end[1]), click=FINE_PX)
        edges.append(EdgeMark(along, names))
    return edges


def solved_from(
    points: dict[str, tuple[float, float]], starts: Sequence[tuple[float, float]], lens: LensMark
) -> Solved:
    spots: dict[str, Spot] = {}
    edges = [edge for along, point in points.items() for edge in toward(point, starts, along, spots)]
    return solve(Photo(spots=spots, edges=tuple(edges), lens=lens), SIZE)


STARTS = [(500.0, 200.0), (900.0, 1000.0), (1200.0, 500.0), (300.0, 800.0)]


def test_focal_length_from_two_vanishing_points() -> None:
    """v1 (2000, 500), v2 (-560, 500), centre (800, 600): f^2 = -((x1-cx)(x2-cx) + (y1-cy)(y2-cy)), f = 1273.578 px."""
    lens = LensMark(centre=CENTRE, barrel=0.0)
    solved = solved_from({"x": (2000, 500), "y": (-560, 500)}, STARTS, lens)
    assert solved.estimate.state.lens.focal == pytest.approx(1273.578, rel=2e-3)


def test_three_vanishing_points_give_the_centre_too() -> None:
    """The orthocentre of their triangle: nothing is told of the centre but what is usual."""
    solved = solved_from({"x": X_POINT, "y": Y_POINT, "z": Z_POINT}, STARTS, LensMark(barrel=0.0))
    lens = solved.estimate.state.lens
    assert lens.focal == pytest.approx(1200, rel=3e-3)
    assert lens.centre == pytest.approx(CENTRE, abs=4)


def test_the_camera_of_three_vanishing_points_looks_down_ten_degrees_from_twenty_five() -> None:
    solved = solved_from({"x": X_POINT, "y": Y_POINT, "z": Z_POINT}, STARTS, LensMark(centre=CENTRE, barrel=0.0))
    right, _, forward = solved.estimate.state.rotation
    assert np.degrees(np.arcsin(-forward[2])) == pytest.approx(10, abs=0.1)
    assert np.degrees(np.arctan2(forward[0], forward[1])) == pytest.approx(25, abs=0.1)
    assert right[2] == pytest.approx(0, abs=2e-3)


def test_height_of_an_object_from_a_post_on_the_same_floor() -> None:
    """A post of 864 mm at (500, 0) and an object of 1016 mm at (1500, 800), camera at (0, -3000, 1500)."""
    places = {
        "foot": (489.262, 969.354),
        "top": (473.702, 647.064),
        "base": (730.833, 815.814),
        "tip": (727.857, 532.252),
    }
    spots = {name: Spot(*place, click=FINE_PX) for name, place in places.items()}
    edges = [
        edge
        for along, point in {"x": X_POINT, "y": Y_POINT, "z": Z_POINT}.items()
        for edge in toward(point, STARTS, along, spots)
    ]
    photo = Photo(
        spots=spots,
        edges=tuple(edges),
        planes={"floor": PlaneMark("z", ("foot", "base"))},
        known={"post": Known(Height("top", "foot"), 864, 0.1)},
        measures={"object": Height("tip", "base"), "apart": Length("foot", "base", across="x")},
        lens=LensMark(centre=CENTRE, barrel=0.0),
    )
    solved = solve(photo, SIZE)
    assert solved.by_name["object"].value == pytest.approx(1016, abs=0.5)
    assert solved.by_name["object"].plus_minus == pytest.approx(0.5, abs=0.4)
    assert solved.by_name["apart"].value == pytest.approx(1000, rel=2e-3)


def test_width_taken_in_another_plane_is_wrong_by_the_depth() -> None:
    """100 mm nearer than the plane measured, 3000 mm away: 3.45 % too large (3000 / 2900); in its own plane right."""
    focal = 1200.0

    def seen(x: float, y: float, z: float) -> Spot:
        return Spot(800 + focal * x / y, 600 - focal * z / y, click=FINE_PX)

    corners = {"a": (-500, 3000, -400), "b": (500, 3000, -400), "c": (500, 3000, 400), "d": (-500, 3000, 400)}
    near = {"p": (-200, 2900, 0), "q": (200, 2900, 0), "r": (500, 2900, -400)}
    spots = {name: seen(*map(float, place)) for name, place in {**corners, **near}.items()}
    edges = [EdgeMark("x", ("a", "b")), EdgeMark("x", ("d", "c")), EdgeMark("z", ("a", "d")), EdgeMark("z", ("b", "c"))]
    known = {"width": Known(Length("a", "b"), 1000, 0.1)}
    lens = LensMark(focal=focal, centre=CENTRE, barrel=0.0)

    def measured(plane: PlaneMark, more: list[EdgeMark]) -> float:
        photo = Photo(
            spots=spots, edges=(*edges, *more), planes={"plane": plane}, known=known, lens=lens,
            measures={"rail": Length("p", "q")},
        )  # fmt: skip
        return solve(photo, SIZE).by_name["rail"].value or 0.0

    assert measured(PlaneMark("y", ("a", "p", "q")), []) == pytest.approx(400 * 3000 / 2900, rel=2e-4)
    assert measured(PlaneMark("y", ("r", "p", "q")), [EdgeMark("y", ("b", "r"))]) == pytest.approx(400, rel=5e-3)
