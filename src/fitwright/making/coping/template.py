"""The template of one end of a member."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fitwright.making.coping.errors import NoTemplate
from fitwright.making.coping.lines import traced, wall_lines
from fitwright.making.coping.meeting import meets
from fitwright.making.coping.model import END_WORDS, FlatLine, Seam, Template
from fitwright.making.coping.placing import placed
from fitwright.making.coping.seam import back_line, back_of, clockwise_sign, nearest_bend, shortest_line
from fitwright.making.coping.strip import BoxStrip, RoundStrip, Strip, strip_of
from fitwright.piece.model import CutKind, Member, Piece
from fitwright.piece.trim import cope_distance, stops

Floats = NDArray[np.float64]

STEP_MM = 5.0
TIP_STEPS = 1440
TIP_ALIKE_MM = 0.01
SAME_TURN_RAD = 1e-6


def has_template(member: Member, end: int) -> bool:
    """Whether an end is cut in a way that a template helps with: mitred or coped."""
    return not member.path.closed and member.ends[end].kind in (CutKind.MITRE, CutKind.COPE)


def template_of(member: Member, end: int, piece: Piece, step: float = STEP_MM) -> Template:
    """The outside of a member near one end, unrolled, with the lines to cut to and how to place it.

    end: 0 for the start, 1 for the finish. step: the base line stands a whole number of these from the tip of the
    blank or from the tangent point of the last bend, where there is room, so that it is easily measured [mm].

    Raises NoTemplate for an end that is square or flattened, or of a closed loop.
    Holds for the straight portion of a member; `placement.into_bend` says where a cut reaches back into a bend. The
    paper's thickness is left out of account: 0.1 mm of it leaves the seam open by 0.3 mm.
    Source: development of a cylinder, descriptive geometry; through the wall, see `wall_lines`.
    """
    if not has_template(member, end):
        raise NoTemplate(_refusal(member, end))
    return _Unrolled(member, end, piece, step).template


def _refusal(member: Member, end: int) -> str:
    if member.path.closed:
        return f"{member.name} is a closed loop and has no ends to cope"
    kind = member.ends[end].kind
    help_ = "flatten it first, then cut it square" if kind is CutKind.FLATTENED else "a saw cuts it"
    return f"the {END_WORDS[end]} of {member.name} is {kind.value} and needs no template: {help_}"


@dataclass(frozen=True, eq=False)
class _Unrolled:
    """One end on its way to a template."""

    member: Member
    end: int
    piece: Piece
    step: float

    @cached_property
    def strip(self) -> Strip:
        return strip_of(self.member.stock.section)

    @cached_property
    def template(self) -> Template:
        x, levels = traced(self._levels_at, self.strip.girth, np.array([self._x(s) for s in self.strip.knots]))
        base, placement = placed(self.member, self.end, float(levels.min()), self.step)
        square, bevelled, inside = (np.ascontiguousarray(column) for column in (levels - base).T)
        wall = self.strip.wall
        return Template(
            mark=self.piece.mark_of[self.member.name],
            member=self.member.name,
            end=self.end,
            stock=self.member.stock.label,
            kind=self.member.ends[self.end].kind,
            meets=meets(self.member, self.end, self.piece),
            girth=self.strip.girth,
            around=x,
            square=square,
            bevelled=bevelled,
            inside=inside,
            lines=self._lines(),
            seam=self._seam,
            seam_at=self.strip.outer(self._s(np.zeros(1)))[0] @ self.member.body.frame_at(self.end),
            side=self.strip.side(self.seam_place),
            seam_turn=self.turns[0],
            tip_turn=self.turns[1],
            placement=placement,
            gap=self._opening(x, levels[:, 0]) if wall else 0.0,
            bevel=float(np.arctan2(np.abs(bevelled - inside).max(), wall)) if wall else 0.0,
        )

    def stop(self, uv: Floats) -> Floats:
        """Where the material stops on lines through section points uv (k, 2) [mm beyond the drawn end]."""
        cut = self.member.ends[self.end]
        copes = tuple(self.piece.members[other].body for other in cut.copes)
        return stops(self.member.body, self.end, uv, cut.planes, copes)

    @cached_property
    def rightward(self) -> int:
        """+1 when the paper, printed side out and its top toward the end, runs counterclockwise in (u, v)."""
        sign = clockwise_sign(self.member)
        return sign if self.end == 1 else -sign

    @cached_property
    def other(self) -> _Unrolled | None:
        """The far end, when it has a template too."""
        far = 1 - self.end
        return _Unrolled(self.member, far, self.piece, self.step) if has_template(self.member, far) else None

    @cached_property
    def seam_place(self) -> float:
        """Place of the seam on the strip [mm]."""
        if not self.strip.closed:
            return 0.0
        bend = nearest_bend(self.member, self.end)
        if bend is not None:
            return back_line(self.strip, back_of(self.member, self.end, bend))
        first = self if self.end == 0 or self.other is None else self.other
        return shortest_line(self.strip, first.stop)

    @property
    def _seam(self) -> Seam:
        if not self.strip.closed:
            return Seam.HEEL
        if self.member.path.bent:
            return Seam.BACK
        return Seam.ANYWHERE if self.other is None else Seam.SHARED

    @property
    def seam_angle(self) -> float:
        """Angle from u toward v of the seam [rad]."""
        return self._angle(self.seam_place)

    @cached_property
    def tip_angles(self) -> tuple[float, ...]:
        """Angles from u toward v of the longest points of the outside [rad]."""
        places = np.linspace(0.0, self.strip.girth, TIP_STEPS, endpoint=False)
        found = self.stop(self.strip.outer(places))
        return tuple(self._angle(places[k]) for k in _middles(found > found.max() - TIP_ALIKE_MM))

    def _angle(self, s: float) -> float:
        u, v = self.strip.outer(np.array([s]))[0]
        return float(np.arctan2(v, u))

    def _turn(self, near: tuple[float, ...], far: tuple[float, ...]) -> float:
        """The least turn from an angle of the start to one of the finish, clockwise looking along the member [rad]."""
        sign = clockwise_sign(self.member)
        turns = [_half_turn(sign * (b - a)) for a in near for b in far]
        return min(turns, key=abs)

    @cached_property
    def turns(self) -> tuple[float, float] | tuple[None, None]:
        """From start to finish, the turn between their seams and between their longest points [rad]."""
        if self.other is None or not self.strip.closed:
            return None, None
        near, far = (self, self.other) if self.end == 0 else (self.other, self)
        seams = self._turn((near.seam_angle,), (far.seam_angle,))
        return seams, self._turn(near.tip_angles, far.tip_angles)

    def _opening(self, x: Floats, level: Floats) -> float:
        """The widest distance from the outer edge, cut square through the wall, to what it is fitted to [mm]."""
        body, cut = self.member.body, self.member.ends[self.end]
        offsets = self.strip.outer(self._s(x)) @ body.frame_at(self.end)
        edge = body.point_at(self.end) + offsets + level[:, None] * body.outward(self.end)
        away = [(plane.point - edge) @ plane.normal for plane in cut.planes]
        away += [cope_distance(body, self.end, self.piece.members[other].body, edge) for other in cut.copes]
        return float(np.min(away, axis=0).max())

    def _levels_at(self, x: Floats) -> Floats:
        return wall_lines(self.strip, self.stop, self._s(x))

    def _s(self, x: Floats) -> Floats:
        """Places on the strip of places x (k,) on the paper."""
        if not self.strip.closed:
            return x if self.rightward > 0 else self.strip.girth - x
        return np.asarray((self.seam_place + self.rightward * x) % self.strip.girth)

    def _x(self, s: float) -> float:
        """The place on the paper of a place on the strip."""
        if not self.strip.closed:
            return s if self.rightward > 0 else self.strip.girth - s
        return float((self.rightward * (s - self.seam_place)) % self.strip.girth)

    def _lines(self) -> tuple[FlatLine, ...]:
        folds = [FlatLine(self._x(s), "fold", fold=True) for s in self.strip.folds]
        if isinstance(self.strip, RoundStrip):
            girth = self.strip.girth
            middles = [FlatLine(girth * k / 4, f"{k}/4" if k != 2 else "1/2") for k in (1, 2, 3)]
        elif isinstance(self.strip, BoxStrip):
            apart = [self._x(s) for s in self.strip.middles]
            middles = [FlatLine(x, "middle") for x in apart if 1e-6 < x < self.strip.girth - 1e-6]
        else:
            folds = [FlatLine(self._x(s), "heel", fold=True) for s in self.strip.folds]
            legs = zip(("leg b", "leg a"), (0.0, *self.strip.folds), (*self.strip.folds, self.strip.girth), strict=True)
            middles = [FlatLine(self._x((low + high) / 2), name) for name, low, high in legs]
        return tuple(sorted([*folds, *middles], key=lambda line: line.at))


def _half_turn(angle: float) -> float:
    """An angle from -pi to pi, half a turn counting as pi [rad]."""
    turned = angle % (2 * np.pi)
    return float(turned - 2 * np.pi if turned > np.pi + SAME_TURN_RAD else turned)


def _middles(flags: NDArray[np.bool_]) -> list[int]:
    """The middle place of each run of flags round a circle; the first place when all are set."""
    if flags.all():
        return [0]
    first = int(np.argmin(flags))
    ring = np.append(np.roll(flags, -first), False)
    edges = np.flatnonzero(np.diff(ring.astype(int)))
    runs = zip(edges[::2], edges[1::2], strict=True)
    return [int((begin + 1 + end) // 2 + first) % len(flags) for begin, end in runs]
