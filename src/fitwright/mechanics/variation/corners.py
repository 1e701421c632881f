"""Overall sizes: widths, depths and heights at the bottom, the middle and the top, and what squares them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from fitwright.mechanics.model import Floats
from fitwright.mechanics.variation.loose import Loose
from fitwright.mechanics.variation.model import Outcome
from fitwright.mechanics.variation.reading import Probe, Reading, apart, distance

LEVELS = ("bottom", "middle", "top")
CORNERS = {"front left": (-1, -1), "front right": (1, -1), "back left": (-1, 1), "back right": (1, 1)}
WINDOW = 0.12
APART_MM = 50.0
X, Y, Z = np.eye(3)

At = tuple[int, Floats]


@dataclass(frozen=True, eq=False)
class Corners:
    """The node, and its place (3,) [mm], nearest to each upright edge of the piece's box at each level."""

    at: Mapping[tuple[str, str], At]


def corners(parts: Loose) -> Corners:
    """At each level the nodes farthest out toward the four upright edges of the box round them."""
    nodes = parts.model.nodes
    low, high = nodes.min(axis=0), nodes.max(axis=0)
    found = {}
    for level, share in zip(LEVELS, (0.0, 0.5, 1.0), strict=True):
        height = low[2] + share * (high[2] - low[2])
        here = _near(nodes, height, WINDOW * (high[2] - low[2]))
        for corner, (x, y) in CORNERS.items():
            away = np.abs(nodes[here] - np.array([(low, high)[x > 0][0], (low, high)[y > 0][1], height]))
            node = int(here[int(np.argmin(away @ np.array([1.0, 1.0, 0.2])))])
            found[level, corner] = (node, nodes[node])
    return Corners(found)


def _near(nodes: Floats, height: float, window: float) -> np.ndarray[tuple[int], np.dtype[np.intp]]:
    off = np.abs(nodes[:, 2] - height)
    return np.flatnonzero(off <= max(window, float(off.min()) + 1e-6))


def overall(found: Corners) -> Iterator[Reading]:
    """Widths and depths at each level, heights of the top corners, diagonals, parallelism and twist."""
    widths: dict[tuple[str, str], tuple[Probe, ...]] = {}
    for level in LEVELS:
        yield from _sizes(found, level, widths)
        yield from _plan_diagonals(found, level)
    for side in ("front", "back"):
        yield from _face_diagonals(found, side)
        if ("bottom", side) in widths and ("top", side) in widths:
            yield _difference(f"parallel uprights, {side}", "parallel", widths["bottom", side], widths["top", side])
    if ("bottom", "front") in widths and ("bottom", "back") in widths:
        yield _difference("front against back, bottom", "parallel", widths["bottom", "front"], widths["bottom", "back"])
    for corner in dict.fromkeys(CORNERS):
        node, point = found.at["top", corner]
        yield Reading(Outcome(f"height, {corner}", "height", float(point[2])), (Probe(node, point, Z),))
    yield from _twist(found)


def _sizes(found: Corners, level: str, widths: dict[tuple[str, str], tuple[Probe, ...]]) -> Iterator[Reading]:
    for side in ("front", "back"):
        left, right = found.at[level, f"{side} left"], found.at[level, f"{side} right"]
        if right[1][0] - left[1][0] > APART_MM:
            widths[level, side] = apart(left, right, X)
            size = float(right[1][0] - left[1][0])
            yield Reading(Outcome(f"width, {side} {level}", "width", size), widths[level, side])
    for side in ("left", "right"):
        front, back = found.at[level, f"front {side}"], found.at[level, f"back {side}"]
        if back[1][1] - front[1][1] > APART_MM:
            size = float(back[1][1] - front[1][1])
            yield Reading(Outcome(f"depth, {side} {level}", "depth", size), apart(front, back, Y))


def _plan_diagonals(found: Corners, level: str) -> Iterator[Reading]:
    at = {corner: found.at[level, corner] for corner in CORNERS}
    if len({node for node, _ in at.values()}) == len(CORNERS):
        yield _diagonals(f"diagonals, {level}", at["front left"], at["back right"], at["front right"], at["back left"])


def _face_diagonals(found: Corners, side: str) -> Iterator[Reading]:
    at = [found.at[level, f"{side} {way}"] for level in ("bottom", "top") for way in ("left", "right")]
    if len({node for node, _ in at}) == len(at):
        yield _diagonals(f"diagonals, {side}", at[0], at[3], at[1], at[2])


def _diagonals(name: str, a: At, b: At, c: At, d: At) -> Reading:
    one, probes = distance(a, b)
    other, against = distance(c, d)
    return Reading(Outcome(name, "diagonals", one - other), (*probes, *_negative(against)))


def _difference(name: str, kind: str, one: tuple[Probe, ...], other: tuple[Probe, ...]) -> Reading:
    return Reading(Outcome(name, kind, 0.0), (*one, *_negative(other)))


def _negative(probes: tuple[Probe, ...]) -> tuple[Probe, ...]:
    return tuple(Probe(probe.node, probe.point, -probe.along) for probe in probes)


def _twist(found: Corners) -> Iterator[Reading]:
    """How far the top front has gone sideways past the top back, less the same at the bottom."""
    at = {(level, side): found.at[level, f"{side} left"] for level in ("bottom", "top") for side in ("front", "back")}
    if len({node for node, _ in at.values()}) == len(at):
        probes = [
            Probe(*at[level, side], X * (1 if (level == "top") == (side == "front") else -1)) for level, side in at
        ]
        yield Reading(Outcome("twist, top on bottom", "twist", 0.0), tuple(probes))
