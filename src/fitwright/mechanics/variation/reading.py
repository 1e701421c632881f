"""Reading an outcome off the finished piece: points that move, directions in which that counts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from fitwright.mechanics.model import Floats
from fitwright.mechanics.variation.loose import Loose
from fitwright.mechanics.variation.model import Outcome


@dataclass(frozen=True, eq=False)
class Probe:
    """A point (3,) [mm] fixed to a node; `along` (3,) is what its movement counts."""

    node: int
    point: Floats
    along: Floats


@dataclass(frozen=True, eq=False)
class Reading:
    """An outcome and how it is read: the sum of its probes, and of elementary errors by key that reach it directly."""

    outcome: Outcome
    probes: tuple[Probe, ...]
    direct: Mapping[str, float] = field(default_factory=dict)


def rows_of(parts: Loose, readings: Sequence[Reading]) -> Floats:
    """(o, 6n) weights on displacements.

    Holds for points carried rigidly by their node through small turns.
    Source: u + turning x arm.
    """
    rows = np.zeros((len(readings), parts.model.node_count, 6))
    for row, reading in zip(rows, readings, strict=True):
        for probe in reading.probes:
            arm = probe.point - parts.model.nodes[probe.node]
            row[probe.node, :3] += probe.along
            row[probe.node, 3:] += np.cross(arm, probe.along)
    return rows.reshape(len(readings), -1)


def apart(first: tuple[int, Floats], second: tuple[int, Floats], along: Floats) -> tuple[Probe, Probe]:
    """Probes for how far the second of two (node, point) lies beyond the first along a unit vector."""
    return Probe(first[0], first[1], -along), Probe(second[0], second[1], along)


def distance(first: tuple[int, Floats], second: tuple[int, Floats]) -> tuple[float, tuple[Probe, Probe]]:
    """The distance of two (node, point) [mm] and its probes."""
    gap = second[1] - first[1]
    size = float(np.linalg.norm(gap))
    return size, apart(first, second, gap / size)
