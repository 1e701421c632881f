"""The piece between walls: where it stands, its smallest gap on each side, and what the survey leaves open of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from fitwright.job.model import Opening, Space
from fitwright.place.model import Gap
from fitwright.place.outline import Edges, split_at
from fitwright.place.survey.outline import outline
from fitwright.place.survey.tape import PLUMB_MM, USUAL, spread_of
from fitwright.place.walls import Walls

Floats = NDArray[np.float64]
Shift = tuple[float, float]

NEARER_MM = 0.05  # a gap on the way in counts when it is smaller than in place by more than this
ROUNDS = 4  # of setting it sideways and lengthways in turn, where walls are out of square


@dataclass(frozen=True, eq=False)
class Set:
    """The points (n, 3) of the outside that may be nearest on each side, the shift (x, y) that sets them into the
    opening [mm], and the gap of each on its side (n,)."""

    points: Mapping[str, Floats]
    shift: Shift
    gaps: Mapping[str, Floats]

    def nearest(self, side: str) -> Floats:
        """The point (3,) that is nearest on a side, before the shift."""
        return np.asarray(self.points[side][int(np.argmin(self.gaps[side]))])

    def in_place(self, point: Floats) -> tuple[float, float, float]:
        """A point (3,) in the opening's coordinates."""
        return float(point[0]) + self.shift[0], float(point[1]) + self.shift[1], float(point[2])


def set_between(space: Space, walls: Walls, edges: Edges) -> Set:
    """The piece at the gap that the job says on one side, else in the middle; at the back at the gap wanted.

    Where walls are out of square its place across and along decide each other, so both are found in turn.
    """
    ends = edges.reshape(-1, 3)
    box = np.array([[end(ends[:, axis]) for axis in range(3)] for end in (np.min, np.max)])
    points = {side: split_at(_near(walls, side, edges, box), 2, walls.heights) for side in _sides(walls)}
    if walls.opening.tops:
        places = np.array([at for at, _ in walls.opening.tops])
        points["top"] = split_at(_near(walls, "top", edges, box), 0, places)
    shift = (0.0, 0.0)
    for _ in range(ROUNDS):
        before, shift = shift, _stands(space, walls, points, shift)
        if abs(shift[0] - before[0]) + abs(shift[1] - before[1]) < 1e-9:
            break
    return Set(points, shift, {side: _room(walls, side, found, shift) for side, found in points.items()})


def _near(walls: Walls, side: str, edges: Edges, box: Floats) -> Edges:
    """The edges that may be nearest to a wall: no farther from it than the foremost by more than the wall wavers.

    box: low and high corner of all of them (2, 3).
    """
    axis, sign = {"left": (0, 1.0), "right": (0, -1.0), "back": (1, -1.0), "front": (1, 1.0), "top": (2, -1.0)}[side]
    out = np.minimum(sign * edges[:, 0, axis], sign * edges[:, 1, axis])
    foremost = sign * float(box[0 if sign > 0 else 1, axis])
    return edges[out <= foremost + _waver(walls, side, box) + NEARER_MM]


def _waver(walls: Walls, side: str, box: Floats) -> float:
    """How far a wall goes in and out over the height of a piece, anywhere near where it may stand [mm]."""
    if side == "front":
        return 0.0
    if side == "top":
        return float(np.ptp([height for _, height in walls.opening.tops]))
    low, high = box
    heights = np.append(walls.heights, [low[2], high[2]])
    size = float((high - low)[:2].max())
    ends = walls.wide if side == "back" else walls.deep
    stations = [one.station for one in (walls.depths if side == "back" else walls.widths)]
    z, place = (grid.ravel() for grid in np.meshgrid(heights, [*stations, -size, 0.0, ends, ends + size]))
    if side == "back":
        found = walls.back(z, place) - walls.board(side, z)
    elif side == "left":
        found = walls.sides(z, place)[0] + walls.board(side, z)
    else:
        found = walls.sides(z, place)[1] - walls.board(side, z)
    return float(np.ptp(found))


def gaps_of(space: Space, walls: Walls, found: Set, left_open: Mapping[str, float]) -> tuple[Gap, ...]:
    """The smallest gap on each side, with what the survey leaves open."""
    chosen = {"back", "left" if "left" in space.stand else "right" if "right" in space.stand else ""}
    return tuple(
        Gap(
            side,
            float(found.gaps[side].min()),
            float(found.nearest(side)[2]),
            space.clear.get(side, 0.0),
            side in chosen,
            left_open[side],
            _against(walls, side, float(found.nearest(side)[2])),
            point=found.in_place(found.nearest(side)),
        )
        for side in found.gaps
    )


def passed(walls: Walls, found: Set, gaps: tuple[Gap, ...]) -> tuple[Gap, ...]:
    """Where a side comes nearer to its wall on the straight way in from the front than in its place.

    A wall is straight between the stations where it was measured, so that what moves along it comes nearest at one of
    them.
    """
    if not walls.widths or not walls.runs:
        return ()
    best = {gap.side: gap for gap in gaps}
    for side in ("left", "right"):
        points = found.points[side]
        deep = points[:, 1] + found.shift[1]
        for station in walls.stations.tolist():
            there = points.copy()
            there[:, 1] = station - found.shift[1]
            room = np.where(deep >= station, _room(walls, side, there, found.shift), np.inf)
            at = int(np.argmin(room))
            if room[at] < best[side].value - NEARER_MM:
                height = float(points[at, 2])
                best[side] = replace(
                    best[side], value=float(room[at]), height=height, before=float(deep[at]) - station, chosen=False,
                    against=_against(walls, side, height), point=found.in_place(points[at]),
                )  # fmt: skip
    return tuple(gap for gap in best.values() if gap.before)


def left_open_by(space: Space, walls: Walls, found: Set) -> tuple[dict[str, float], tuple[float, float]]:
    """What the survey leaves open of the gap on each side, and of where the piece stands (x, y), 19 times in 20 [mm].

    Every number of the survey is moved by one standard deviation and the gap found again at the point that is nearest
    now: to first order the smallest of many moves as its nearest does.
    Source: root of the sum of squares, GUM (JCGM 100:2008) 5.1.2, for numbers that err by themselves.
    """
    near = {side: found.nearest(side)[None] for side in found.gaps}
    stands, gaps = _again(space, walls, near, found.shift)
    total, moved = dict.fromkeys(near, 0.0), np.zeros(2)
    for other in _nudged(walls):
        stands_there, gaps_there = _again(space, other, near, found.shift)
        moved += (np.array(stands_there) - stands) ** 2
        for side, value in gaps_there.items():
            total[side] += (value - gaps[side]) ** 2
    open_x, open_y = (USUAL * np.sqrt(moved)).tolist()
    return {side: float(USUAL * np.sqrt(square)) for side, square in total.items()}, (open_x, open_y)


def _again(space: Space, walls: Walls, near: Mapping[str, Floats], shift: Shift) -> tuple[Shift, dict[str, float]]:
    shift = _stands(space, walls, near, shift)
    return shift, {side: float(_room(walls, side, point, shift)[0]) for side, point in near.items()}


def _nudged(walls: Walls) -> Iterator[Walls]:
    """The walls with each number of the survey one standard deviation larger."""
    opening, within = walls.opening, walls.within
    for k, one in enumerate(opening.measures):
        size = one.size + spread_of(one.size, one.within or within)
        yield replace(walls, opening=_resized(opening, k, size))
    for side, lean in opening.lean.items():
        yield replace(walls, opening=replace(opening, lean={**opening.lean, side: lean + PLUMB_MM}))
    for side, skew in opening.skew.items():
        yield replace(walls, opening=replace(opening, skew={**opening.skew, side: skew + PLUMB_MM}))
    if opening.plan is not None:
        for corners in outline(opening, within).nudged:
            yield replace(walls, corners=corners)


def _resized(opening: Opening, number: int, size: float) -> Opening:
    """The opening with one of its measures of another size."""
    measures = list(opening.measures)
    measures[number] = replace(measures[number], size=size)
    tops = opening.tops
    if measures[number].what == "height":
        tops = tuple((at, size if at == measures[number].at else top) for at, top in tops)
    return replace(opening, measures=tuple(measures), tops=tops)


def _sides(walls: Walls) -> tuple[str, ...]:
    across = ("left", "right") if walls.widths else ()
    return (*across, "back", "front") if walls.depths else across


def _room(walls: Walls, side: str, points: Floats, shift: Shift) -> Floats:
    """The gap (n,) of points (n, 3) on one side once they are shifted [mm]; skirting counts as the wall."""
    x, y, z = points[:, 0] + shift[0], points[:, 1] + shift[1], points[:, 2]
    match side:
        case "left":
            return np.asarray(x - walls.sides(z, y)[0] - walls.board("left", z))
        case "right":
            return np.asarray(walls.sides(z, y)[1] - x - walls.board("right", z))
        case "back":
            return np.asarray(walls.back(z, x) - y - walls.board("back", z))
        case "front":
            return np.asarray(y)
    return walls.top(x) - z


def _stands(space: Space, walls: Walls, points: Mapping[str, Floats], shift: Shift) -> Shift:
    """The shift for points (n, 3) that may be nearest on each side, with walls as they are at the shift before."""
    x, y = 0.0, 0.0
    if walls.widths:
        here = (0.0, shift[1])
        from_left = float(_room(walls, "left", points["left"], here).min())
        x = _stand(space.stand, from_left, float(_room(walls, "right", points["right"], here).min()))
    if walls.depths:
        behind = float(_room(walls, "back", points["back"], (x, 0.0)).min())
        y = behind - space.stand.get("back", space.clear.get("back", 0.0))
    return x, y


def _stand(stand: Mapping[str, float], left: float, right: float) -> float:
    if "left" in stand:
        return stand["left"] - left
    if "right" in stand:
        return right - stand["right"]
    return (right - left) / 2


def _against(walls: Walls, side: str, height: float) -> str:
    if float(walls.board(side, np.array([height]))[0]):
        return "skirting"
    return {"front": "front line", "top": "top"}.get(side, "wall")
