"""What each anchor of a piece that hangs on a wall has to take: pull and shear of every one, by statics."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.checks.carried import bits, carried
from fitwright.checks.standing import anchors, outside_points
from fitwright.job.model import Job
from fitwright.piece.model import Hardware, Piece
from fitwright.units import GRAVITY

Floats = NDArray[np.float64]

OUTWARD = {"left": np.array([-1.0, 0, 0]), "right": np.array([1.0, 0, 0]), "back": np.array([0, 1.0, 0])}
UP = np.array([0.0, 0.0, 1.0])
BEARS_MM = 3.0  # nearer to the wall than this bears on it
LEAST_MM = 1.0  # of lever, so that a lone row on an edge is told a large pull and no infinite one
EXTENTS = 1.0


@dataclass(frozen=True, eq=False)
class Hung:
    """The anchor that is worst off: pull and shear [N], whose lever above the edge that bears is `lever` [mm].

    moment: of all weight about the wall [N mm], weight: [N], count: of anchors. level: all at one height.
    """

    pull: float
    shear: float
    moment: float
    weight: float
    lever: float
    count: int
    level: bool

    @property
    def both(self) -> float:
        """Pull and shear as one force [N]."""
        return float(np.hypot(self.pull, self.shear))


def hung(job: Job, piece: Piece) -> Hung:
    """The worst anchor under all the loads, and under those on either half alone.

    A rigid piece turns about the lowest edge with which it bears on the wall; what hangs in front of the wall without
    touching it is no lever. Pull grows with the height over that edge; shear is the weight shared evenly, and the
    turning of a weight that hangs beside the middle of the anchors.
    Holds for a rigid piece, anchors all alike. Source: statics; J. E. Shigley, Mechanical Engineering Design, bolted
    joints loaded in shear with an eccentric load (elastic group); a bracket in tension about its toe.
    """
    held = anchors(piece)
    out = OUTWARD[wall_side(job, held)]
    at = np.repeat([item.at for item in held], [item.each for item in held], axis=0)
    plane = _plane(job, piece, held, out)
    levers = np.maximum(at[:, 2] - _edge(piece, out, plane, at), LEAST_MM)
    weights = _weights(job, piece, np.cross(UP, out))
    return max((worst_anchor(at, out, plane, levers, *weight) for weight in weights), key=lambda one: one.both)


def wall_side(job: Job, held: tuple[Hardware, ...]) -> str:
    """Which wall the anchors are in: of those that the job says it touches the nearest, else of the three where they
    lie in one plane; the back one where that does not tell."""
    at = np.array([item.at for item in held])
    walls = {side: value for side, value in job.space.walls.items() if side in OUTWARD}
    if walls:
        return min(walls, key=lambda side: float(np.abs(at @ np.abs(OUTWARD[side]) - walls[side]).max()))
    flat = {side: float(np.ptp(at @ out)) for side, out in OUTWARD.items()}
    return "back" if flat["back"] <= min(flat.values()) + EXTENTS else min(flat, key=lambda side: flat[side])


def _plane(job: Job, piece: Piece, held: tuple[Hardware, ...], out: Floats) -> float:
    """How far out the wall stands [mm]: where the farthest anchor or the outside of a member that it is in lies."""
    far = [float(item.at @ out) for item in held]
    for member in piece.members:
        low, high = member.body.box
        if any((low - BEARS_MM <= item.at).all() and (item.at <= high + BEARS_MM).all() for item in held):
            far.append(float((outside_points(member) @ out).max()))
    return max(far)


def _edge(piece: Piece, out: Floats, plane: float, at: Floats) -> float:
    """The lowest height at which the piece bears on the wall [mm]; that of the lowest anchor where none is found."""
    points = [outside_points(member) for member in piece.members]
    points += [np.vstack([[b.low, b.high] for b in panel.boards]) for panel in piece.panels]
    bears = [float(ring[2]) for ring in np.vstack(points) if plane - float(ring @ out) <= BEARS_MM]
    return min([*bears, float(at[:, 2].min())])


def _weights(job: Job, piece: Piece, side: Floats) -> Iterator[tuple[float, Floats]]:
    """Weight [N] and centre (3,) with all loads, and with those on either half of the piece along the wall."""
    loads = bits(carried(job, piece))
    own = piece.mass * GRAVITY
    along = (loads.points - piece.envelope.low * 0.5 - piece.envelope.high * 0.5) @ side
    for there in (np.ones(len(along)), along >= 0, along <= 0):
        forces = loads.forces * there
        total = own + float(forces.sum())
        yield total, (own * piece.centre + forces @ loads.points) / total


def worst_anchor(at: Floats, out: Floats, plane: float, levers: Floats, weight: float, centre: Floats) -> Hung:
    """The worst of anchors under a weight [N] at a centre (3,) [mm].

    at: (n, 3) anchors [mm]; out: (3,) toward the wall, which stands at `plane`; levers: (n,) heights of the anchors
    over the edge that bears on it [mm].
    """
    side = np.cross(UP, out)
    moment = max(weight * (plane - float(centre @ out)), 0.0)
    pulls = moment * levers / float(levers @ levers)
    middle = at.mean(axis=0)
    u, v = (at - middle) @ side, at[:, 2] - middle[2]
    spread = float(u @ u + v @ v)
    turning = weight * float((centre - middle) @ side) / spread if spread > LEAST_MM else 0.0
    shears = np.hypot(turning * v, weight / len(at) + turning * u)
    k = int(np.argmax(np.hypot(pulls, shears)))
    level = bool(np.ptp(levers) < LEAST_MM)
    return Hung(float(pulls[k]), float(shears[k]), moment, weight, float(levers[k]), len(at), level)
