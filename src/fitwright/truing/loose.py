"""A part as it was really bent and cut, in full geometry: large turns, not their first order."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from fitwright.mechanics.axes import local_axes
from fitwright.mechanics.model import Floats
from fitwright.mechanics.variation import Variation
from fitwright.mechanics.variation.effects import GAP
from fitwright.mechanics.variation.reading import Probe

SMALL_RAD = 1e-9


@dataclass(frozen=True, eq=False)
class Shape:
    """Nodes of a part (n, 3) [mm] and how each is turned (n, 3, 3), in the order along the part."""

    points: Floats
    turns: Floats


@dataclass(frozen=True, eq=False)
class Chain:
    """The elements of one member as rods that turn at their middles by what its bends and cuts are off."""

    setting: Variation
    member: int

    @cached_property
    def into_gaps(self) -> tuple[tuple[int, Floats], ...]:
        """For each elementary error that sits in this member its number and the gaps (m, 6) that one unit makes."""
        elements = self.setting.parts.elements_of[self.member]
        place = {int(element): i for i, element in enumerate(elements)}
        found = []
        for number, effect in enumerate(self.setting.found):
            gaps = np.zeros((len(elements), 6))
            for where, row, amount in effect.entries:
                if where == GAP and row // 6 in place:
                    gaps[place[row // 6], row % 6] += amount
            if np.any(gaps):
                found.append((number, gaps))
        return tuple(found)

    @cached_property
    def _axes(self) -> Floats:
        """(m, 3, 3) rows are the elements' own axes."""
        return np.asarray(local_axes(self.setting.parts.model)[1][self.setting.parts.elements_of[self.member]])

    def shape(self, errors: Floats) -> Shape:
        """The part as made with elementary errors (e,), its first node where it is drawn.

        Holds for rods that are straight between their nodes; a bend turns a little at each of its chords.
        Source: Rodrigues' rotation formula, chord by chord.
        """
        gaps = sum((errors[number] * unit for number, unit in self.into_gaps), np.zeros((len(self._axes), 6)))
        nodes = self.setting.parts.model.nodes[self.setting.parts.nodes_of[self.member]]
        points, turns = np.empty_like(nodes), np.empty((len(nodes), 3, 3))
        at, turned = nodes[0].copy(), np.eye(3)
        points[0], turns[0] = at, turned
        for i, (axes, gap) in enumerate(zip(self._axes, gaps, strict=True)):
            half = (nodes[i + 1] - nodes[i]) / 2
            at = at + turned @ (half + axes.T @ gap[:3])
            turned = turned @ rotation(axes.T @ gap[3:])
            at = at + turned @ half
            points[i + 1], turns[i + 1] = at, turned
        return Shape(points, turns)

    def carried(self, shape: Shape, probe: Probe) -> Floats:
        """Where the point (3,) of a probe goes."""
        nodes = self.setting.parts.nodes_of[self.member]
        i = int(np.flatnonzero(nodes == probe.node)[0])
        arm = probe.point - self.setting.parts.model.nodes[probe.node]
        return np.asarray(shape.points[i] + shape.turns[i] @ arm)


def rotation(vector: Floats) -> Floats:
    """(3, 3) the rotation about a vector (3,) by its length [rad].

    Source: Rodrigues' rotation formula.
    """
    angle = float(np.linalg.norm(vector))
    if angle < SMALL_RAD:
        return np.eye(3)
    x, y, z = vector / angle
    cross = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    return np.asarray(np.eye(3) + np.sin(angle) * cross + (1 - np.cos(angle)) * cross @ cross)


def spanned(chain: Chain, probes: Sequence[Probe], errors: Floats) -> float:
    """The distance between the points of two probes on one part as made [mm]."""
    shape = chain.shape(errors)
    first, second = (chain.carried(shape, probe) for probe in probes)
    return float(np.linalg.norm(second - first))
