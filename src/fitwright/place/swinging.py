"""Doors that open past the piece."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fitwright.job.model import Door
from fitwright.place.model import Swing
from fitwright.place.outline import Skin

Floats = NDArray[np.float64]

FAR_MM = 150.0  # a piece farther from a door's way than this is not in it
WAYS = {"left": (-1.0, 0.0), "right": (1.0, 0.0), "front": (0.0, -1.0), "back": (0.0, 1.0)}


def swing_of(door: Door, skin: Skin) -> Swing:
    """How far a door opens past the piece in its place, and the least gap to the way of its leaf.

    Seen from above the leaf sweeps a sector; the piece is clipped to the leaf's height. Along a straight edge inside
    the sector the angle grows or falls all the way, so the first touch is at an end of what of it lies inside.
    Holds for a leaf taken as its face on the side to which it opens, which is what comes first.
    """
    shut, opens = np.array(WAYS[door.shut]), np.array(WAYS[door.opens])
    low, high = _reach(door)
    near = skin.near(low - FAR_MM, high + FAR_MM)
    starts, ends, owners = _below(near, door.height)
    flat = [(points[:, :2] - np.array(door.hinge)) @ np.column_stack([shut, opens]) for points in (starts, ends)]
    inside, angles, which = _within(flat[0], flat[1], door)
    side = _side(door, skin)
    if inside:
        first = int(np.argmin(angles))
        edge = which[first]
        touched = near.names[owners[edge]]
        return Swing(door.name, float(angles[first]), door.turns, touched, 0.0, float(starts[edge, 2]), side)
    gaps = _gaps(flat[0], flat[1], door)
    if not len(gaps):
        return Swing(door.name, door.turns, door.turns, "", np.inf, 0.0, side)
    least = int(np.argmin(gaps))
    return Swing(door.name, door.turns, door.turns, "", float(gaps[least]), float(starts[least, 2]), side)


def leaf(door: Door, angle: float) -> Floats:
    """The leaf seen from above when it is open by an angle: its corners (4, 2) [mm], from the hinge along its face."""
    shut, opens = np.array(WAYS[door.shut]), np.array(WAYS[door.opens])
    along = np.cos(angle) * shut + np.sin(angle) * opens
    behind = np.sin(angle) * shut - np.cos(angle) * opens
    hinge = np.array(door.hinge)
    far = hinge + door.width * along
    return np.array([hinge, far, far + door.thickness * behind, hinge + door.thickness * behind])


def way_of(door: Door, points: int = 25) -> Floats:
    """The line of the leaf's edge from shut to open, seen from above (n, 2) [mm]."""
    angles = np.linspace(0.0, door.turns, points)[:, None]
    shut, opens = np.array(WAYS[door.shut]), np.array(WAYS[door.opens])
    return np.asarray(np.array(door.hinge) + door.width * (np.cos(angles) * shut + np.sin(angles) * opens))


def _side(door: Door, skin: Skin) -> str:
    """The side of the piece on which a door's way lies: the one on which they are farthest apart, or overlap least."""
    way = np.vstack([way_of(door), [door.hinge]])
    low, high = skin.low[:, :2].min(axis=0), skin.high[:, :2].max(axis=0)
    apart = {
        "left": low[0] - way[:, 0].max(),
        "right": way[:, 0].min() - high[0],
        "front": low[1] - way[:, 1].max(),
        "back": way[:, 1].min() - high[1],
    }
    return max(apart, key=lambda side: float(apart[side]))


def _reach(door: Door) -> tuple[Floats, Floats]:
    """A box that holds the leaf all the way (3,), (3,)."""
    across = np.array([door.width, door.width, 0.0])
    hinge = np.array([*door.hinge, 0.0])
    return hinge - across, hinge + across + np.array([0.0, 0.0, door.height])


def _below(skin: Skin, height: float) -> tuple[Floats, Floats, NDArray[np.int64]]:
    """The triangles' edges (k, 3), (k, 3) as far as they lie lower than a height, and their owners (k,)."""
    starts, ends = skin.triangles.reshape(-1, 3), np.roll(skin.triangles, -1, axis=1).reshape(-1, 3)
    owners = np.repeat(skin.owners, 3)
    rise = ends[:, 2] - starts[:, 2]
    with np.errstate(divide="ignore", invalid="ignore"):
        part = (height - starts[:, 2]) / rise
    one = np.where((starts[:, 2] > height) & (rise < 0), part, 0.0)
    other = np.where((ends[:, 2] > height) & (rise > 0), part, 1.0)
    kept = np.minimum(starts[:, 2], ends[:, 2]) < height
    run = ends - starts
    return (starts + one[:, None] * run)[kept], (starts + other[:, None] * run)[kept], owners[kept]


def _within(starts: Floats, ends: Floats, door: Door) -> tuple[bool, Floats, NDArray[np.int64]]:
    """Whether anything lies inside the sector, the angles of its ends there (n,), and which edges they are of (n,).

    starts, ends: (k, 2) along the shut leaf and the way it opens, from the hinge. Edges are cut where they enter the
    circle and where they pass the line of the shut leaf and of the open one.
    """
    run = ends - starts
    beside = np.array([-np.sin(door.turns), np.cos(door.turns)])
    cuts = [np.zeros(len(run)), np.ones(len(run)), *_on_circle(starts, run, door.width)]
    with np.errstate(divide="ignore", invalid="ignore"):
        cuts.append(-starts[:, 1] / run[:, 1])
        cuts.append(-(starts @ beside) / (run @ beside))
    at = np.sort(np.clip(np.nan_to_num(np.array(cuts), nan=0.0), 0.0, 1.0), axis=0)
    middles = starts + ((at[:-1] + at[1:]) / 2)[..., None] * run
    angle = np.arctan2(middles[..., 1], middles[..., 0])
    inside = (np.hypot(middles[..., 0], middles[..., 1]) < door.width - 1e-6) & (angle > 1e-9) & (angle < door.turns)
    inside &= (at[1:] - at[:-1]) * np.hypot(run[:, 0], run[:, 1]) > 1e-6
    pieces, edges = np.nonzero(inside)
    if not len(edges):
        return False, np.zeros(0), edges
    bounds = [starts[edges] + at[pieces + k, edges][:, None] * run[edges] for k in (0, 1)]
    angles = np.array([np.arctan2(point[:, 1], point[:, 0]) for point in bounds]).min(axis=0)
    return True, np.clip(angles, 0.0, door.turns), edges


def _on_circle(starts: Floats, run: Floats, radius: float) -> list[Floats]:
    """Where on edges (k, 2) they pass a circle round 0 (k,), twice."""
    a = np.maximum((run**2).sum(axis=1), 1e-18)
    b = (starts * run).sum(axis=1)
    root = np.sqrt(np.maximum(b**2 - a * ((starts**2).sum(axis=1) - radius**2), 0.0))
    return [(-b - root) / a, (-b + root) / a]


def _gaps(starts: Floats, ends: Floats, door: Door) -> Floats:
    """The distance (k,) of edges (k, 2) outside the sector from it [mm]."""
    run = ends - starts
    squared = np.maximum((run**2).sum(axis=1), 1e-18)
    shut = door.width * np.array([1.0, 0.0])
    wide = door.width * np.array([np.cos(door.turns), np.sin(door.turns)])
    found = []
    for tip in (shut, wide):
        found += [_from_line(starts, tip), _from_line(ends, tip)]
        found += [np.hypot(*(starts + _foot(starts, run, squared, point) - point).T) for point in (tip, np.zeros(2))]
    for points in (starts, ends, starts + _foot(starts, run, squared, np.zeros(2))):
        angle = np.arctan2(points[:, 1], points[:, 0])
        beyond = np.hypot(*points.T) - door.width
        found.append(np.where((angle >= 0) & (angle <= door.turns) & (beyond >= 0), beyond, np.inf))
    return np.asarray(np.min(found, axis=0)) if len(starts) else np.zeros(0)


def _foot(starts: Floats, run: Floats, squared: Floats, point: Floats) -> Floats:
    """From the start of each edge to its place nearest to a point (k, 2)."""
    part = np.clip(((point - starts) * run).sum(axis=1) / squared, 0.0, 1.0)
    return np.asarray(part[:, None] * run)


def _from_line(points: Floats, tip: Floats) -> Floats:
    """Distance (k,) of points (k, 2) from the line from 0 to a tip (2,)."""
    part = np.clip(points @ tip / float(tip @ tip), 0.0, 1.0)
    return np.asarray(np.hypot(*(points - part[:, None] * tip).T))
