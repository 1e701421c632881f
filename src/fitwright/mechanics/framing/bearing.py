"""How a panel's load gets to the members that it rests on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from fitwright.mechanics.framing.line import WorkingLine
from fitwright.mechanics.framing.marks import Wanted
from fitwright.mechanics.framing.model import PanelPath
from fitwright.mechanics.framing.slats import Stretch, by_slats
from fitwright.mechanics.model import Bools, Floats, Ints
from fitwright.piece.model import Panel

CELL_MM = 40.0
NEAR_FACE_MM = 3.0
ALONG_FACE = 0.2
PARALLEL = 0.95
ONE_LINE = 0.9995


@dataclass(frozen=True, eq=False)
class Elements:
    """The elements as a panel sees them: member (m,), ends (m, 2, 3), stations (m, 2), nodes (m, 2)."""

    member: Ints
    ends: Floats
    nodes: Ints
    lines: Mapping[int, WorkingLine]


@dataclass(frozen=True, eq=False)
class Bearing:
    """A line on which the panel rests: elements in order, a point (3,) and direction (3,) of it.

    A post under the panel has one element and no direction.
    """

    member: int
    elements: Ints
    point: Floats
    direction: Floats | None


def ask_bearings(panel: Panel, wanted: Wanted) -> None:
    """Ask for nodes where the edges of a panel cross the members that it rests on, and at its middle."""
    for k in panel.rests_on:
        line = wanted.lines.get(k)
        for axis in _plane_axes(panel) if line else ():
            middle = float(panel.low[axis] + panel.high[axis]) / 2
            for value in (float(panel.low[axis]), middle, float(panel.high[axis])):
                for s in line.crossings(axis, value) if line else ():
                    wanted.at(k, s)


def panel_path(index: int, panel: Panel, elements: Elements, node_count: int) -> PanelPath:
    """The way of a panel's load into the frame, cell by cell of its face.

    On two parallel lines: by the lever rule, as a board that is not fixed turns about one of them. On more: slats each
    to the two members under them between which the load lies, for slats carry one way only; all else, and what lies on
    posts, to the nearest (the 45 degree rule of tributary area). The load stands in the middle of the width on which
    the panel bears, whose distance from the element gives it a torque.
    Holds for panels stiff enough to carry between their supports; a continuous board over three lines loads the middle
    one by up to a quarter more (common practice to leave that out).
    Source: statics; tributary area is common practice.
    """
    bearings = _bearings(panel, elements)
    centres, areas = _cells(panel, bearings, elements)
    share = np.zeros((len(elements.member), len(areas)))
    node_share = np.zeros((node_count, len(areas)))
    if bearings:
        part = _split(bearings, centres, panel, elements)
        for bearing, own in zip(bearings, part, strict=True):
            _hand_over(bearing, own, centres, elements, share, node_share)
    arm = _arms(panel, bearings, elements)
    return PanelPath(index, centres, areas, share, node_share, arm, _loose(panel, bearings))


def _loose(panel: Panel, bearings: list[Bearing]) -> str:
    if not bearings:
        return f"{panel.name} rests on no member: bring a member under it, or move it down onto one"
    if len(bearings) == 1 and bearings[0].direction is not None and panel.fastened == "rests":
        return f"{panel.name} rests on one member only and tips off it: add a second one, or fasten it"
    return ""


def _plane_axes(panel: Panel) -> tuple[int, int]:
    first, second = (axis for axis in range(3) if axis != panel.normal)
    return first, second


def _face(panel: Panel) -> float:
    main = [board for board in panel.boards if board.role != "batten"]
    axis = panel.normal
    return min(float(b.low[axis]) for b in main) if panel.grows > 0 else max(float(b.high[axis]) for b in main)


def _bearings(panel: Panel, elements: Elements) -> list[Bearing]:
    """Lines and posts; a post whose top lies in a line is a part of it."""
    found = [bearing for k in panel.rests_on if k in elements.lines for bearing in _on_member(panel, k, elements)]
    lines = [bearing for bearing in found if bearing.direction is not None]
    posts = [bearing for bearing in found if bearing.direction is None]
    return lines + [post for post in posts if not any(_beside(post, line, elements) for line in lines)]


def _beside(post: Bearing, line: Bearing, elements: Elements) -> bool:
    reach = elements.lines[post.member].member.body.reach + elements.lines[line.member].member.body.reach
    ends = elements.ends[line.elements].reshape(-1, 3)
    assert line.direction is not None
    along = (ends - line.point) @ line.direction
    at = float((post.point - line.point) @ line.direction)
    near = _distance(line, post.point[None], elements)[0] < reach
    return bool(near and along.min() - reach < at < along.max() + reach)


def _on_member(panel: Panel, k: int, elements: Elements) -> list[Bearing]:
    """Where member k carries the panel: the elements that run along its face under it, else the end of a post.

    A ring or a bent loop carries it by every straight and chord of its own.
    """
    own = np.flatnonzero(elements.member == k)
    ends, axes = elements.ends[own], list(_plane_axes(panel))
    reach = elements.lines[k].member.body.reach + NEAR_FACE_MM
    middles = ends.mean(axis=1)
    run = ends[:, 1] - ends[:, 0]
    flat = np.abs(run[:, panel.normal]) < ALONG_FACE * np.linalg.norm(run, axis=1)
    near = np.abs(middles[:, panel.normal] - _face(panel)) < reach
    under = ((middles[:, axes] > panel.low[axes] - reach) & (middles[:, axes] < panel.high[axes] + reach)).all(axis=1)
    bears = own[flat & near & under]
    if len(bears):
        return [_line(k, np.array(run), elements) for run in _straight_runs(bears, elements.ends[bears], axes)]
    tops = ends.reshape(-1, 3)
    nearest = int(np.argmin(np.abs(tops[:, panel.normal] - _face(panel))))
    return [Bearing(k, own[[nearest // 2]], tops[nearest], None)]


def _straight_runs(bears: Ints, ends: Floats, axes: list[int]) -> list[list[int]]:
    """Elements (b,) with ends (b, 2, 3), gathered by the lines on which they lie in the plane of the panel's face."""
    runs: list[tuple[Floats, Floats, list[int]]] = []
    for element, (start, end) in zip(bears.tolist(), ends[:, :, axes], strict=True):
        way, middle = _unit(end - start), (start + end) / 2
        for point, direction, members in runs:
            aside = middle - point - ((middle - point) @ direction) * direction
            if abs(float(way @ direction)) > ONE_LINE and float(np.linalg.norm(aside)) < NEAR_FACE_MM:
                members.append(element)
                break
        else:
            runs.append((start, way, [element]))
    return [members for _, _, members in runs]


def _line(k: int, run: Ints, elements: Elements) -> Bearing:
    """A bearing along the elements of a run, put in order: a loop may begin in the middle of one."""
    start = elements.ends[run[0], 0]
    direction = _unit(elements.ends[run[0], 1] - start)
    ordered = run[np.argsort(elements.ends[run].mean(axis=1) @ direction)]
    start, end = elements.ends[ordered[0], 0], elements.ends[ordered[-1], 1]
    return Bearing(k, ordered, start, _unit(end - start))


def _unit(vector: Floats) -> Floats:
    return np.asarray(vector / max(float(np.linalg.norm(vector)), 1e-9))


def _cells(panel: Panel, bearings: list[Bearing], elements: Elements) -> tuple[Floats, Floats]:
    """Middles (c, 3) and areas (c,) of cells whose edges lie at the elements' ends and at the panel's middle lines."""
    first, second = _plane_axes(panel)
    edges = [_edges(panel, axis, bearings, elements) for axis in (first, second)]
    middle = [(e[1:] + e[:-1]) / 2 for e in edges]
    size = [np.diff(e) for e in edges]
    grid = np.meshgrid(*middle, indexing="ij")
    centres = np.full((grid[0].size, 3), _face(panel))
    centres[:, first], centres[:, second] = grid[0].ravel(), grid[1].ravel()
    return centres, np.outer(*size).ravel()


def _edges(panel: Panel, axis: int, bearings: list[Bearing], elements: Elements) -> Floats:
    low, high = float(panel.low[axis]), float(panel.high[axis])
    hard = [low, (low + high) / 2, high]
    for bearing in bearings:
        hard += elements.ends[bearing.elements, :, axis].ravel().tolist()
    edges = np.unique(np.round(np.clip(hard, low, high), 4))
    parts = np.ceil(np.diff(edges) / CELL_MM).astype(int)
    runs = [np.linspace(a, b, n, endpoint=False) for a, b, n in zip(edges[:-1], edges[1:], parts, strict=True)]
    return np.concatenate([*runs, edges[-1:]])


def _split(bearings: list[Bearing], centres: Floats, panel: Panel, elements: Elements) -> Floats:
    """(b, c) which part of each cell's load each bearing takes."""
    if _two_lines(bearings):
        first, second = (b.direction for b in bearings)
        assert first is not None
        assert second is not None
        normal = np.eye(3)[panel.normal]
        to_second = _unit(np.cross(normal, first))
        to_first = _unit(np.cross(normal, second))
        gap = bearings[1].point - bearings[0].point
        to_second = to_second * np.sign(gap @ to_second)
        to_first = to_first * np.sign(-gap @ to_first)
        one, two = (centres - bearings[0].point) @ to_second, (centres - bearings[1].point) @ to_first
        total = one + two
        return np.array([two / total, one / total])
    away = np.array([_distance(bearing, centres, elements) for bearing in bearings])
    nearest = away.min(axis=0)
    ties = away < nearest + 1e-6
    part = np.asarray(ties / ties.sum(axis=0))
    return _by_slats(bearings, centres, panel, elements, part) if panel.kind == "slats" else part


def _by_slats(bearings: list[Bearing], centres: Floats, panel: Panel, elements: Elements, part: Floats) -> Floats:
    """The split of slats; a rail is taken to reach under a slat as far as its outline does beyond its line."""
    stretches: list[Stretch | None] = []
    for bearing in bearings:
        if bearing.direction is None:
            stretches.append(None)
            continue
        along = (elements.ends[bearing.elements] - bearing.point) @ bearing.direction
        reach = elements.lines[bearing.member].member.body.reach
        stretches.append(
            Stretch(bearing.point, bearing.direction, float(along.min()) - reach, float(along.max()) + reach)
        )
    board = next(board for board in panel.boards if board.role == "slat")
    return by_slats(stretches, centres, board.along, board.across, part)


def _two_lines(bearings: list[Bearing]) -> bool:
    if len(bearings) != 2 or any(b.direction is None for b in bearings):
        return False
    first, second = (b.direction for b in bearings)
    assert first is not None
    assert second is not None
    gap = bearings[1].point - bearings[0].point
    apart = float(np.linalg.norm(np.cross(gap, first)))
    return abs(float(first @ second)) > PARALLEL and apart > 1.0


def _distance(bearing: Bearing, centres: Floats, elements: Elements) -> Floats:
    """How far points (c, 3) are from the stretch on which a bearing carries, or from the top of a post [mm]."""
    away = centres - bearing.point
    if bearing.direction is not None:
        along = (elements.ends[bearing.elements] - bearing.point) @ bearing.direction
        at = np.clip(away @ bearing.direction, along.min(), along.max())
        away = away - at[:, None] * bearing.direction
    return np.asarray(np.linalg.norm(away, axis=1))


def _hand_over(
    bearing: Bearing, own: Floats, centres: Floats, elements: Elements, share: Floats, node_share: Floats
) -> None:
    """Put a bearing's part (c,) of the cells on the element under each cell, or on the post's top node."""
    if bearing.direction is None:
        tops = elements.ends[bearing.elements[0]]
        top = int(np.argmin(np.linalg.norm(tops - bearing.point, axis=1)))
        node_share[elements.nodes[bearing.elements[0], top]] += own
        return
    along = (elements.ends[bearing.elements] - bearing.point) @ bearing.direction
    at = (centres - bearing.point) @ bearing.direction
    which = np.clip(np.searchsorted(along[:, 1], at), 0, len(along) - 1)
    share[bearing.elements[which], np.arange(len(at))] += own


def _arms(panel: Panel, bearings: list[Bearing], elements: Elements) -> Floats:
    """(m, 3) from the elements' middles to the middle of the width on which the panel bears; zero for round stock."""
    arm = np.zeros((len(elements.member), 3))
    for bearing in bearings:
        line = elements.lines[bearing.member]
        if bearing.direction is None or line.member.stock.section.is_round:
            continue
        across = _unit(np.cross(np.eye(3)[panel.normal], bearing.direction))
        for m in bearing.elements.tolist():
            arm[m] = across * _bearing_offset(panel, elements.ends[m].mean(axis=0), across, line)
    return arm


def _bearing_offset(panel: Panel, middle: Floats, across: Floats, line: WorkingLine) -> float:
    section = line.member.stock.section
    frame = line.member.body.frame
    reach = (section.outline() - section.centroid) @ (frame @ across)
    corners = np.array([(panel.low - middle) @ across, (panel.high - middle) @ across])
    low, high = max(float(reach.min()), float(corners.min())), min(float(reach.max()), float(corners.max()))
    return (low + high) / 2 if high > low else float(np.clip(0.0, min(low, high), max(low, high)))


def covered(path: PanelPath, axis: int, low: float, high: float) -> Bools:
    """(c,) which cells of a panel lie between two coordinates."""
    at = path.centres[:, axis]
    return np.asarray((at > low) & (at < high))
