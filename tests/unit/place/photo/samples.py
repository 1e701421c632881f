"""Pictures made up: a camera whose every number is known, a box-like piece before it, and clicks on its corners."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from fitwright.job.marks import EdgeMark, Known, Length, Photo, Quantity, Spot
from fitwright.place.photo.lens import Lens
from fitwright.place.photo.usual import DIAGONAL_35MM

Floats = NDArray[np.float64]

SIZE = (1600, 1200)
MARGIN = 20
TAPE_MM = 0.3


@dataclass(frozen=True)
class Camera:
    """A lens, which way it looks (rows right, down, forward) and where it stands [mm]."""

    lens: Lens
    rotation: Floats
    eye: Floats

    def sees(self, points: Floats) -> Floats:
        """Pixels (n, 2) of points (n, 3) [mm]."""
        return self.lens.drawn((np.atleast_2d(points) - self.eye) @ self.rotation.T)


def looking(eye: Floats, aim: Floats, roll: float = 0.0) -> Floats:
    """The rotation of a camera at one point that looks at another."""
    forward = (aim - eye) / np.linalg.norm(aim - eye)
    right = np.cross(forward, [0.0, 0.0, 1.0])
    right /= np.linalg.norm(right)
    down = np.cross(forward, right)
    c, s = np.cos(roll), np.sin(roll)
    return np.array([c * right + s * down, c * down - s * right, forward])


def camera(
    eye: tuple[float, float, float] = (2200, -2400, 1700),
    aim: tuple[float, float, float] = (400, 300, 450),
    film: float = 30.0,
    barrel: float = -0.04,
    centre: tuple[float, float] = (803, 595),
    roll: float = 0.01,
) -> Camera:
    focal = film / DIAGONAL_35MM * float(np.hypot(*SIZE))
    return Camera(Lens(*SIZE, focal, centre, barrel), looking(np.array(eye), np.array(aim), roll), np.array(eye))


def corners(size: tuple[float, float, float]) -> Floats:
    """The eight corners (8, 3) of a box, x the fastest."""
    x, y, z = size
    return np.array([[i * x, j * y, k * z] for k in (0, 1) for j in (0, 1) for i in (0, 1)])


@dataclass
class Clicks:
    """Clicks on what a camera sees, each off by chance."""

    camera: Camera
    chance: np.random.Generator
    noise: float = 0.0
    stated: float = 0.5

    def __call__(self, point: Floats, place: tuple[float, float, float] | None = None) -> Spot:
        u, v = self.camera.sees(point)[0] + self.noise * self.chance.standard_normal(2)
        return Spot(float(u), float(v), click=self.stated, place=place)


def box_photo(
    clicks: Clicks,
    size: tuple[float, float, float],
    between: int = 3,
    measures: dict[str, Quantity] | None = None,
) -> Photo:
    """A box with its nine visible edges marked, `between` spots along each; its width (c0 to c1 or above it) known."""
    at = corners(size)
    hidden = int(np.argmax(np.linalg.norm(at[:4] - clicks.camera.eye, axis=1)))
    spots = {f"c{k}": clicks(point) for k, point in enumerate(at) if k != hidden}
    edges = []
    for a, b in combinations(range(8), 2):
        differs = np.abs(at[a] - at[b]) > 0
        if differs.sum() == 1 and hidden not in (a, b):
            along = [f"m{a}{b}.{k}" for k in range(between)]
            for k, name in enumerate(along, 1):
                spots[name] = clicks(at[a] + (at[b] - at[a]) * k / (between + 1))
            edges.append(EdgeMark("xyz"[int(differs.argmax())], (f"c{a}", *along, f"c{b}")))
    tape = size[0] + TAPE_MM * float(clicks.chance.standard_normal()) * (clicks.noise > 0)
    known = {"width": Known(Length("c4", "c5", along="x"), tape, TAPE_MM)}
    upright = next((edge.spots[0], edge.spots[-1]) for edge in edges if edge.along == "z")
    usual: dict[str, Quantity] = {
        "depth": Length("c4", "c6", along="y"),
        "height": Length(*upright, along="z"),
        "diagonal": Length("c4", "c7"),
    }
    return Photo(size=SIZE, spots=spots, edges=tuple(edges), known=known, measures=measures or usual)


def random_camera(chance: np.random.Generator, size: tuple[float, float, float]) -> Camera:
    """A camera in a hand before a piece: 24 to 50 mm, 2 to 4.5 m away, seen from a corner, all of the piece in view."""
    middle = np.array(size) / 2
    while True:
        around = np.radians(chance.uniform(20, 70)) * chance.choice([-1, 1])
        away = chance.uniform(2000, 4500)
        eye = np.array(
            [middle[0] + away * np.sin(around), middle[1] - away * np.cos(around), chance.uniform(1300, 2000)]
        )
        aim = middle + chance.normal(size=3) * 60
        one = Camera(
            Lens(
                *SIZE,
                chance.uniform(24, 50) / DIAGONAL_35MM * float(np.hypot(*SIZE)),
                (799.5 + float(chance.normal()) * 20, 599.5 + float(chance.normal()) * 20),
                chance.uniform(-0.12, 0.02),
            ),
            looking(eye, aim, float(chance.normal()) * np.radians(2)),
            eye,
        )
        seen = one.sees(corners(size))
        inside = np.isfinite(seen).all() and (seen > MARGIN).all() and (seen < np.array(SIZE) - MARGIN).all()
        if inside and np.ptp(seen[:, 1]) > 0.3 * SIZE[1]:
            return one


def random_size(chance: np.random.Generator) -> tuple[float, float, float]:
    return float(chance.uniform(400, 1200)), float(chance.uniform(300, 800)), float(chance.uniform(600, 1200))
