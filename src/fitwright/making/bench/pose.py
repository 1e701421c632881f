"""How a subassembly lies on the bench: which way is up, and where each straight of it then runs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fitwright.making.bench.groups import Group, plane_of, points_of
from fitwright.piece import Member, Piece
from fitwright.piece.drawn import support
from fitwright.piece.path import Arc, Straight
from fitwright.stock import Section

Floats = NDArray[np.float64]

UP = np.array([0.0, 0.0, 1.0])
LEVEL = 1e-3  # sine of the lean within which a straight counts as level or upright
ON_BENCH_MM = 0.5
CONTACT_MM = 1.0
WORDS = {(2, 1): "top", (2, -1): "bottom", (1, -1): "front", (1, 1): "back", (0, -1): "left side", (0, 1): "right side"}
SIDE_OF = {"top": (2, 1), "bottom": (2, -1), "front": (1, -1), "back": (1, 1), "left": (0, -1), "right": (0, 1)}


@dataclass(frozen=True, eq=False)
class Run:
    """A straight of a member in the bench's axes, where its full section is there: start, end (3,), frame (2, 3).

    first, last: whether its start or end is an end of the member; tips: how far material reaches beyond them [mm].
    """

    member: int
    mark: str
    section: Section
    start: Floats
    end: Floats
    frame: Floats
    first: bool
    last: bool
    tips: tuple[float, float] = (0.0, 0.0)

    @cached_property
    def along(self) -> Floats:
        """Unit vector (3,)."""
        run = self.end - self.start
        return np.asarray(run / np.linalg.norm(run))

    @property
    def length(self) -> float:
        """Length [mm]."""
        return float(np.linalg.norm(self.end - self.start))

    @cached_property
    def way(self) -> str:
        """Level, upright or leaning."""
        rise = abs(float(self.along[2]))
        return "level" if rise < LEVEL else "upright" if rise > 1 - LEVEL else "leaning"

    def reach(self, direction: Floats) -> float:
        """How far the section reaches from the run's line along a unit direction (3,) [mm]."""
        return support(self.section, self.frame, direction)

    @cached_property
    def bottom(self) -> float:
        """The lowest of it above the bench [mm]."""
        return float(min(self.start[2], self.end[2])) - self.reach(-UP)

    @cached_property
    def top(self) -> float:
        """The highest of it above the bench [mm]."""
        return float(max(self.start[2], self.end[2])) + self.reach(UP)

    @cached_property
    def half(self) -> float:
        """Half its width as seen from above, at most [mm]."""
        side = np.cross(UP, self.along)
        size = float(np.linalg.norm(side))
        if size < LEVEL:
            return max(self.reach(axis) for axis in (*np.eye(3)[:2], *-np.eye(3)[:2]))
        return max(self.reach(side / size), self.reach(-side / size))


@dataclass(frozen=True, eq=False)
class Laid:
    """One thing laid on the bench: a loose member, or a frame that was tacked before."""

    number: int
    name: str
    members: tuple[int, ...]
    frame: bool
    runs: tuple[Run, ...]
    bent: bool

    @property
    def bottom(self) -> float:
        """The lowest of its straights [mm]."""
        return min(run.bottom for run in self.runs)

    @property
    def level(self) -> tuple[Run, ...]:
        """Its level straights."""
        return tuple(run for run in self.runs if run.way == "level")

    @property
    def contact(self) -> float:
        """Length of straight that lies at its bottom [mm]."""
        return sum(run.length for run in self.level if run.bottom - self.bottom < CONTACT_MM)

    @property
    def lies(self) -> bool:
        """Whether it lies level, on the bench or above it; else it stands."""
        level, total = sum(run.length for run in self.level), sum(run.length for run in self.runs)
        return level > 0.5 * total and self.contact > 0

    @property
    def on_bench(self) -> bool:
        """Whether it lies on the top of the bench itself."""
        return self.lies and self.bottom < ON_BENCH_MM


@dataclass(frozen=True, eq=False)
class Posed:
    """A group in the bench's axes, its lowest at height 0 and its own corner at 0, 0.

    rotation (3, 3), shift (3,): bench point = rotation @ piece point + shift.
    welds (k, 3): where its parts are joined in this set-up; ends: by member, whether its start and end are joined here.
    """

    piece: Piece
    group: Group
    rotation: Floats
    shift: Floats
    laid: tuple[Laid, ...]
    welds: Floats
    weld_members: tuple[frozenset[int], ...]
    centre: Floats
    low: Floats
    high: Floats

    def seen(self, points: Floats) -> Floats:
        """Points (k, 3) of the piece in the bench's axes."""
        return np.asarray(points @ self.rotation.T + self.shift)

    @cached_property
    def runs(self) -> tuple[Run, ...]:
        """Every straight."""
        return tuple(run for laid in self.laid for run in laid.runs)

    @cached_property
    def base(self) -> Laid:
        """What lies on the bench with most of its length."""
        return max(self.laid, key=lambda laid: (laid.on_bench, laid.contact, -laid.number))


def posed(piece: Piece, groups: Sequence[Group], number: int, turn: int = 0) -> Posed:
    """A group as it lies on the bench, turned by quarter turns."""
    group = groups[number]
    up = _wished(group) if group.wished_up else best_up(piece, groups, group)
    rotation = quarter(turn) @ _axes(piece, group, up)
    low, high = _box(piece, group, rotation)
    shift = -low
    laid = tuple(_laid(piece, groups, group, rotation, shift))
    welds, whose = _welds(piece, groups, group)
    mass = np.array([piece.members[k].mass for k in group.members])
    centre = mass @ np.array([piece.members[k].centre for k in group.members]) / mass.sum()
    seen = welds @ rotation.T + shift if len(welds) else welds
    return Posed(piece, group, rotation, shift, laid, seen, whose, rotation @ centre + shift, low + shift, high + shift)


def quarter(turn: int) -> Floats:
    """Rotation (3, 3) by quarter turns about the upright axis."""
    cos, sin = ((1, 0), (0, 1), (-1, 0), (0, -1))[turn % 4]
    return np.array([[cos, -sin, 0.0], [sin, cos, 0.0], [0.0, 0.0, 1.0]])


def best_up(piece: Piece, groups: Sequence[Group], group: Group) -> Floats:
    """The direction of the piece (3,) that points up: most length of flat frames, then of straight, lies flat, then
    least height.

    What lies of a frame that would stand on its edge counts by half, since it has to be kept from falling over.
    Common practice: the largest flat side goes down on the bench.
    """
    edge = {
        m: n
        for k in group.of
        if (n := plane_of(points_of(piece, groups[k].members))) is not None
        for m in groups[k].members
    }
    normal = plane_of(points_of(piece, group.members))
    ways = [normal, -normal] if normal is not None else [UP, -UP, *(s * np.eye(3)[a] for a in (1, 0) for s in (1, -1))]
    scored = [(*_contact(piece, group, way, edge), -_height(piece, group, way), -k) for k, way in enumerate(ways)]
    return np.asarray(ways[scored.index(max(scored))], dtype=float)


def up_words(up: Floats) -> str:
    """Which side of the piece faces up, in words."""
    main = int(np.argmax(np.abs(up)))
    return WORDS[main, int(np.sign(up[main]))]


def _wished(group: Group) -> Floats:
    axis, sign = SIDE_OF[group.wished_up]
    return np.asarray(sign * np.eye(3)[axis])


def _rounded(length: float) -> float:
    return round(length / 5.0)


def _contact(piece: Piece, group: Group, up: Floats, normals: dict[int, Floats]) -> tuple[float, float]:
    """Length of straight that lies flat when `up` points up, in flat frames and in all [to 5 mm].

    normals: of the flat frame that a member is in; what lies of a frame on its edge counts by half.
    """
    rows: list[tuple[float, float, bool]] = []
    lowest = float("inf")
    for member, straight, frame in _straights(piece, group):
        bottom = float(min(straight.start @ up, straight.end @ up)) - support(member.stock.section, frame, -up)
        lowest = min(lowest, bottom)
        flat = abs(float(normals.get(member.index, up) @ up)) > 1 - LEVEL
        if abs(straight.direction @ up) < LEVEL:
            rows.append((bottom, straight.length * (1.0 if flat else 0.5), flat and member.index in normals))
    down = [(length, framed) for bottom, length, framed in rows if bottom - lowest < CONTACT_MM]
    return _rounded(sum(length for length, framed in down if framed)), _rounded(sum(length for length, _ in down))


def _height(piece: Piece, group: Group, up: Floats) -> float:
    points = points_of(piece, group.members) @ up
    return float(np.round(np.ptp(points)))


def _straights(piece: Piece, group: Group, rings: bool = True) -> list[tuple[Member, Straight, Floats]]:
    """Every straight; rings: of a member without one, the chord of each bend, so that a ring counts as what lies."""
    found = []
    for k in group.members:
        member = piece.members[k]
        segments = list(zip(member.path.segments, member.body.frames, strict=True))
        straight = [(member, s, frame) for s, frame in segments if isinstance(s, Straight)]
        if not straight and rings:
            straight = [(member, Straight(s.start, s.end), frame) for s, frame in segments]
        found += straight
    return found


def _axes(piece: Piece, group: Group, up: Floats) -> Floats:
    """Rows (3, 3): the directions of the piece that become the bench's x, y and z.

    x runs along the level straight with which most length runs along or square, so that the fewest parts lie askew to
    the holes; of several, along the longest.
    """
    level = [s for _, s, _ in _straights(piece, group, rings=False) if abs(float(s.direction @ up)) < LEVEL]
    ways = np.array([s.direction for s in level]).reshape(-1, 3)
    sizes = np.array([s.length for s in level])

    def worth(s: Straight) -> tuple[float, float]:
        cosines = np.abs(ways @ s.direction)
        in_line = (cosines < LEVEL) | (cosines > 1 - LEVEL**2)
        return _rounded(float(sizes[in_line].sum())), round(s.length, 3)

    best = max(level, key=worth, default=None)
    along = best.direction if best is not None else np.eye(3)[int(np.argmin(np.abs(up)))]
    x = along - (along @ up) * up
    x = x / np.linalg.norm(x)
    x = x * np.sign(x[int(np.argmax(np.abs(x)))])
    return np.array([x, np.cross(up, x), up])


def _box(piece: Piece, group: Group, rotation: Floats) -> tuple[Floats, Floats]:
    """Low and high corners (3,) of a group in the bench's axes, before it is shifted [mm]."""
    lows, highs = [], []
    for k in group.members:
        body = piece.members[k].body
        for segment, frame in zip(body.path.segments, body.frames, strict=True):
            points = (
                np.array([segment.start, segment.end])
                if isinstance(segment, Straight)
                else segment.at(np.linspace(0, segment.angle, 9))
            )
            out = np.array([support(body.section, frame, axis) for axis in rotation])
            into = np.array([support(body.section, frame, -axis) for axis in rotation])
            if isinstance(segment, Arc):
                out = into = np.minimum(np.full(3, body.reach), np.maximum(out, into))
            lows.append((points @ rotation.T).min(axis=0) - into)
            highs.append((points @ rotation.T).max(axis=0) + out)
    return np.min(lows, axis=0), np.max(highs, axis=0)


def _laid(piece: Piece, groups: Sequence[Group], group: Group, rotation: Floats, shift: Floats) -> list[Laid]:
    """Earlier frames as they are, then the loose members."""
    frames = [groups[k] for k in group.of]
    in_frames = {m for frame in frames for m in frame.members}
    things = [(frame.name, frame.members, True) for frame in frames]
    things += [(piece.members[k].name, (k,), False) for k in group.members if k not in in_frames]
    found = []
    for number, (name, members, frame) in enumerate(things):
        runs = tuple(run for k in members for run in runs_of(piece, k, rotation, shift))
        bent = len(members) == 1 and piece.members[members[0]].path.bent
        found.append(Laid(number, name, members, frame, runs, bent))
    return found


def runs_of(piece: Piece, index: int, rotation: Floats, shift: Floats) -> list[Run]:
    """The straights of a member in the bench's axes; of a rolled ring, the chord of each quarter."""
    member = piece.members[index]
    segments, found = member.path.segments, []
    for k, (segment, frame) in enumerate(zip(segments, member.body.frames, strict=True)):
        if not isinstance(segment, Straight):
            continue
        start, end = segment.start, segment.end
        first = k == 0 and not member.path.closed
        last = k == len(segments) - 1 and not member.path.closed
        start = start - member.ends[0].shortest * segment.direction if first else start
        end = end + member.ends[1].shortest * segment.direction if last else end
        if float((end - start) @ segment.direction) < 1.0:
            start, end = segment.start, segment.end
        seen = [rotation @ point + shift for point in (start, end)]
        mark = piece.mark_of[member.name]
        tips = [cut.longest - cut.shortest if at else 0.0 for cut, at in zip(member.ends, (first, last), strict=True)]
        section = member.stock.section
        found.append(Run(index, mark, section, seen[0], seen[1], frame @ rotation.T, first, last, (tips[0], tips[1])))
    return found or [_ring_run(piece, index, rotation, shift)]


def _ring_run(piece: Piece, index: int, rotation: Floats, shift: Floats) -> Run:
    """A member without a straight, told by the chord of its first bend."""
    member = piece.members[index]
    segment = member.path.segments[0]
    seen = [rotation @ point + shift for point in (segment.start, segment.start + (segment.end - segment.start) * 0.5)]
    frame = member.body.frame @ rotation.T
    return Run(index, piece.mark_of[member.name], member.stock.section, seen[0], seen[1], frame, False, False)


def _welds(piece: Piece, groups: Sequence[Group], group: Group) -> tuple[Floats, tuple[frozenset[int], ...]]:
    """Places (k, 3) that are tacked in this set-up, and the members that meet there."""
    inside, earlier = set(group.members), [set(groups[k].members) for k in group.of]
    joints = [
        j
        for j in piece.joints
        if {j.first, j.second} <= inside and not j.bolted and not any({j.first, j.second} <= e for e in earlier)
    ]
    points = np.array([j.point for j in joints]).reshape(-1, 3)
    return points, tuple(frozenset((j.first, j.second)) for j in joints)
