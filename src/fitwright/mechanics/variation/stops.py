"""Where parts are held while they are joined: stops, blocks and the top of the bench."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from fitwright.mechanics.model import Floats
from fitwright.mechanics.variation.groups import Sequence_, joined_in, normal_of, points_of
from fitwright.mechanics.variation.loose import Loose
from fitwright.mechanics.variation.seats import directions

BENCH, BLOCK, TOP, SQUARE = "bench_stop", "block_length", "bench_floor", "square"
CORNER_RAD = 0.05
UPRIGHT = 0.8


@dataclass(frozen=True, eq=False)
class Stop:
    """A node held along a direction (3,) while clamped.

    kind: whose spread it has (a field of `Spreads`); shared: stops with the same word here stray together, "" alone.
    turn: holds the turning about the direction instead.
    """

    node: int
    along: Floats
    kind: str
    shared: str = ""
    turn: bool = False


@dataclass(frozen=True, eq=False)
class Stage:
    """One set-up: the stops that hold the parts, and the meetings that are then fastened (by number)."""

    name: str
    stops: tuple[Stop, ...]
    meetings: tuple[int, ...]


def usual_stages(parts: Loose, sequence: Sequence_) -> tuple[Stage, ...]:
    """Flat frames on the bench, all in one solve for they do not touch one another; then the whole.

    A flat frame is held down on the bench at every joint and bend, and each straight of it across its run by a stop at
    both ends. In the whole, the largest group lies on the bench; other flat frames and bent members are held the same
    way within their plane, set up by a square and pressed to what they join; a single straight member is held across
    at both ends, along the part it meets by a block (blocks of one length are one block), turned by a square, and
    pressed home along itself by hand. An end with a foot is set along the member by a stop of its own, for the feet are
    what the piece is squared to.
    Holds for parts set up by stops; where the shop does otherwise, give other stages. Common practice.
    """
    flat = [group for group in sequence if len(group) > 1]
    early = tuple(stop for group in flat for stop in _flat(parts, group, joined_in(parts, group), on_bench=True))
    done = tuple(number for group in flat for number in joined_in(parts, group))
    left = tuple(i for i in range(len(parts.meetings)) if i not in set(done))
    stages: tuple[Stage, ...] = (Stage("flat frames", early, done),) if done else ()
    if left:
        stages += (Stage("the whole", tuple(_whole(parts, sequence, left)), left),)
    return stages


def _whole(parts: Loose, sequence: Sequence_, left: tuple[int, ...]) -> Iterator[Stop]:
    grouped = {k for group in sequence for k in group}
    base = max(sequence, key=lambda group: _span(parts, group), default=None)
    for group in sequence:
        yield from _flat(parts, group, left, on_bench=group is base)
        if group is not base:
            yield from _squared(parts, group)
    for k in parts.nodes_of:
        if k not in grouped:
            yield from _single(parts, k, left)


def _span(parts: Loose, group: Sequence[int]) -> float:
    points = points_of(parts, group)
    return float(np.prod(np.sort(np.ptp(points, axis=0))[1:] + 1.0))


def _flat(parts: Loose, group: Sequence[int], meetings: Sequence[int], *, on_bench: bool) -> Iterator[Stop]:
    normal = normal_of(points_of(parts, group))
    if normal is None:
        for k in group:
            yield from _single(parts, k, meetings)
        return
    for k in group:
        for run in straights(parts, k):
            along = _way(parts, run)
            across = np.cross(normal, along)
            yield from (Stop(node, across, BENCH) for node in run)
        yield from _feet(parts, k)
    if on_bench:
        places = {node for k in group for run in straights(parts, k) for node in run}
        places |= {node for i in meetings for node in parts.meetings[i].nodes if parts.member_of[node] in set(group)}
        yield from (Stop(node, normal, TOP) for node in sorted(places))


def _squared(parts: Loose, group: Sequence[int]) -> Iterator[Stop]:
    """A flat frame set up by a square, for its two tilts out of its plane.

    As a whole, so held by all its straights; a ring, that has none, by all there is of it.
    """
    normal = normal_of(points_of(parts, group))
    if normal is not None:
        axes = directions(normal, np.eye(3)[int(np.argmin(np.abs(normal)))])
        held = {node for k in group for run in straights(parts, k) for node in run}
        nodes = sorted(held or {int(node) for k in group for node in parts.nodes_of[k]})
        name = parts.model.node_labels[nodes[0]]
        for tilt, way in enumerate(axes[1:], 1):
            yield from (Stop(node, way, SQUARE, f"square {tilt} at {name}", turn=True) for node in nodes)


def _single(parts: Loose, k: int, meetings: Sequence[int]) -> Iterator[Stop]:
    runs = straights(parts, k)
    for run in runs:
        along = _way(parts, run)
        for node in run:
            block = _block(parts, node, meetings, along)
            first = np.eye(3)[int(np.argmin(np.abs(along)))] if block is None else block[0]
            second = np.cross(along, first)
            yield Stop(
                node, np.cross(second, along), BENCH if block is None else BLOCK, "" if block is None else block[1]
            )
            yield Stop(node, second, BENCH)
    if len(runs) == 1:
        yield Stop(runs[0][0], _way(parts, runs[0]), SQUARE, turn=True)
    yield from _feet(parts, k)


def _block(parts: Loose, node: int, meetings: Sequence[int], along: Floats) -> tuple[Floats, str] | None:
    """The way the part that a branch meets runs, and the name of the block that sets the branch along it."""
    for i in meetings:
        meeting = parts.meetings[i]
        if meeting.nodes[0] == node and meeting.end is not None:
            main = int(np.argmax(np.abs(meeting.axes[1])))
            run = meeting.axes[1] * np.sign(meeting.axes[1][main])
            return run, f"{float(parts.model.nodes[meeting.nodes[1]] @ run):.0f} mm along {'XYZ'[main]}"
    return None


def _feet(parts: Loose, k: int) -> Iterator[Stop]:
    """A stop along the member at each end that carries a foot."""
    nodes = parts.nodes_of[k]
    for end, beside in ((nodes[0], nodes[1]), (nodes[-1], nodes[-2])):
        points = parts.model.nodes
        along = (points[beside] - points[end]) / np.linalg.norm(points[beside] - points[end])
        if any(foot.node == end for foot in parts.feet) and abs(along[2]) > UPRIGHT:
            yield Stop(int(end), along, BENCH)


def straights(parts: Loose, k: int) -> list[tuple[int, int]]:
    """First and last node of each straight of a member; a chord of a bend turns from its neighbour and is none."""
    nodes = parts.nodes_of[k]
    legs = np.diff(parts.model.nodes[nodes], axis=0)
    ways = legs / np.linalg.norm(legs, axis=1)[:, None]
    turned = np.arccos(np.clip(np.einsum("ij,ij->i", ways[:-1], ways[1:]), -1, 1)) > CORNER_RAD
    breaks = [0, *(np.flatnonzero(turned) + 1).tolist(), len(legs)]
    runs = [(a, b) for a, b in pairwise(breaks) if b > a]
    whole = [(a, b) for a, b in runs if b - a > 1 or len(runs) == 1 or _long(legs, a)]
    return [(int(nodes[a]), int(nodes[b])) for a, b in whole]


def _long(legs: Floats, at: int) -> bool:
    """Whether a single leg is a straight and not a chord: twice as long as the shortest."""
    sizes = np.linalg.norm(legs, axis=1)
    return bool(sizes[at] > 2 * sizes.min())


def _way(parts: Loose, run: tuple[int, int]) -> Floats:
    along = parts.model.nodes[run[1]] - parts.model.nodes[run[0]]
    unit: Floats = along / np.linalg.norm(along)
    return unit
