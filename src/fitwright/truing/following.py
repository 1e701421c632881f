"""Where every part will lie, given what is made: parts not made yet follow, straight for straight."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from fitwright.mechanics.model import Floats
from fitwright.mechanics.variation import Variation
from fitwright.mechanics.variation.model import Outcome
from fitwright.mechanics.variation.reading import Probe
from fitwright.mechanics.variation.reading import Reading as Read
from fitwright.mechanics.variation.setting import OF_SHELVES
from fitwright.mechanics.variation.sources import bends_of, copies
from fitwright.mechanics.variation.stagewise import felt_after, joined_after
from fitwright.piece.as_made import Moves
from fitwright.truing.progress import Made, joined_to

ASKEW_MM = 3.0
"""Ends of a straight part that differ less across its run than this are taken by their mean, so that it stays level and
plumb on the bench: common practice, what a hand springs straight in a tube while it is tacked."""
ALIGN = 1e-9


@dataclass(frozen=True, eq=False)
class Following:
    """A piece of which some is made.

    errors: (e,) elementary ones as they probably are, loose bends touched up. off: (o,) how far outcomes probably will
    be off with all corrections made [mm].
    """

    setting: Variation
    made: Made
    errors: Floats
    off: Floats

    @cached_property
    def moves(self) -> Moves:
        """How parts lie otherwise than drawn."""
        piece = self.setting.framed.piece
        if self._finished:
            return Moves({}, self._panels(), {})
        members = {piece.members[k].name: shift for k, shift in self.vertices.items() if np.any(np.abs(shift) > 0.01)}
        return Moves(members, self._panels(), self._hardware())

    def carried(self) -> Floats:
        """(o,) how far outcomes move with the parts that lie otherwise [mm]; nothing once every part is joined."""
        found = np.zeros(len(self.setting.outcomes))
        if self._finished:
            return found
        for i, reading in enumerate(self.setting.readings):
            for probe in reading.probes:
                member = int(self.setting.parts.member_of[probe.node])
                if member in self.vertices:
                    found[i] += float(probe.along @ self._at(member, probe.point, self.vertices))
        return found

    @property
    def _finished(self) -> bool:
        """Whether every part is joined, so that none of them can follow any more."""
        return self.made.stages == len(self.setting.stages) > 0

    def painted(self, film: float | None) -> Moves:
        """The same with shelves smaller by a film of paint on both sides of them [mm]; None for what is as drawn."""
        if film is None:
            return self.moves
        panels = dict(self.moves.panels)
        for panel in self.setting.framed.piece.panels:
            shift = self._panel(panel.name) if panel.name not in self.made.panels else None
            if shift is not None:
                held = np.array([self._held(panel.name, axis) for axis in range(3)])
                low, high = panels.get(panel.name, (np.zeros(3), np.zeros(3)))
                panels[panel.name] = (low + film * held, high - film * held)
        return Moves(self.moves.members, panels, self.moves.hardware)

    def _held(self, name: str, axis: int) -> bool:
        """Whether a shelf drops in between parts along an axis."""
        return bool(self._plays(name, axis))

    @cached_property
    def vertices(self) -> Mapping[int, Floats]:
        """(v, 3) of each member's path [mm]: of made parts by what was read, of the others by what they meet."""
        found: dict[int, Floats] = {}
        for k in sorted(self.made.members):
            if k not in found and k in self.setting.parts.nodes_of:
                group = joined_to(self.made, k)
                found |= self._joined(group) if len(group) > 1 else {k: self._loose(k, self.errors)}
        self._match_copies(found)
        self._propagate(found)
        return found

    def _loose(self, k: int, errors: Floats) -> Floats:
        """A loose part by its legs' lengths, lying evenly about its drawn place, its bends brought to their angle."""
        member = self.setting.framed.piece.members[k]
        legs = member.path.legs if not member.path.closed else member.path.legs[:-1]
        units = legs / np.linalg.norm(legs, axis=1)[:, None]
        longer = self._longer(k, len(legs), errors)
        shift = np.vstack([np.zeros(3), np.cumsum(units * longer[:, None], axis=0)])
        shift = shift - shift.mean(axis=0)
        feet = [i for i in (0, -1) if self._stands(k, i)]
        if feet:
            shift[:, 2] -= np.mean([shift[i, 2] for i in feet])
        return np.asarray(shift)

    def _longer(self, k: int, legs: int, errors: Floats) -> Floats:
        """(legs,) how much longer each leg is than drawn [mm]."""
        at = {effect.key: float(errors[i]) for i, effect in enumerate(self.setting.found)}
        bends = len(bends_of(self.setting.framed, k))
        longer = np.zeros(legs)
        longer[0] += at.get(f"tip:{k}:0", 0.0)
        longer[-1] += at.get(f"tip:{k}:1", 0.0)
        if bends == legs - 1:
            for number in range(1, bends + 1):
                moved = at.get(f"place:{k}:{number}", 0.0)
                longer[number - 1] += moved
                longer[number] -= moved
        return longer

    def _stands(self, k: int, end: int) -> bool:
        node = self.setting.parts.nodes_of[k][end]
        return any(foot.node == node for foot in self.setting.parts.feet)

    def _joined(self, group: Sequence[int]) -> dict[int, Floats]:
        """Parts that are joined, straight by straight, lying evenly about their drawn place."""
        setting, parts = self.setting, self.setting.parts
        inside = [k for k in group if k in parts.nodes_of]
        nodes = np.concatenate([parts.nodes_of[k] for k in inside])
        at = parts.model.nodes
        reads = [Read(Outcome("", "", 0.0), (Probe(int(n), at[n], axis),)) for n in nodes for axis in np.eye(3)]
        felt = felt_after(setting, joined_after(setting, group), reads)
        shift = (felt @ self.errors).reshape(-1, 3)
        shift = settled(at[nodes], shift)
        by_node = dict(zip(nodes.tolist(), shift, strict=True))
        return {k: self._straightened(k, np.array([by_node[int(n)] for n in parts.nodes_of[k]])) for k in inside}

    def _straightened(self, k: int, shift: Floats) -> Floats:
        """(v, 3) of the vertices, so that each leg lies across its run where its nodes do on the average."""
        parts, member = self.setting.parts, self.setting.framed.piece.members[k]
        at, path = parts.model.nodes[parts.nodes_of[k]], member.path
        rows, wanted = [], []
        count = len(path.vertices)
        for leg, vector in enumerate(path.legs):
            first, second = leg, (leg + 1) % count
            unit = vector / np.linalg.norm(vector)
            along = (at - path.vertices[first]) @ unit
            on = (
                (np.linalg.norm(at - path.vertices[first] - along[:, None] * unit, axis=1) < ASKEW_MM * 4)
                & (along > -1.0)
                & (along < np.linalg.norm(vector) + 1.0)
            )
            if not on.any():
                continue
            mean = shift[on].mean(axis=0)
            across = np.eye(3) - np.outer(unit, unit)
            for vertex in (first, second):
                row = np.zeros((3, 3 * count))
                row[:, 3 * vertex : 3 * vertex + 3] = across
                rows.append(row)
                wanted.append(across @ mean)
        for vertex, node in ((0, 0), (count - 1, -1)):
            if not path.closed:
                unit = path.legs[0 if vertex == 0 else -1]
                unit = unit / np.linalg.norm(unit)
                row = np.zeros((1, 3 * count))
                row[0, 3 * vertex : 3 * vertex + 3] = unit
                rows.append(row)
                wanted.append(np.array([unit @ shift[node]]))
        solved = np.linalg.lstsq(np.vstack(rows), np.concatenate(wanted), rcond=None)[0]
        return np.asarray(solved.reshape(-1, 3))

    def _match_copies(self, found: dict[int, Floats]) -> None:
        """A bent part not made yet is matched to the first made of its mark: legs of the same lengths."""
        for group in copies(self.setting.framed, self.setting.parts):
            first = next((k for k in group if k in found), None)
            for k in group:
                if first is not None and k not in found:
                    found[k] = self._loose(k, self._as_first(first, k))

    def _as_first(self, first: int, k: int) -> Floats:
        """Elementary errors of a copy that is made like the first one."""
        column = {effect.key: i for i, effect in enumerate(self.setting.found)}
        errors = np.zeros(len(self.setting.found))
        for key, i in column.items():
            kind, _, rest = key.partition(":")
            if kind in ("place", "tip") and rest.split(":")[0] == str(first):
                errors[column[f"{kind}:{k}:{rest.split(':')[1]}"]] = self.errors[i]
        return errors

    def _propagate(self, found: dict[int, Floats]) -> None:
        """Parts not made yet, each by the parts that its ends meet, nearest to what is made first."""
        members = self.setting.framed.piece.members
        waiting = [k for k in self.setting.parts.nodes_of if k not in found]
        while waiting:
            ready = [k for k in waiting if any(at is not None for at in self._ends(k, found))]
            if not ready:
                break
            best = max(ready, key=lambda k: (sum(at is not None for at in self._ends(k, found)), -k))
            found[best] = followed(members[best].path.vertices, self._ends(best, found))
            waiting.remove(best)

    def _ends(self, k: int, found: Mapping[int, Floats]) -> list[Floats | None]:
        """How what each end of a member meets has moved there, across its own run; None where it is not known."""
        ends: list[Floats | None] = [None, None]
        for meeting in self.setting.parts.meetings:
            if meeting.members[0] == k and meeting.end is not None and meeting.members[1] in found:
                point = self.setting.parts.model.nodes[meeting.nodes[0]]
                ends[meeting.end] = self._at(meeting.members[1], point, found)
        return ends

    def _at(self, k: int, point: Floats, found: Mapping[int, Floats]) -> Floats:
        """(3,) how a member has moved across its run near a point."""
        path = self.setting.framed.piece.members[k].path
        best, shift = np.inf, np.zeros(3)
        for leg, vector in enumerate(path.legs):
            first, second = leg, (leg + 1) % len(path.vertices)
            size = float(np.linalg.norm(vector))
            unit = vector / size
            share = float(np.clip((point - path.vertices[first]) @ unit / size, 0.0, 1.0))
            away = float(np.linalg.norm(point - path.vertices[first] - share * vector))
            if away < best:
                whole = (1 - share) * found[k][first] + share * found[k][second]
                best, shift = away, whole - (whole @ unit) * unit
        return shift

    def _panels(self) -> dict[str, tuple[Floats, Floats]]:
        """Shelves not made yet, by what they drop in between."""
        found: dict[str, tuple[Floats, Floats]] = {}
        for panel in self.setting.framed.piece.panels:
            if panel.name not in self.made.panels:
                shift = self._panel(panel.name)
                if shift is not None and max(np.abs(shift[0]).max(), np.abs(shift[1]).max()) > 0.01:
                    found[panel.name] = shift
        return found

    def _panel(self, name: str) -> tuple[Floats, Floats] | None:
        low, high = np.zeros(3), np.zeros(3)
        seen = False
        for axis in range(3):
            mine = self._plays(name, axis)
            if mine:
                seen = True
                low[axis], high[axis] = self._opened(mine, axis) if self._finished else self._flanked(mine, axis)
        return (low, high) if seen else None

    def _plays(self, name: str, axis: int) -> list[int]:
        """The outcomes that are a shelf's play along an axis."""
        return [
            i
            for i, reading in enumerate(self.setting.readings)
            if reading.outcome.kind == "play"
            and reading.outcome.name.startswith(f"{name} between ")
            and any(key.startswith("shelf:") and key.endswith(f":{axis}") for key in reading.direct)
        ]

    def _opened(self, which: Sequence[int], axis: int) -> tuple[float, float]:
        """By the finished frame: the least that it opens by, half to each side."""
        least = float(np.min(self.off[list(which)]))
        return -least / 2, least / 2

    def _flanked(self, which: Sequence[int], axis: int) -> tuple[float, float]:
        """By the parts on both sides: where the innermost of each lies."""
        lows: list[float] = []
        highs: list[float] = []
        for i in which:
            for probe, side in zip(self.setting.readings[i].probes, (lows, highs), strict=True):
                member = int(self.setting.parts.member_of[probe.node])
                if member in self.vertices:
                    side.append(float(self._at(member, probe.point, self.vertices)[axis]))
                else:
                    side.append(0.0)
        return max(lows), min(highs)

    def _hardware(self) -> dict[str, Floats]:
        """Hardware goes with the part that it is nearest to."""
        found = {}
        piece = self.setting.framed.piece
        for item in piece.hardware:
            if not item.placed or not self.vertices:
                continue
            away = {k: float(piece.members[k].body.distance(item.at[None])[0]) for k in self.vertices}
            nearest = min(away, key=lambda k: away[k])
            shift = self._at(nearest, item.at, self.vertices)
            if np.any(np.abs(shift) > 0.01):
                found[item.name] = shift
        return found


def own_aside(setting: Variation) -> Floats:
    """(o, e) what outcomes feel of the errors, those of the shelves themselves left aside."""
    own = np.array([not effect.key.startswith(OF_SHELVES) for effect in setting.found])
    return np.asarray(setting.felt * own)


def settled(points: Floats, shift: Floats) -> Floats:
    """Shifts (n, 3) of points (n, 3) without what moves and turns them as one body.

    Holds for small turns. Source: least squares.
    """
    around = points - points.mean(axis=0)
    turns = np.stack([np.cross(np.broadcast_to(axis, around.shape), around) for axis in np.eye(3)], axis=2)
    moves = np.broadcast_to(np.eye(3), (len(points), 3, 3))
    rows = np.concatenate([moves, turns], axis=2).reshape(-1, 6)
    rigid = np.linalg.lstsq(rows, shift.ravel(), rcond=None)[0]
    return np.asarray(shift - (rows @ rigid).reshape(-1, 3))


def followed(vertices: Floats, ends: Sequence[Floats | None]) -> Floats:
    """(v, 3) shifts of a part's vertices by how its ends go; ends nearly alike across the run go by their mean."""
    first, last = (np.zeros(3) if end is None else end for end in ends)
    if ends[0] is None:
        first = last
    if ends[1] is None:
        last = first
    run = vertices[-1] - vertices[0]
    unit = run / max(float(np.linalg.norm(run)), ALIGN)
    apart = (last - first) - ((last - first) @ unit) * unit
    if float(np.linalg.norm(apart)) < ASKEW_MM:
        first, last = first + apart / 2, last - apart / 2
    share = np.clip((vertices - vertices[0]) @ unit / max(float(np.linalg.norm(run)), ALIGN), 0.0, 1.0)[:, None]
    if len(vertices) > 2:
        return np.asarray(np.where(share < 0.5, first, last))
    return np.asarray((1 - share) * first + share * last)
