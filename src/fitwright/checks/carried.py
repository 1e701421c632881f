"""The loads of the brief set in their places, as bits that each may be there or not."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.job.model import Job
from fitwright.piece.model import Member, Panel, Piece
from fitwright.piece.path import Straight

Floats = NDArray[np.float64]

LEVEL = 0.2  # rise over run up to which something stays where it is laid or hung
ALONG_MEMBER = 12
ACROSS_PANEL = 6


@dataclass(frozen=True, eq=False)
class Carried:
    """The load on one copy of a part: points (k, 3) [mm], each with an equal share of `force` [N]."""

    name: str
    part: str
    force: float
    points: Floats


@dataclass(frozen=True, eq=False)
class Bits:
    """All loads cut into bits: points (k, 3) [mm], forces (k,) [N], and which of `names` each belongs to (k,)."""

    names: tuple[str, ...]
    points: Floats
    forces: Floats
    owner: NDArray[np.intp]


def carried(job: Job, piece: Piece) -> tuple[Carried, ...]:
    """What every loaded member and panel carries.

    A member carries on its level runs, where it has any (coats hang on the rail, not on its uprights); a panel on its
    upper face. The load's own height above the shelf is not known and not counted.
    """
    loads = job.brief.loads.on
    panels = [Carried(p.name, p.part, loads[p.part], _face(p)) for p in piece.panels if p.part in loads]
    members = [
        Carried(m.name, m.part, loads[m.part], _runs(m))
        for m in piece.members
        if m.part in loads and m.sleeve_of is None
    ]
    return tuple(panels + members)


def bits(loads: tuple[Carried, ...]) -> Bits:
    """The loads as one set of points."""
    if not loads:
        return Bits((), np.zeros((0, 3)), np.zeros(0), np.zeros(0, dtype=np.intp))
    counts = [len(load.points) for load in loads]
    forces = np.repeat([load.force / len(load.points) for load in loads], counts)
    owner = np.repeat(np.arange(len(loads)), counts)
    return Bits(tuple(load.name for load in loads), np.vstack([load.points for load in loads]), forces, owner)


def loadings(loads: Bits) -> list[Floats]:
    """Shares (k,) of each bit: all of them, and those on one half of each part, from four sides."""
    middles = np.zeros((len(loads.forces), 3))
    for k in range(len(loads.names)):
        middles[loads.owner == k] = loads.points[loads.owner == k].mean(axis=0)
    beside = loads.points - middles
    halves = [(sign * beside[:, axis] >= 0).astype(float) for axis in (0, 1) for sign in (1, -1)]
    return [np.ones(len(loads.forces)), *halves]


def unplaced(job: Job, piece: Piece) -> tuple[str, ...]:
    """Names under brief.loads that are no member and no panel of the piece."""
    known = {m.part for m in piece.members} | {p.part for p in piece.panels}
    return tuple(name for name in job.brief.loads.on if name not in known)


def _face(panel: Panel) -> Floats:
    """The middles of equal cells of the upper face (k, 3) [mm]; of an upright panel, of its upper edge."""
    x, y = (_middles(float(panel.low[axis]), float(panel.high[axis]), ACROSS_PANEL) for axis in (0, 1))
    grid = np.stack(np.meshgrid(x, y, indexing="ij"), axis=-1).reshape(-1, 2)
    return np.column_stack([grid, np.full(len(grid), float(panel.high[2]))])


def _middles(low: float, high: float, count: int) -> Floats:
    return low + (high - low) * (np.arange(count) + 0.5) / count


def _runs(member: Member) -> Floats:
    """Points evenly along the level straights of a member (k, 3) [mm]; along all its straights when none is level."""
    straights = [s for s in member.path.segments if isinstance(s, Straight)]
    level = [s for s in straights if abs(s.direction[2]) <= LEVEL * np.hypot(*s.direction[:2])]
    runs = level or straights
    if not runs:
        return np.array([member.centre])
    lengths = np.array([run.length for run in runs])
    at = _middles(0.0, float(lengths.sum()), ALONG_MEMBER)
    which = np.searchsorted(np.cumsum(lengths), at)
    before = at - np.concatenate([[0.0], np.cumsum(lengths)])[which]
    return np.array([runs[k].start + runs[k].direction * d for k, d in zip(which, before, strict=True)])
