"""What is in the way on the bench: parts above a hole, and the heat of a weld."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from fitwright.making.bench.pose import Posed, Run
from fitwright.piece.path import Arc

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

HEAT_MM = 50.0
"""Pins, stops and wooden blocks this far from a weld neither catch spatter nor hinder the torch (common practice)."""

BEND_STEP = 0.12
FAR_MM = 1e6


@dataclass(frozen=True, eq=False)
class Obstacles:
    """Parts as seen from above: lines from starts to ends (k, 2), half their widths (k,), lowest heights (k,) [mm].

    whose: the straight that a line is of, None for a bend; welds (w, 3).
    """

    starts: Floats
    ends: Floats
    halves: Floats
    bottoms: Floats
    tops: Floats
    whose: tuple[Run | None, ...]
    welds: Floats

    def clearance(self, points: Floats, height: float, own: Run | None = None) -> Floats:
        """Distance (n,) from points (n, 2) to the nearest part that is lower than a height; negative under it [mm]."""
        low = self.bottoms < height
        keep = low if own is None else low & ~np.array([run is own for run in self.whose])
        if not keep.any():
            return np.full(len(points), FAR_MM)
        return np.asarray(self._gaps(points, keep).min(axis=1))

    def below(self, point: Floats, under: float, own: frozenset[int]) -> float:
        """The highest top under a place (2,), lower than `under`, of parts that are not among `own` members [mm]."""
        gaps = self._gaps(point[None])[0]
        mine = np.array([run is not None and run.member in own for run in self.whose])
        lower = (gaps < 0) & (self.tops < under - 1.0) & ~mine
        return float(self.tops[lower].max()) if lower.any() else 0.0

    def from_heat(self, points: Floats) -> Floats:
        """Distance (n,) from points (n, 3) to the nearest weld of this set-up [mm]."""
        if not len(self.welds):
            return np.full(len(points), FAR_MM)
        return np.asarray(np.linalg.norm(points[:, None] - self.welds[None], axis=2).min(axis=1))

    @cached_property
    def _strips(self) -> tuple[Floats, Floats, Floats, Floats]:
        """Each line as a strip: its middle (k, 2), its way (k, 2), half its length (k,) and half its width (k,).

        What is seen as a point, an upright, is as long as it is wide.
        """
        run = self.ends - self.starts
        length = np.linalg.norm(run, axis=1)
        unit = np.where(length[:, None] > 1e-9, run / np.maximum(length, 1e-9)[:, None], np.array([1.0, 0.0]))
        half = length / 2 + np.where(length > 1e-9, 0.0, self.halves)
        return (self.starts + self.ends) / 2, unit, half, self.halves

    def _gaps(self, points: Floats, keep: Bools | None = None) -> Floats:
        """Distance (n, k) from points (n, 2) to the outside of each line, as a strip with square ends [mm]; keep (k,):
        of these lines only."""
        middle, unit, half, wide = (part if keep is None else part[keep] for part in self._strips)
        x, y = points[:, :1] - middle[:, 0], points[:, 1:2] - middle[:, 1]
        beyond = np.abs(x * unit[:, 0] + y * unit[:, 1]) - half
        beside = np.abs(x * unit[:, 1] - y * unit[:, 0]) - wide
        outside = np.hypot(np.maximum(beyond, 0), np.maximum(beside, 0))
        return np.asarray(np.where((beyond > 0) | (beside > 0), outside, np.maximum(beyond, beside)))


def _to_tips(run: Run) -> tuple[Floats, Floats]:
    """The ends (2,), (2,) of all the material of a straight, as seen from above."""
    start, end = run.start - run.tips[0] * run.along, run.end + run.tips[1] * run.along
    return start[:2], end[:2]


def obstacles(pose: Posed) -> Obstacles:
    """Every straight and bend of a posed group."""
    rows: list[tuple[Floats, Floats, float, float, float, Run | None]] = [
        (*_to_tips(r), r.half, r.bottom, r.top, r) for r in pose.runs
    ]
    for thing in pose.laid:
        for index in thing.members:
            body = pose.piece.members[index].body
            for segment in body.path.segments:
                if isinstance(segment, Arc):
                    points = pose.seen(
                        segment.at(np.linspace(0, segment.angle, max(3, int(segment.angle / BEND_STEP))))
                    )
                    rows += [
                        (a[:2], b[:2], body.reach, min(a[2], b[2]) - body.reach, max(a[2], b[2]) + body.reach, None)
                        for a, b in pairwise(points)
                    ]
    starts, ends, halves, bottoms, tops, whose = zip(*rows, strict=True)
    return Obstacles(
        np.array(starts), np.array(ends), np.array(halves), np.array(bottoms), np.array(tops), tuple(whose), pose.welds
    )
