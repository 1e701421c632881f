"""The place round the piece as lines: floor, walls as surveyed, neighbours, things, doors all the way open."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from fitwright.assess import Assessment
from fitwright.job.model import Door, Neighbour
from fitwright.place.outline import piece_edges
from fitwright.place.space import set_in
from fitwright.place.swinging import leaf, way_of
from fitwright.place.things import box_of
from fitwright.place.walls import Walls

Floats = NDArray[np.float64]
Point = tuple[float, float, float]
Line = list[Point]

BESIDE = 0.25
"""How much of a neighbour is drawn, as a share of the opening's width."""


def place_lines(assessment: Assessment) -> dict[str, Floats]:
    """Line segments (k, 2, 3) [mm] in the piece's own coordinates, by what they show; empty without a survey."""
    space, opening, edges = assessment.job.space, assessment.job.space.opening, piece_edges(assessment.sketch.piece)
    if opening is None or not (opening.widths or opening.depths or opening.tops or opening.plan):
        return {}
    walls = Walls(opening, float(edges[..., 2].max()), space.skirting, space.within)
    found, stands = set_in(assessment.job, assessment.sketch.piece, walls, edges)
    turn, raised = (np.eye(3), 0.0) if stands is None else (stands.turn, stands.raised)
    move = np.array([*found.shift, raised])
    depth = float(walls.back(np.zeros(1))[0]) if walls.depths else float(edges[..., 1].max() + move[1])
    drawn = {"walls": [*_walls(walls, depth)]}
    for neighbour in space.neighbours:
        drawn[neighbour.name] = [*_neighbour(neighbour, walls, depth)]
    for thing in space.things:
        box = box_of(thing, walls)
        drawn[thing.name] = [] if box is None else [*_box(*box)]
    for door in space.doors:
        drawn[door.name] = [*_door(door)]
    # a floor out of level turns and raises the piece: here the place is turned the other way round it
    return {name: (np.array(lines) - move) @ turn for name, lines in drawn.items() if lines}


def _walls(walls: Walls, depth: float) -> Iterator[Line]:
    """The uprights at front and back of each side, the floor, and the top where it was measured."""
    if not walls.widths:
        return
    heights = walls.heights
    fronts = walls.sides(heights)
    backs = walls.sides(heights, depth)
    behind = [walls.back(heights, x) if walls.depths else np.full(len(heights), depth) for x in backs]
    for side in (0, 1):
        yield from _run(zip(fronts[side], np.zeros(len(heights)), heights, strict=True))
        yield from _run(zip(backs[side], behind[side], heights, strict=True))
    for level in (0, -1):
        corners = [
            (fronts[0][level], 0.0, heights[level]),
            (backs[0][level], behind[0][level], heights[level]),
            (backs[1][level], behind[1][level], heights[level]),
            (fronts[1][level], 0.0, heights[level]),
        ]
        yield from _run([*corners, corners[0]] if level == 0 else corners)


def _box(low: Floats, high: Floats) -> Iterator[Line]:
    """The twelve edges of a box."""
    for z in (low[2], high[2]):
        round_it = [(low[0], low[1], z), (high[0], low[1], z), (high[0], high[1], z), (low[0], high[1], z)]
        yield from _run([*round_it, round_it[0]])
    for x in (low[0], high[0]):
        for y in (low[1], high[1]):
            yield [(float(x), float(y), float(low[2])), (float(x), float(y), float(high[2]))]


def _door(door: Door) -> Iterator[Line]:
    """The leaf as far open as it has to go, and the way of its edge over the floor."""
    corners = leaf(door, door.turns).tolist()
    for z in (0.0, door.height):
        yield from _run([(x, y, z) for x, y in [*corners, corners[0]]])
    for x, y in corners:
        yield [(x, y, 0.0), (x, y, door.height)]
    yield from _run([(x, y, 0.0) for x, y in way_of(door).tolist()])


def _neighbour(neighbour: Neighbour, walls: Walls, depth: float) -> Iterator[Line]:
    """The outline of what stands beside the opening, its near part only."""
    if not walls.widths or neighbour.side not in ("left", "right"):
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


def _run(points: Iterable[Sequence[float]]) -> Iterator[Line]:
    for (a, b, c), (d, e, f) in pairwise(points):
        yield [(float(a), float(b), float(c)), (float(d), float(e), float(f))]
