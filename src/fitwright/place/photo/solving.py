"""A photo's marks worked out: the camera, every measure with its plus or minus, what is doubtful, what would help."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.job.marks import Known, Photo, Quantity
from fitwright.place.photo.estimate import Estimate, estimated
from fitwright.place.photo.gathering import gathered
from fitwright.place.photo.mistakes import MarksError
from fitwright.place.photo.scene import Scene, known_name, spots_of
from fitwright.place.photo.usual import expected, usual_click

Floats = NDArray[np.float64]

TINY = 1e-9
LIKELY = 1.96
"""Spreads on each side that hold 95 of 100, for what is spread as a normal distribution."""


@dataclass(frozen=True)
class Measured:
    """A measure and its plus or minus (95 %).

    value, plus_minus: [mm]; both None where no known length hangs together with its spots.
    share, share_plus_minus: as a part of the first measure that hangs together with it, known without any length.
    """

    name: str
    quantity: Quantity
    value: float | None
    plus_minus: float | None
    share: float
    share_plus_minus: float
    share_of: str


@dataclass(frozen=True)
class Solved:
    """What a photo says. ignored: names of known lengths that could not be used."""

    photo: Photo
    size: tuple[int, int]
    estimate: Estimate
    measures: tuple[Measured, ...]
    ignored: tuple[str, ...] = ()

    @property
    def by_name(self) -> dict[str, Measured]:
        """The measures by name."""
        return {one.name: one for one in self.measures}

    def spread(self, unknown: int) -> float:
        """One standard deviation of an unknown of the camera."""
        return float(np.sqrt(self.estimate.covariance[unknown, unknown]))


def solve(photo: Photo, size: tuple[int, int], exif_35mm: float | None = None, before: Solved | None = None) -> Solved:
    """Work out a photo of a size (width, height) [px].

    exif_35mm: the focal length that its own data say [mm on 35 mm film]. before: the same photo before a mark was
    moved, from which a new answer comes in some milliseconds.

    Raises MarksError when nothing is marked or a mark names what is not there.
    """
    scene = gathered(photo, photo.click or usual_click(*size))
    if not (scene.names or scene.straights):
        raise MarksError(
            "nothing is marked on the photo: mark edges that are parallel in reality, and one known length"
        )
    used = {name: one for name, one in photo.known.items() if len(scene.groups_of(spots_of(one.quantity))) == 1}
    known = [(known_name(name), one) for name, one in used.items()]
    estimate = estimated(scene, expected(photo, *size, exif_35mm), size, known, before.estimate if before else None)
    measures = _measures(photo, scene, estimate, used)
    return Solved(photo, size, estimate, measures, tuple(name for name in photo.known if name not in used))


def _measures(photo: Photo, scene: Scene, estimate: Estimate, used: dict[str, Known]) -> tuple[Measured, ...]:
    scaled = {group for one in used.values() for group in scene.groups_of(spots_of(one.quantity))}
    firsts: dict[frozenset[int], tuple[str, float, Floats]] = {}
    found = []
    for name, quantity in photo.measures.items():
        value, sigma, gradient = estimate.value(name, quantity)
        groups = frozenset(scene.groups_of(spots_of(quantity)))
        first = firsts.setdefault(groups, (name, value, gradient))
        share, spread = _share(value, gradient, first, estimate)
        is_scaled = groups <= scaled
        found.append(
            Measured(
                name, quantity,
                value if is_scaled else None, LIKELY * sigma if is_scaled else None,
                share, LIKELY * spread, first[0],
            )
        )  # fmt: skip
    return tuple(found)


def _share(value: float, gradient: Floats, first: tuple[str, float, Floats], estimate: Estimate) -> tuple[float, float]:
    """A measure as a part of another, and its spread; what both have in common drops out."""
    _, whole, of_whole = first
    whole = max(whole, TINY)
    part = value / whole
    rates = gradient / whole - part * of_whole / whole
    return part, float(np.sqrt(max(float(rates @ estimate.covariance @ rates), 0.0)))
