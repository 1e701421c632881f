"""How a piece stands on a floor that is not level: what touches, how it rocks, what makes it level."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from fitwright.piece import Piece
from fitwright.place.outline import piece_skin

Floats = NDArray[np.float64]
Mask = NDArray[np.bool_]
Level = tuple[tuple[float, float], float]

ON_FLOOR_MM = 1.0  # nearer to the floor than this is on it
ONE_FOOT_MM = 80.0  # what lies on the floor within this is one foot
DOWN_MM = 0.05  # a foot nearer to the floor than this carries


@dataclass(frozen=True, eq=False)
class Foot:
    """What the piece stands on: its name, kind (caster, foot or part), and its lowest point (3,) [mm]."""

    name: str
    kind: str
    at: Floats


@dataclass(frozen=True, eq=False)
class Stance:
    """How the feet stand on the floor as it is.

    floor: height of the floor under each foot (n,) [mm]; open: how far each is off the floor as the piece stands (n,)
    [mm]; rock: how far a foot can be pressed down [mm]; slope: rise to the right and to the back of the piece as it
    stands (2,); shims: under each foot for level (n,) [mm].
    """

    feet: tuple[Foot, ...]
    floor: Floats
    open: Floats
    rock: float
    slope: Floats
    shims: Floats

    @property
    def rolls(self) -> bool:
        """Whether it stands on casters, which cannot be shimmed."""
        return any(foot.kind == "caster" for foot in self.feet)

    @property
    def touching(self) -> int:
        """How many feet carry."""
        return int((self.open < DOWN_MM).sum())

    @property
    def tilt(self) -> float:
        """How far it leans from level [rad]."""
        return float(np.arctan(np.hypot(*self.slope)))

    @property
    def turn(self) -> Floats:
        """The turn (3, 3) from the piece as drawn to the piece as it stands; none for what is shimmed level."""
        return _tilted(self.slope) if self.rolls else np.eye(3)

    @property
    def raised(self) -> float:
        """How high the piece's own zero stands over that of the survey [mm]."""
        turned = np.array([foot.at for foot in self.feet]) @ self.turn.T
        return float((self.floor - turned[:, 2]).max())


def feet_of(piece: Piece) -> tuple[Foot, ...]:
    """Casters and feet, else what lies on the floor; none for a piece that hangs."""
    found = [
        Foot(item.name, item.kind, item.at - np.array([0.0, 0.0, item.drop]))
        for item in piece.hardware
        if item.placed and item.kind in ("caster", "foot")
    ]
    return tuple(found or _lying(piece))


def floor_heights(levels: Sequence[Level], at: Floats) -> Floats:
    """Heights of the floor (n,) at places (n, 2), through all that were measured, as flat as may be [mm].

    Source: thin-plate spline, J. Duchon, Splines minimizing rotation-invariant semi-norms in Sobolev spaces, 1977; of
    three places the plane through them, of two a plane along their line.

    >>> floor_heights([((0, 0), 0.0), ((100, 0), 2.0), ((0, 100), 4.0)], np.array([[50.0, 50.0]])).round(6).tolist()
    [3.0]
    """
    places = np.array([place for place, _ in levels], dtype=float)
    heights = np.array([height for _, height in levels])
    middle, size = places.mean(axis=0), max(float(np.ptp(places, axis=0).max()), 1.0)
    known, asked = (places - middle) / size, (at - middle) / size
    count = len(known)
    whole = np.zeros((count + 3, count + 3))
    whole[:count, :count], flat = _kernel(known, known), np.column_stack([np.ones(count), known])
    whole[:count, count:], whole[count:, :count] = flat, flat.T
    weights = np.linalg.lstsq(whole, np.append(heights, np.zeros(3)), rcond=1e-12)[0]
    return np.asarray(
        _kernel(asked, known) @ weights[:count] + np.column_stack([np.ones(len(at)), asked]) @ weights[count:]
    )


def stance(piece: Piece, levels: Sequence[Level], shift: Floats) -> Stance | None:
    """How the piece, moved by (2,) to its place, stands on the floor; None for one that has fewer than three feet.

    A stiff piece rests on the plane that lies on or over the floor under every foot and is lowest at its centre of
    mass. Holds for a piece that does not give: a frame that twists closes part of what is told as open.
    """
    feet = feet_of(piece)
    at = np.array([foot.at for foot in feet]).reshape(-1, 3)
    if len(feet) < 3 or not levels:
        return None
    floor = floor_heights(levels, at[:, :2] + shift)
    high = floor - at[:, 2]
    planes = _resting(at[:, :2], high)
    if not len(planes):
        return None
    centre = np.array([*piece.centre[:2], 1.0])
    order = np.argsort(planes @ centre)
    plane = planes[order[0]]
    rock = _rock(at[:, :2], high, planes, plane)
    return Stance(feet, floor, _over(at[:, :2], plane) - high, rock, plane[:2], float(high.max()) - high)


def _resting(at: Floats, high: Floats) -> Floats:
    """Planes (p, 3), rise along x, along y and height at 0, through three feet with none below the floor."""
    triples = np.array(list(combinations(range(len(at)), 3)))
    corners = np.concatenate([at[triples], np.ones((len(triples), 3, 1))], axis=2)
    fine = np.abs(np.linalg.det(corners)) > 1.0
    if not fine.any():
        return np.zeros((0, 3))
    planes = np.linalg.solve(corners[fine], high[triples[fine]][..., None])[..., 0]
    over = planes @ np.column_stack([at, np.ones(len(at))]).T - high
    return np.asarray(planes[(over > -1e-6).all(axis=1)])


def _rock(at: Floats, high: Floats, planes: Floats, plane: Floats) -> float:
    """The farthest that a foot goes down when the piece is pressed onto another of the planes that it can rest on."""
    open_now = _over(at, plane) - high
    others = [_over(at, other) - high for other in planes]
    return float(max(((open_now - other).max() for other in others), default=0.0))


def _over(at: Floats, plane: Floats) -> Floats:
    return np.asarray(at @ plane[:2] + plane[2])


def _kernel(one: Floats, other: Floats) -> Floats:
    squared = ((one[:, None] - other[None]) ** 2).sum(axis=2)
    return np.where(squared > 0, squared * np.log(np.maximum(squared, 1e-300)) / 2, 0.0)


def _tilted(slope: Floats) -> Floats:
    """The turn (3, 3) about a level line that gives a plane its slope.

    Source: Rodrigues' rotation formula with the axis square to z and to the plane's normal.
    """
    normal = np.array([-slope[0], -slope[1], 1.0])
    normal /= np.linalg.norm(normal)
    cross = np.array([[0.0, 0.0, normal[0]], [0.0, 0.0, normal[1]], [-normal[0], -normal[1], 0.0]])
    return np.asarray(np.eye(3) + cross + cross @ cross / (1 + normal[2]))


def _lying(piece: Piece) -> list[Foot]:
    """One foot for what is small on the floor, the corners of what is large."""
    skin = piece_skin(piece)
    found = []
    for number, name in enumerate(skin.names):
        points = skin.triangles[skin.owners == number].reshape(-1, 3)
        points = points[np.abs(points[:, 2]) <= ON_FLOOR_MM]
        if not len(points):
            continue
        for cell in _cells(points):
            found.append(Foot(name, "part", cell))
    return found


def _cells(points: Floats) -> list[Floats]:
    """The middle of points (n, 3) that lie together, one for each of the ends of what is long."""
    low, high = points.min(axis=0), points.max(axis=0)
    places = [[low[k], high[k]] if high[k] - low[k] > ONE_FOOT_MM else [(low[k] + high[k]) / 2] for k in (0, 1)]
    corners = [np.array([x, y, low[2]]) for x in places[0] for y in places[1]]
    near = [np.min(np.hypot(*(points[:, :2] - corner[:2]).T)) for corner in corners]
    return [corner for corner, gap in zip(corners, near, strict=True) if gap < ONE_FOOT_MM]
