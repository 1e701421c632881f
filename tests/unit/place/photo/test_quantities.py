"""Quantities of points whose places are put in by hand."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.job.marks import EdgeMark, Height, Length, Photo, PlaneMark, Quantity, Spacing, Spot, Tube
from fitwright.place.photo.gathering import gathered
from fitwright.place.photo.lens import Lens
from fitwright.place.photo.quantities import valued
from fitwright.place.photo.unknowns import CAMERA, State, Unknowns

NAMES = ("a", "b", "c", "d", "e")


def state(places: dict[str, tuple[float, float, float]], photo: Photo) -> State:
    scene = gathered(photo, 1.0)
    unknowns = Unknowns(scene, Lens(640, 480, 500, (320, 240)), np.eye(3))
    row = np.zeros(unknowns.size)
    for name, place in places.items():
        row[CAMERA + scene.index[scene.at(name)]] = place
    for one in scene.slanted:
        row[unknowns.slant(one.name)] = (0.6, 0.0, 0.8)
    return unknowns.state(row)


def value(quantity: Quantity, edges: tuple[EdgeMark, ...] = (), **places: tuple[float, float, float]) -> float:
    spots = {name: Spot(10.0 * k, 7.0 * k * k) for k, name in enumerate(NAMES)}
    plane = {"front": PlaneMark("y", ("e",))}
    return valued(
        "q", quantity, state(places, Photo(spots=spots, edges=edges, planes=plane, measures={"q": quantity}))
    )[0]


def test_lengths() -> None:
    a, b = (100.0, 3000.0, 200.0), (400.0, 3400.0, 200.0)
    assert value(Length("a", "b"), a=a, b=b) == pytest.approx(500)
    assert value(Length("a", "b", across="x"), a=a, b=b) == 300
    assert value(Length("b", "a", across="y"), a=a, b=b) == 400


def test_along_a_slant() -> None:
    brace = EdgeMark("brace", ("a", "b"))
    assert value(Length("b", "a", along="brace"), (brace,), a=(0, 3000, 0), b=(60, 3000, 80)) == pytest.approx(100)


def test_height_is_from_the_foot() -> None:
    assert value(Height("a", "b"), a=(5, 3000, 700), b=(5, 3000, -200)) == 900


def test_a_step_is_never_negative() -> None:
    row = Photo(
        spots={name: Spot(k, k * k) for k, name in enumerate(NAMES)}, measures={"q": Spacing(("a", "b", "c"), "z")}
    )
    one = state({}, row)
    one.row[CAMERA + one.unknowns.scene.rows["q"].step] = -150.0
    found, gradient = valued("q", row.measures["q"], one.unknowns.state(one.row))
    assert found == 150
    assert gradient.sum() == -1


def test_a_tube_between_its_tangents() -> None:
    """Middle line 1000 mm away, outlines 30 degrees to each side: a radius of 1000 sin 30, 500 mm."""
    s, c = np.sin(np.radians(30)), np.cos(np.radians(30))
    tube = Tube((("a", "b"), ("c", "d")), "z", "e")
    near, far = (-s, c, 0.0), (2 * s, 2 * c, 0.5)
    assert value(tube, a=near, b=near, c=far, d=far, e=(0.0, 1000.0, 77.0)) == pytest.approx(1000)
