"""The marks as points in space with shared coordinates: what an edge, a plane or the floor says is said by sharing.

Two spots on an edge along x have one y and one z between them; spots in a plane across z have one z. So each statement
takes unknowns away instead of adding equations.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.job.marks import Arc, EdgeMark, Height, Length, Photo, Quantity, Spacing, Tube

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True)
class Slanted:
    """Pairs of points (k, 2) that lie along one direction that is no axis; its name."""

    name: str
    pairs: Ints


@dataclass(frozen=True)
class Round:
    """Points (k,) on an arc in a plane across `axis`; unknowns of its centre on the two other axes, and its radius."""

    points: Ints
    axis: int
    centre: tuple[int, int]
    radius: int

    @property
    def others(self) -> tuple[int, int]:
        """The two axes in the plane."""
        one, other = sorted({0, 1, 2} - {self.axis})
        return one, other


@dataclass(frozen=True)
class Row:
    """Unknowns (k,) in even steps: those of the coordinate along the row, of its beginning and of its step."""

    coordinates: Ints
    first: int
    step: int


@dataclass(frozen=True)
class Straight:
    """Pixels (k, 2) and sigmas (k,) of an edge of which only its straightness is known."""

    pixels: Floats
    sigmas: Floats


@dataclass(frozen=True)
class Scene:
    """Every mark of a photo.

    names: of the points in space, in order. index (n, 3): which unknown each coordinate of each point is.
    pixels (n, 2) [px], sigmas (n,) [px]. unknowns: how many there are of coordinates, radii and steps.
    lines: the points of each marked edge, by direction.
    group (unknowns,): which unknowns hang together; groups differ in how far away they are unless a length says it.
    """

    names: tuple[str, ...]
    index: Ints
    pixels: Floats
    sigmas: Floats
    unknowns: int
    lines: dict[str, list[Ints]]
    slanted: tuple[Slanted, ...]
    rounds: dict[str, Round]
    rows: dict[str, Row]
    straights: tuple[Straight, ...]
    group: Ints

    def at(self, name: str) -> int:
        """The number of a spot's point in space."""
        return self.names.index(name)

    def groups_of(self, spots: Iterable[str]) -> set[int]:
        """The groups in which spots are."""
        return {int(self.group[self.index[self.at(name), 0]]) for name in spots}


def spots_of(quantity: Quantity) -> tuple[str, ...]:
    """The spots whose places in space a quantity needs."""
    match quantity:
        case Length(start=start, finish=finish):
            return (start, finish)
        case Height(top=top, foot=foot):
            return (top, foot)
        case Spacing(spots=spots) | Arc(spots=spots):
            return spots
        case Tube(through=through):
            return (through,)


def quantities_of(photo: Photo) -> list[tuple[str, Quantity]]:
    """Every quantity with a name of its own, those known first."""
    return [*((known_name(name), one.quantity) for name, one in photo.known.items()), *photo.measures.items()]


def known_name(name: str) -> str:
    """What a known quantity is called beside those that are measured."""
    return f"known: {name}"


def edges_of(photo: Photo) -> list[EdgeMark]:
    """The edges marked, and those that quantities say."""
    return [*photo.edges, *(edge for _, quantity in quantities_of(photo) for edge in _edges_in(quantity))]


def _edges_in(quantity: Quantity) -> list[EdgeMark]:
    match quantity:
        case Length(along=str() as along):
            return [EdgeMark(along, (quantity.start, quantity.finish))]
        case Height():
            return [EdgeMark("z", (quantity.foot, quantity.top))]
        case Spacing():
            return [EdgeMark(quantity.along, quantity.spots)]
        case Tube():
            return [EdgeMark(quantity.along, side) for side in quantity.sides]
    return []
