"""Places on the piece where a tape is held: outermost points at a level and a side."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import product

import numpy as np

from fitwright.job.readings import LEVELS
from fitwright.mechanics.model import Floats, Ints
from fitwright.mechanics.variation import Variation
from fitwright.mechanics.variation.between import Boxes, element_boxes
from fitwright.mechanics.variation.reading import Probe
from fitwright.truing.errors import TruingError

WINDOW = 0.12
FLAT_MM = 30.0
TOP_MM = 3.0
CROSSING = 0.5
SIDES = {"left": (0, -1), "right": (0, 1), "front": (1, -1), "back": (1, 1)}
NEAR_LEVEL = 0.01


@dataclass(frozen=True, eq=False)
class Spots:
    """The nodes of some members, from which places are picked."""

    setting: Variation
    members: tuple[int, ...]

    @cached_property
    def nodes(self) -> Ints:
        """(n,) their nodes."""
        return np.concatenate(
            [self.setting.parts.nodes_of[k] for k in self.members if k in self.setting.parts.nodes_of]
        )

    @cached_property
    def points(self) -> Floats:
        """(n, 3) [mm]."""
        return np.asarray(self.setting.parts.model.nodes[self.nodes])

    @cached_property
    def _box(self) -> tuple[Floats, Floats]:
        return self.points.min(axis=0), self.points.max(axis=0)

    @property
    def _boxes(self) -> Boxes:
        return boxes_of(self.setting)

    def across(self, axis: int, place: str) -> tuple[float, tuple[Probe, ...]]:
        """The size outside to outside along an axis at a place, as drawn [mm], and what it feels.

        place: a level and a side, either left out: the middle of the height, and the mean of both sides.

        Raises TruingError where the members have no extent there.
        """
        level = next((word for word in place.split() if word in LEVELS), "middle")
        other = 1 - axis
        wanted = [SIDES[word][1] for word in place.split() if word in SIDES and SIDES[word][0] == other] or [-1, 1]
        sizes, probes = [], []
        for side in wanted:
            ends = [self._corner(level, {axis: way, other: side}) for way in (-1, 1)]
            faces = [self._face(node, axis, way) for node, way in zip(ends, (-1, 1), strict=True)]
            sizes.append(faces[1] - faces[0])
            for node, way in zip(ends, (-1, 1), strict=True):
                point = self.setting.parts.model.nodes[node]
                probes.append(Probe(node, point, way * np.eye(3)[axis] / len(wanted)))
        size = float(np.mean(sizes))
        if size < FLAT_MM and len(self.members) > 1:
            raise TruingError(f"there is nothing to measure across at the {place or level}")
        return size, tuple(probes)

    def height(self, place: str, *, standing: bool) -> tuple[float, tuple[Probe, ...]]:
        """The height of the top at a place, or the mean of its corners; over the floor, or over the lowest of it."""
        words = [word for word in place.split() if word in SIDES]
        ways = [dict(pair) for pair in product(*([(a, w) for w in _ways(words, a)] for a in (0, 1)))]
        top = np.flatnonzero(self.points[:, 2] > self._box[1][2] - TOP_MM)
        nodes = [int(self.nodes[top[int(np.argmin(self._away(top, way)))]]) for way in ways]
        mine = self._elements(self.nodes.tolist())
        high = float(self._boxes.high[mine, 2].max())
        up = np.array([0.0, 0.0, 1.0])
        at = self.setting.parts.model.nodes
        probes = [Probe(node, at[node], up / len(nodes)) for node in nodes]
        if standing:
            return high, tuple(probes)
        feet = [self._corner("bottom", way) for way in ways]
        probes += [Probe(node, at[node], -up / len(feet)) for node in feet]
        return high - float(self._boxes.low[mine, 2].min()), tuple(probes)

    def corner(self, level: str, front_back: str, left_right: str) -> int:
        """The node nearest to a corner of the box round the members."""
        return self._corner(level, {1: SIDES[front_back][1], 0: SIDES[left_right][1]})

    def _corner(self, level: str, ways: dict[int, int]) -> int:
        low, high = self._box
        height = low[2] + LEVELS.index(level) / 2 * (high[2] - low[2])
        off = np.abs(self.points[:, 2] - height)
        here = np.flatnonzero(off <= max(WINDOW * (high[2] - low[2]), float(off.min()) + 1e-6))
        return int(self.nodes[here[int(np.argmin(self._away(here, ways) + NEAR_LEVEL * off[here]))]])

    def _away(self, which: Ints, ways: dict[int, int]) -> Floats:
        """(k,) how far some of the points are on plan from a corner of the box."""
        low, high = self._box
        parts = [np.abs(self.points[which, axis] - (high if way > 0 else low)[axis]) for axis, way in ways.items()]
        return np.asarray(np.sum(parts, axis=0))

    def _elements(self, nodes: Sequence[int]) -> Ints:
        return np.flatnonzero(np.isin(self.setting.parts.model.elements, nodes).any(axis=1))

    def _face(self, node: int, axis: int, way: int) -> float:
        """Where the metal at a node ends along an axis, from what runs across that axis there; else its axis itself."""
        model = self.setting.parts.model
        here = self._elements([node])
        runs = np.abs(
            np.diff(model.ends[here], axis=1)[:, 0]
            / np.linalg.norm(np.diff(model.ends[here], axis=1)[:, 0], axis=1)[:, None]
        )
        crossing = here[runs[:, axis] < CROSSING]
        if not len(crossing):
            return float(model.nodes[node, axis])
        boxes = self._boxes
        ends = np.where(
            way > 0,
            boxes.high[crossing, axis] - model.ends[crossing, :, axis].max(axis=1),
            boxes.low[crossing, axis] - model.ends[crossing, :, axis].min(axis=1),
        )
        return float(model.nodes[node, axis] + ends[int(np.argmax(way * ends))])


@lru_cache(maxsize=4)
def boxes_of(setting: Variation) -> Boxes:
    """Boxes round the elements of a piece."""
    return element_boxes(setting.framed)


def _ways(words: Sequence[str], axis: int) -> Iterator[int]:
    said = [SIDES[word][1] for word in words if SIDES[word][0] == axis]
    yield from said or (-1, 1)
