"""The place round the piece as lines: floor, walls as surveyed, neighbours."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from fitwright.assess import Assessment
from fitwright.job.model import Neighbour, Opening
from fitwright.place.walls import Walls

Floats = NDArray[np.float64]

BESIDE = 0.25
"""How much of a neighbour is drawn, as a share of the opening's width."""


def place_lines(assessment: Assessment) -> dict[str, Floats]:
    """Line segments (k, 2, 3) [mm] in the piece's own coordinates, by what they show; empty without a survey."""
    fit, opening = assessment.fit, assessment.job.space.opening
    if fit is None or opening is None:
        return {}
    box = assessment.piece.envelope
    walls = Walls(opening, float(box.swept_high[2]))
    shift = np.array([*fit.shift, 0.0])
    depth = float(walls.back(np.zeros(1))[0]) if opening.depths else float(box.swept_high[1] + shift[1])
    drawn = {"walls": [*_walls(walls, opening, depth)]}
    for neighbour in assessment.job.space.neighbours:
        drawn[neighbour.name] = [*_neighbour(neighbour, walls, opening, depth)]
    return {name: np.array(lines) - shift for name, lines in drawn.items() if lines}


def _walls(walls: Walls, opening: Opening, depth: float) -> Iterator[list[tuple[float, float, float]]]:
    """The uprights at front and back of each side, the floor, and the top where it was measured."""
    if not opening.widths:
        return
    heights = walls.heights
    left, right = walls.sides(heights)
    behind = walls.back(heights) if opening.depths else np.full(len(heights), depth)
    for side in (left, right):
        for back in (np.zeros(len(heights)), behind):
            yield from _run([(float(x), float(y), float(z)) for x, y, z in zip(side, back, heights, strict=True)])
    for level in (0, -1):
        corners = [
            (float(left[level]), 0.0),
            (float(left[level]), float(behind[level])),
            (float(right[level]), float(behind[level])),
            (float(right[level]), 0.0),
        ]
        closed = [*corners, corners[0]] if level == 0 else corners
        yield from _run([(x, y, float(heights[level])) for x, y in closed])


def _neighbour(
    neighbour: Neighbour, walls: Walls, opening: Opening, depth: float
) -> Iterator[list[tuple[float, float, float]]]:
    """The outline of what stands beside the opening, its near part only."""
    if not opening.widths or neighbour.side not in ("left", "right"):
        return
    left, right = (float(side[0]) for side in walls.sides(np.zeros(1)))
    reach = BESIDE * (right - left)
    near, far = (left, left - reach) if neighbour.side == "left" else (right, right + reach)
    high, deep = neighbour.height or float(walls.full), neighbour.depth or depth
    front = depth - deep
    for y in (front, depth):
        yield from _run([(far, y, 0.0), (near, y, 0.0), (near, y, high), (far, y, high)])
    for z in (0.0, high):
        yield [(near, front, z), (near, depth, z)]


def _run(points: list[tuple[float, float, float]]) -> Iterator[list[tuple[float, float, float]]]:
    for one, other in pairwise(points):
        yield [one, other]
