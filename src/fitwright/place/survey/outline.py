"""The opening's outline from above: four sides and two diagonals, adjusted to one another."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from fitwright.job.model import Opening
from fitwright.place.survey.adjusting import Adjusted, adjust
from fitwright.place.survey.tape import spread_of

Floats = NDArray[np.float64]

Row = tuple[str, tuple[str, str], float, float | None]

CORNERS = ("front left", "front right", "back left", "back right")
BETWEEN = {
    "front": ("front left", "front right"),
    "back": ("back left", "back right"),
    "left": ("front left", "back left"),
    "right": ("front right", "back right"),
    "front left to back right": ("front left", "back right"),
    "front right to back left": ("front right", "back left"),
}
# Walls of rooms stand square within about a hundredth of their length: common practice. As further measurements, far
# weaker than any tape, they decide which of the lengths is the likeliest wrong one where none of them alone can.
SQUARE = 0.01
ALONG = {"width": "front", "depth": "left"}
SAME_HEIGHT_MM = 25.0  # a wall does not change within a hand's breadth of height
FREE_MM = 1e6


@dataclass(frozen=True, eq=False)
class Outline:
    """Corners (4, 2) [mm] in the order of `CORNERS`, from the lengths alone and with walls taken as nearly square.

    rows: each length with its name, its two corners and what it is known to. likely: the adjustment with nearly square
    walls, whose first rows are the same lengths.
    """

    rows: tuple[Row, ...]
    corners: Floats
    near_square: Floats
    adjusted: Adjusted
    likely: Adjusted

    @property
    def nudged(self) -> Iterator[Floats]:
        """The corners with each independent error of theirs added, one standard deviation (4, 2)."""
        for column in np.linalg.cholesky(self.adjusted.covariance).T:
            yield _places(self.adjusted.unknowns + column)


def outline(opening: Opening, within: float | None) -> Outline:
    """The outline that fits the lengths of the opening's plan best.

    A width or depth measured at the plan's own height along its front or left side counts as a length of the plan too.
    within: what lengths are known to, 19 times in 20 [mm].
    """
    assert opening.plan is not None
    plan = [(name, BETWEEN[name], length, within) for name, length in opening.plan.lengths.items()]
    again = [
        (f"the {one.what} across", BETWEEN[ALONG[one.what]], one.size, one.within or within)
        for one in opening.measures
        if one.what in ALONG and one.station == 0.0 and abs(one.at - opening.plan.at) < SAME_HEIGHT_MM
    ]
    return _outline((*plan, *again))


def without(found: Outline, name: str) -> float:
    """The length [mm] that all the others give one of the lengths."""
    rows = tuple((*row[:3], FREE_MM if row[0] == name else row[3]) for row in found.rows)
    one, other = next(row[1] for row in rows if row[0] == name)
    places = dict(zip(CORNERS, _outline(rows).near_square, strict=True))
    return float(np.hypot(*(places[one] - places[other])))


@lru_cache(maxsize=64)
def _outline(rows: tuple[Row, ...]) -> Outline:
    names = tuple(row[0] for row in rows)
    measured = np.array([row[2] for row in rows])
    spreads = np.array([spread_of(row[2], row[3]) for row in rows])
    ends = np.array([[CORNERS.index(corner) for corner in row[1]] for row in rows])
    given = dict(zip(names, measured, strict=True))
    wide, deep = (given["front"] + given["back"]) / 2, (given["left"] + given["right"]) / 2
    start = np.array([wide, 0.0, deep, wide, deep])

    def distances(unknowns: Floats) -> Floats:
        apart = _places(unknowns)[ends]
        return np.asarray(np.hypot(*(apart[:, 0] - apart[:, 1]).T))

    def with_square(unknowns: Floats) -> Floats:
        right, left_x, left_y, back_x, back_y = unknowns
        return np.append(distances(unknowns), [left_x, back_x - right, left_y - back_y])

    square = np.append(measured, np.zeros(3))
    walls = np.append(spreads, SQUARE * np.array([deep, deep, wide]))
    adjusted = adjust(distances, measured, spreads, start)
    likely = adjust(with_square, square, walls, start)
    return Outline(rows, _places(adjusted.unknowns), _places(likely.unknowns), adjusted, likely)


def _places(unknowns: Floats) -> Floats:
    """The corners (4, 2): the front left one at 0, the front line along x."""
    right, left_x, left_y, back_x, back_y = unknowns
    return np.array([[0.0, 0.0], [right, 0.0], [left_x, left_y], [back_x, back_y]])
