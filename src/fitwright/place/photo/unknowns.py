"""All that is unknown about a picture in one row of numbers, and the same as camera, points and directions."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fitwright.job.marks import AXES
from fitwright.place.photo.lens import Lens
from fitwright.place.photo.scene import Scene
from fitwright.place.photo.turning import turn

Floats = NDArray[np.float64]

LOG_FOCAL, CENTRE, BARREL, TURN, CAMERA = 0, slice(1, 3), 3, slice(4, 7), 7
LOG_FOCAL_BOUNDS = (-20.0, 20.0)
"""Beyond any lens [log px]: only there so that a step gone astray has a number."""


@dataclass(frozen=True)
class Start:
    """Where the fit begins. rotation (3, 3): from the directions of the piece to right, down and forward of the camera.

    coordinates (unknowns,) [mm]; slants (k, 3) unit directions of the piece; straights: per edge its angle [rad], its
    distance from the middle and the places along it, on the plane at distance 1 before the camera.
    """

    lens: Lens
    rotation: Floats
    coordinates: Floats
    slants: Floats
    straights: tuple[Floats, ...]


@dataclass(frozen=True)
class Unknowns:
    """The row of numbers: the camera's seven (log of focal length, centre [half diagonals], barrel, turn [rad] from the
    rotation of the start), the coordinates, the directions that are no axes, the straight edges."""

    scene: Scene
    lens: Lens
    rotation: Floats

    @property
    def coordinates(self) -> slice:
        """Where the coordinates, radii and steps are."""
        return slice(CAMERA, CAMERA + self.scene.unknowns)

    def slant(self, name: str) -> slice:
        """Where a direction that is no axis is."""
        number = [one.name for one in self.scene.slanted].index(name)
        first = CAMERA + self.scene.unknowns + 3 * number
        return slice(first, first + 3)

    @cached_property
    def straights(self) -> tuple[slice, ...]:
        """Where each straight edge is: angle, distance, places along it."""
        first, found = CAMERA + self.scene.unknowns + 3 * len(self.scene.slanted), []
        for straight in self.scene.straights:
            found.append(slice(first, first + 2 + len(straight.sigmas)))
            first = found[-1].stop
        return tuple(found)

    @property
    def size(self) -> int:
        """How many numbers there are."""
        first = CAMERA + self.scene.unknowns + 3 * len(self.scene.slanted)
        return first + sum(2 + len(straight.sigmas) for straight in self.scene.straights)

    def row(self, start: Start) -> Floats:
        """The row of numbers (size,) of a start with this rotation."""
        middle = np.array([(start.lens.width - 1) / 2, (start.lens.height - 1) / 2])
        centre = (np.array(start.lens.centre) - middle) / start.lens.half_diagonal
        camera = np.array([np.log(start.lens.focal), *centre, start.lens.barrel, 0.0, 0.0, 0.0])
        return np.concatenate([camera, start.coordinates, start.slants.ravel(), *start.straights])

    def state(self, row: Floats) -> State:
        """The same as camera, points and directions."""
        return State(self, row)


@dataclass(frozen=True)
class State:
    """One row of numbers, read."""

    unknowns: Unknowns
    row: Floats

    @cached_property
    def lens(self) -> Lens:
        """The lens."""
        width, height = self.unknowns.lens.width, self.unknowns.lens.height
        half = self.unknowns.lens.half_diagonal
        centre = (
            float((width - 1) / 2 + half * self.row[CENTRE][0]),
            float((height - 1) / 2 + half * self.row[CENTRE][1]),
        )
        focal = float(np.exp(np.clip(self.row[LOG_FOCAL], *LOG_FOCAL_BOUNDS)))
        return Lens(width, height, focal, centre, float(self.row[BARREL]))

    @cached_property
    def rotation(self) -> Floats:
        """From the directions of the piece to those of the camera (3, 3)."""
        return turn(self.row[TURN]) @ self.unknowns.rotation

    @cached_property
    def coordinates(self) -> Floats:
        """Coordinates, radii and steps (unknowns,) [mm]."""
        return self.row[self.unknowns.coordinates]

    @cached_property
    def points(self) -> Floats:
        """Points (n, 3) in directions of the piece, from the camera [mm]."""
        points: Floats = self.coordinates[self.unknowns.scene.index]
        return points

    def direction(self, name: str) -> Floats:
        """A direction (3,) of the piece; not quite of length 1 for one that is no axis."""
        return np.eye(3)[AXES.index(name)] if name in AXES else self.row[self.unknowns.slant(name)]
