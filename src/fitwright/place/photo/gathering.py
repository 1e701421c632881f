"""The scene of a photo's marks, gathered mark by mark."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from fitwright.job.marks import AXES, FLOOR, STRAIGHT, Arc, EdgeMark, Height, Photo, Quantity, Spacing
from fitwright.place.photo.mistakes import MarksError
from fitwright.place.photo.scene import Ints, Round, Row, Scene, Slanted, Straight, edges_of, quantities_of, spots_of
from fitwright.place.photo.sharing import Sharing

LEAST_ON_ARC = 5
LEAST_IN_ROW = 3


def gathered(photo: Photo, click: float) -> Scene:
    """The scene of the marks; click: spread of a click where none is said [px].

    Raises MarksError when a mark names a spot or a plane that is not there, or has too few spots.
    """
    gathering = _Gathering(photo, click)
    for edge in edges_of(photo):
        gathering.edge(edge)
    for plane in photo.planes.values():
        gathering.share(AXES.index(plane.across), plane.spots)
    for name, quantity in quantities_of(photo):
        gathering.quantity(name, quantity)
    return gathering.scene()


class _Gathering:
    """Points met so far, and what they share."""

    def __init__(self, photo: Photo, click: float) -> None:
        self.photo = photo
        self.click = click
        self.sharing = Sharing()
        self.points: dict[str, int] = {}
        self.coordinates: list[list[int]] = []
        self.lines: dict[str, list[Ints]] = {}
        self.straights: list[Straight] = []
        self.rounds: dict[str, tuple[list[int], int, list[int]]] = {}
        self.rows: dict[str, tuple[list[int], list[int]]] = {}

    def point(self, spot: str) -> int:
        """The number of a spot's point, made when first met."""
        if spot not in self.points:
            self._pixel(spot)
            self.points[spot] = len(self.coordinates)
            self.coordinates.append(self.sharing.more(3))
        return self.points[spot]

    def edge(self, edge: EdgeMark) -> None:
        """Add an edge along a direction, or one that is just straight."""
        least = 3 if edge.along == STRAIGHT else 2
        _enough(edge.spots, least, f"an edge along {edge.along}")
        if edge.along == STRAIGHT:
            sigmas = np.array([self._sigma(spot) for spot in edge.spots])
            self.straights.append(Straight(np.array([self._pixel(spot) for spot in edge.spots]), sigmas))
            return
        points = [self.point(spot) for spot in dict.fromkeys(edge.spots)]
        self.lines.setdefault(edge.along, []).append(np.array(points))
        for axis in {0, 1, 2} - {AXES.index(edge.along)} if edge.along in AXES else ():
            self.share(axis, edge.spots)
        self.sharing.belong(self.coordinates[point][0] for point in points)

    def share(self, axis: int, spots: Sequence[str]) -> None:
        """Let spots have one coordinate between them."""
        numbers = [self.coordinates[self.point(spot)][axis] for spot in spots]
        for number in numbers[1:]:
            self.sharing.same(numbers[0], number)

    def quantity(self, name: str, quantity: Quantity) -> None:
        """Add what a quantity needs: its points, its arc or its row."""
        points = [self.point(spot) for spot in spots_of(quantity)]
        match quantity:
            case Height():
                floor = self.photo.planes.get(FLOOR)
                self.share(2, (*(floor.spots if floor else ()), quantity.foot))
            case Arc():
                self._arc(name, quantity, points)
            case Spacing():
                self._row(name, quantity, points)

    def scene(self) -> Scene:
        """The scene, its unknowns counted."""
        unknown, group = self.sharing.counted()
        spots = tuple(self.points)
        index = unknown[np.array(self.coordinates, dtype=np.int64).reshape(-1, 3)]
        _apart(spots, index)
        return Scene(
            names=spots,
            index=index,
            pixels=np.array([self._pixel(spot) for spot in spots]).reshape(-1, 2),
            sigmas=np.array([self._sigma(spot) for spot in spots]),
            unknowns=len(group),
            lines=self.lines,
            slanted=tuple(Slanted(name, _pairs(lines)) for name, lines in self.lines.items() if name not in AXES),
            rounds={
                name: Round(np.array(points), axis, (int(unknown[own[0]]), int(unknown[own[1]])), int(unknown[own[2]]))
                for name, (points, axis, own) in self.rounds.items()
            },
            rows={
                name: Row(unknown[np.array(along)], int(unknown[own[0]]), int(unknown[own[1]]))
                for name, (along, own) in self.rows.items()
            },
            straights=tuple(self.straights),
            group=group,
        )

    def _arc(self, name: str, arc: Arc, points: list[int]) -> None:
        _enough(arc.spots, LEAST_ON_ARC, f"the arc of {name}")
        if arc.plane not in self.photo.planes:
            known = ", ".join(self.photo.planes) or "none yet"
            raise MarksError(f"{name}: no plane is called {arc.plane!r}; planes marked: {known}")
        plane = self.photo.planes[arc.plane]
        axis = AXES.index(plane.across)
        self.share(axis, (*plane.spots, *arc.spots))
        own = self.sharing.more(3)
        self.sharing.belong((self.coordinates[points[0]][0], own[0]))
        self.rounds[name] = (points, axis, own)

    def _row(self, name: str, row: Spacing, points: list[int]) -> None:
        _enough(row.spots, LEAST_IN_ROW, f"the spacing of {name}")
        own = self.sharing.more(2)
        self.sharing.belong((self.coordinates[points[0]][0], own[0]))
        axis = AXES.index(row.along)
        self.rows[name] = ([self.coordinates[point][axis] for point in points], own)

    def _pixel(self, spot: str) -> tuple[float, float]:
        if spot not in self.photo.spots:
            raise MarksError(f"no spot is called {spot!r}: mark it under spots, or write its place as [u, v]")
        return self.photo.spots[spot].u, self.photo.spots[spot].v

    def _sigma(self, spot: str) -> float:
        return self.photo.spots[spot].click or self.click


def _apart(spots: Sequence[str], index: Ints) -> None:
    """Refuse marks by which two spots have all three coordinates between them."""
    first: dict[tuple[int, ...], str] = {}
    for spot, row in zip(spots, index.tolist(), strict=True):
        other = first.setdefault(tuple(row), spot)
        if other != spot:
            raise MarksError(
                f"by the marks {other} and {spot} are one and the same point: an edge or a plane with one of them is "
                "marked along the wrong direction"
            )


def _pairs(lines: list[Ints]) -> Ints:
    return np.array([(line[0], other) for line in lines for other in line[1:]], dtype=np.int64)


def _enough(spots: Sequence[str], least: int, what: str) -> None:
    different = len(set(spots))
    if different < least:
        raise MarksError(f"{what} is marked at {different} different spots: mark {least} or more along it")
