"""What acts on a framed piece, pattern by pattern: its mass, the loads of the brief, a push from the side."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from fitwright.mechanics.framing.model import Framed, PanelPath
from fitwright.mechanics.loads import GRAVITY, Loads, forces
from fitwright.mechanics.model import Floats, Ints

LEVEL = 0.2
SAME_HEIGHT_MM = 1.0
SAME_SIDE_MM = 20.0
DOWN = np.array([0.0, 0.0, -1.0])


@dataclass(frozen=True, eq=False)
class Pattern:
    """One way of acting on the frame: nodal (n, 6) [N, N mm] and line (m, 3) [N/mm], global."""

    nodal: Floats
    line: Floats

    def __add__(self, other: Pattern) -> Pattern:
        """Both together."""
        return Pattern(self.nodal + other.nodal, self.line + other.line)

    @property
    def is_empty(self) -> bool:
        """Whether nothing acts."""
        return not (self.nodal.any() or self.line.any())


@dataclass(frozen=True, eq=False)
class Payload:
    """The load of the brief on one copy of a part: its name and part, its force [N] and how high it lies [mm]."""

    name: str
    part: str
    force: float
    height: float


def nothing(framed: Framed) -> Pattern:
    """A pattern in which nothing acts."""
    return Pattern(np.zeros((framed.model.node_count, 6)), np.zeros((framed.model.element_count, 3)))


def as_loads(framed: Framed, patterns: Sequence[Pattern]) -> Loads:
    """Patterns as load cases side by side."""
    nodal = np.stack([p.nodal.ravel() for p in patterns], axis=1)
    return replace(forces(framed.model, nodal), line=np.stack([p.line for p in patterns], axis=2))


def mass_pattern(framed: Framed, direction: Floats = DOWN, acceleration: float = GRAVITY) -> Pattern:
    """The mass of everything times an acceleration [m/s2] along a unit vector (3,).

    Members along their lines, panels by the way that their load takes, hardware and sleeves at the nearest node. What
    is only counted, such as a bag of screws, weighs in proportion everywhere.
    """
    pull = direction * acceleration
    total = Pattern(np.zeros((framed.model.node_count, 6)), framed.model.mass_per_mm[:, None] * pull)
    for path in framed.panels:
        cells = framed.piece.panels[path.panel].mass * path.areas / path.areas.sum()
        total = total + _on_panel(framed, path, cells, pull)
    total.nodal[:, :3] += _lumps(framed)[:, None] * pull
    factor = _all_masses(framed)
    return Pattern(total.nodal * factor, total.line * factor)


def _lumps(framed: Framed) -> Floats:
    """(n,) mass of hardware and sleeves at the node nearest to each [kg]."""
    piece, nodes = framed.piece, framed.model.nodes
    mass = np.zeros(len(nodes))
    items = [(h.at, h.mass * h.each) for h in piece.hardware if h.placed and h.mass]
    items += [(m.centre, m.mass) for m in piece.members if m.sleeve_of is not None]
    for at, amount in items:
        mass[int(np.argmin(((nodes - at) ** 2).sum(axis=1)))] += amount
    return mass


def _all_masses(framed: Framed) -> float:
    placed = [h for h in framed.piece.hardware if h.placed]
    known = sum(m.mass for m in framed.piece.members) + sum(p.mass for p in framed.piece.panels)
    known += sum(h.mass * h.each for h in placed)
    return framed.piece.mass / known if known > 0 else 1.0


def _on_panel(framed: Framed, path: PanelPath, cells: Floats, pull: Floats) -> Pattern:
    """Forces cells (c,) along `pull` (3,) on a panel, on the members below with the torque of their distance."""
    at_elements = path.share @ cells
    line = (at_elements / framed.lengths)[:, None] * pull
    nodal = np.zeros((framed.model.node_count, 6))
    nodal[:, :3] = (path.node_share @ cells)[:, None] * pull
    turning = np.cross(path.arm, at_elements[:, None] * pull) / 2
    for end in (0, 1):
        np.add.at(nodal[:, 3:], framed.model.elements[:, end], turning)
    return Pattern(nodal, line)


def payload_patterns(framed: Framed, loads: Sequence[tuple[str, float]]) -> list[tuple[Payload, Pattern]]:
    """The loads of the brief (part, force [N]) on each copy of each part, as patterns that push down.

    On a panel spread evenly over its face; on a member over its level straights, or over its whole length where none is
    level, for what is hung or laid does not stay on an upright.
    """
    found: list[tuple[Payload, Pattern]] = []
    for part, force in loads:
        for path in framed.panels:
            panel = framed.piece.panels[path.panel]
            if panel.part == part and not path.loose:
                cells = force * path.areas / path.areas.sum()
                payload = Payload(panel.name, part, force, float(panel.high[2]))
                found.append((payload, _on_panel(framed, path, cells, DOWN)))
        for name, index in _copies(framed, part).items():
            found.append((_hung(framed, name, part, force, index), _on_members(framed, index, force)))
    return found


def half(framed: Framed, loads: Sequence[tuple[str, float]], axis: int, sign: float) -> Pattern:
    """The same loads, only on the half of the piece on one side (sign) of its middle along an axis."""
    middle = _middle(framed, axis)
    total = nothing(framed)
    for part, force in loads:
        for path in framed.panels:
            if framed.piece.panels[path.panel].part == part and not path.loose:
                there = sign * (path.centres[:, axis] - middle) > 0
                total = total + _on_panel(
                    framed, path, np.where(there, force * path.areas / path.areas.sum(), 0.0), DOWN
                )
        for index in _copies(framed, part).values():
            total = total + _on_members(framed, index, force, _beyond(framed, index, axis, sign, middle))
    return total


def _middle(framed: Framed, axis: int) -> float:
    """The middle of members and panels along an axis [mm]: casters that trail to one side shift it not."""
    boxes = [line.member.body.box for line in framed.lines.values()]
    boxes += [(panel.low, panel.high) for panel in framed.piece.panels]
    return (min(float(low[axis]) for low, _ in boxes) + max(float(high[axis]) for _, high in boxes)) / 2


def _beyond(framed: Framed, index: Ints, axis: int, sign: float, middle: float) -> Floats:
    """(i,) which part of each element lies beyond a plane; one that lies in it, a half."""
    ends = np.sort(sign * (framed.model.ends[index, :, axis] - middle), axis=1)
    run = ends[:, 1] - ends[:, 0]
    flat = run < SAME_HEIGHT_MM
    part = np.clip(ends[:, 1], 0.0, None) / np.where(flat, 1.0, run)
    beside = np.where(np.abs(ends.mean(axis=1)) < SAME_HEIGHT_MM, 0.5, (ends.mean(axis=1) > 0).astype(np.float64))
    return np.asarray(np.where(flat, beside, np.clip(part, 0.0, 1.0)))


def _copies(framed: Framed, part: str) -> dict[str, Ints]:
    """The elements that carry a load on each copy of a member part; a mitred part's legs are one copy."""
    copies: dict[str, list[int]] = {}
    for k, line in framed.lines.items():
        if line.member.part == part:
            rest = line.member.name[len(part) :]
            copies.setdefault(part + re.sub(r" leg \d+$", "", rest), []).append(k)
    return {name: _carrying(framed, members) for name, members in copies.items()}


def _carrying(framed: Framed, members: list[int]) -> Ints:
    own = np.flatnonzero(np.isin(framed.member_of, members))
    level = own[(framed.slope[own] <= LEVEL) & ~framed.curved[own]]
    return level if len(level) else own


def _hung(framed: Framed, name: str, part: str, force: float, index: Ints) -> Payload:
    return Payload(name, part, force, float(framed.middles[index, 2].max()))


def _on_members(framed: Framed, index: Ints, force: float, part: Floats | float = 1.0) -> Pattern:
    """A force spread over elements; part: (i,) of each that is loaded, smeared over it."""
    pattern = nothing(framed)
    pattern.line[index, 2] = -part * force / float(framed.lengths[index].sum())
    return pattern


@dataclass(frozen=True, eq=False)
class Touch:
    """Where a push meets the piece: points (p, 3) [mm], each on its node (p,) by a rigid arm."""

    nodes: Ints
    points: Floats

    def moved(self, framed: Framed, displacements: Floats) -> Floats:
        """(p, 3) movement of the points under displacements (n, 6) [mm]."""
        at = displacements[self.nodes]
        return np.asarray(at[:, :3] + np.cross(at[:, 3:], self.points - framed.model.nodes[self.nodes]))


def push_pattern(framed: Framed, direction: Floats, force: float, height: float) -> tuple[Pattern, Touch]:
    """A level push [N] along a unit vector (3,) at a height [mm], and where it meets the piece.

    It meets the members that come first on that side, shared evenly. Where no member passes that height (a push on a
    panel above the frame, say), the nearest members take it with the moment of the difference in height.
    """
    ends = framed.model.ends.reshape(-1, 3)
    nodes = framed.model.elements.ravel()
    gap = np.abs(ends[:, 2] - height)
    near = gap < max(SAME_HEIGHT_MM, float(gap.min()) + SAME_HEIGHT_MM)
    first = ends @ direction
    near &= first < first[near].min() + SAME_SIDE_MM
    chosen = np.unique(nodes[near])
    places = np.array([ends[near & (nodes == node)].mean(axis=0) for node in chosen])
    places[:, 2] = height
    pattern = nothing(framed)
    each = direction * force / len(chosen)
    pattern.nodal[chosen, :3] += each
    pattern.nodal[chosen, 3:] += np.cross(places - framed.model.nodes[chosen], each)
    return pattern, Touch(chosen, places)
