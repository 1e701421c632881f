"""Stations along the members: where nodes are wanted, and which of them are one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from fitwright.mechanics.framing.line import WorkingLine
from fitwright.mechanics.model import Floats, Ints

SAME_MM = 2.0
LONGEST_MM = 160.0
LEAST_PARTS = 4
"""Elements in a member at least: with four between points of no moment a buckling load is 0.05 % high."""


@dataclass
class Wanted:
    """Places asked for on members; each asking gives back a ticket, to be exchanged for a station later."""

    lines: Mapping[int, WorkingLine]
    places: dict[int, list[float]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.places = {k: [line.first, line.last, *line.bend_places.tolist()] for k, line in self.lines.items()}

    def at(self, member: int, s: float) -> tuple[int, int]:
        """Ask for a node at s [mm] on a member."""
        self.places[member].append(s)
        return member, len(self.places[member]) - 1


@dataclass(frozen=True, eq=False)
class Stations:
    """All stations, member after member.

    member: (q,) and s: (q,) [mm] of each; points: (q, 3) on the centroid line; of: ticket to station.
    pairs: (m, 2) stations at the two ends of each element.
    """

    member: Ints
    s: Floats
    points: Floats
    of: Mapping[tuple[int, int], int]
    pairs: Ints
    ends: Mapping[int, tuple[int, int]]


def stations(wanted: Wanted) -> Stations:
    """The stations from all that was asked: places nearer than 2 mm are one, and long runs are divided.

    Ends of members and of bends keep their places exactly.
    """
    members, all_s, points, pairs = [], [], [], []
    of: dict[tuple[int, int], int] = {}
    ends: dict[int, tuple[int, int]] = {}
    done = 0
    for k, line in wanted.lines.items():
        asked = np.array(wanted.places[k])
        fixed = 2 + len(line.bend_places)
        hard = _merged(asked, fixed)
        every = _divided(hard, line)
        which = done + np.abs(every[None, :] - asked[:, None]).argmin(axis=1)
        of.update({(k, i): int(w) for i, w in enumerate(which)})
        ends[k] = (done, done + len(every) - 1)
        numbers = done + np.arange(len(every))
        pairs.append(np.column_stack([numbers[:-1], numbers[1:]]))
        members.append(np.full(len(every), k))
        all_s.append(every)
        points.append(line.points(every))
        done += len(every)
    joined = np.concatenate
    return Stations(joined(members), joined(all_s), joined(points), of, joined(pairs), ends)


def _merged(asked: Floats, fixed: int) -> Floats:
    """Sorted places; of those within 2 mm the first `fixed` ones stay, else the first asked."""
    kept = np.unique(np.round(asked[:fixed], 6))
    for s in asked[fixed:]:
        if np.abs(kept - s).min() > SAME_MM:
            kept = np.append(kept, s)
    return np.sort(kept)


def _divided(hard: Floats, line: WorkingLine) -> Floats:
    longest = min(LONGEST_MM, max((line.last - line.first) / LEAST_PARTS, SAME_MM))
    parts = np.maximum(1, np.ceil(np.diff(hard) / longest - 1e-6)).astype(int)
    runs = [np.linspace(a, b, n, endpoint=False) for a, b, n in zip(hard[:-1], hard[1:], parts, strict=True)]
    return np.concatenate([*runs, hard[-1:]])


@dataclass
class Groups:
    """Stations tied rigidly to one another share a node."""

    parent: Ints

    @staticmethod
    def of(count: int) -> Groups:
        """Every station by itself."""
        return Groups(np.arange(count))

    def find(self, station: int) -> int:
        """The station that stands for its group."""
        while self.parent[station] != station:
            self.parent[station] = self.parent[self.parent[station]]
            station = int(self.parent[station])
        return station

    def tie(self, station: int, other: int) -> None:
        """Make two stations one; the group keeps the place of the second."""
        first, second = self.find(station), self.find(other)
        self.parent[first] = second

    def numbers(self) -> tuple[Ints, Ints]:
        """Node of each station (q,), and the station that gives each node its place (n,)."""
        roots = np.array([self.find(i) for i in range(len(self.parent))], dtype=np.intp)
        leaders, node = np.unique(roots, return_inverse=True)
        return np.asarray(node, dtype=np.intp), leaders
