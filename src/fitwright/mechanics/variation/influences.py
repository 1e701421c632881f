"""Place, clamp, fasten, release: what each elementary error does to the finished piece, stage by stage.

While parts are clamped they are elastic bodies held by stops and drawn together at their joints. Fastening keeps every
joint as it then is. Released, the parts share out what they were forced to, and what the welds pull. All of it is
linear, so it is followed backwards from the few outcomes to the many errors: one solve with as many right-hand sides as
outcomes for each stage.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from fitwright.mechanics.assembly import link_deform, stiffness
from fitwright.mechanics.beam import Beams, beams
from fitwright.mechanics.model import Floats, Ints
from fitwright.mechanics.supports import supports
from fitwright.mechanics.variation.loose import Loose
from fitwright.mechanics.variation.seats import CLAMP, CLAMP_TURN
from fitwright.mechanics.variation.stops import Stage, Stop

if TYPE_CHECKING:
    from scipy.sparse.linalg import SuperLU

    from fitwright.mechanics.assembly import Matrix

# Just enough to keep from floating what a stage does not hold [N/mm, N mm/rad]: a millionth of a hand's pressure.
GROUND = np.diag([1e-6] * 3 + [1e-2] * 3)
FLOOR = 1e-2
# What floats free is held at one node, where nothing pushes: this stiffness is for the numbers' sake alone.
HELD = np.diag([1.0] * 3 + [1e6] * 3)


@dataclass(frozen=True, eq=False)
class Influences:
    """What o outcomes feel of a unit in each place where an error can sit.

    gaps: (o, 6 m) of the elements' midpoints, local. seats: (o, 6 j) of the joints while the parts are fitted, in
    the joints' own directions; welds: (o, 6 j) of the joints once fastened. stops: one (o, t) for each stage.
    floor: (o, f) height of the floor under each foot. pushes: (o, p) for unit forces on the finished piece.
    """

    gaps: Floats
    seats: Floats
    welds: Floats
    stops: tuple[Floats, ...]
    floor: Floats
    pushes: Floats
    finished_gaps: Floats


def influences(
    parts: Loose,
    stages: Sequence[Stage],
    rows: Floats,
    pushes: Floats,
    gaps_at: Sequence[int] = (),
    *,
    standing: bool = True,
) -> Influences:
    """Influence of every elementary error on outcomes read by rows (o, 6n) off the finished piece's displacements.

    pushes: (6n, p) forces on the finished piece, as for a pull that trues it. gaps_at: meetings whose gap along the
    branch, as the weld finds it, is an outcome too; these come after the others. standing: released, it stands by its
    feet; else it lies free, and what is not joined floats apart.

    Holds for errors small beside the members (linear), elastic parts, clamps and hands of the usual stiffness, joints
    that keep their place once fastened, gaps within what a weld can fill, and no weight while clamped.
    Source: S. C. Liu, S. J. Hu, Variation simulation for deformable sheet metal assemblies using finite element
    methods, ASME J. Manufacturing Science and Engineering 119 (1997) 368-374: place, clamp, fasten, release and the
    sensitivity matrix of influence coefficients (from memory); carried over to frames, with joints that are free in
    some directions.
    """
    frame = _Frame(parts)
    done = sorted({i for stage in stages for i in stage.meetings})
    shape = np.zeros((parts.model.dof_count, len(rows) + len(gaps_at)))
    shape[:, : len(rows)] = frame.released(done, standing=standing).solve(rows.T)
    gaps = frame.on_gaps(shape)
    own = np.zeros((len(rows) + len(gaps_at), 6 * len(parts.meetings)))
    own[len(rows) + np.arange(len(gaps_at)), 6 * np.array(gaps_at, dtype=np.intp)] = 1.0
    kept = frame.on_joints(shape, done, "fastened") + own
    on_floor = FLOOR if standing else 0.0
    floor = on_floor * np.array([shape[6 * foot.node + 2] for foot in parts.feet]).reshape(-1, len(kept)).T
    answers = Influences(
        gaps=gaps,
        seats=np.zeros_like(kept),
        welds=np.zeros_like(kept),
        stops=(),
        floor=floor,
        pushes=shape.T @ pushes,
        finished_gaps=gaps,
    )
    for stage in reversed(stages):
        done = [i for i in done if i not in set(stage.meetings)]
        answers, kept = _before(frame, stage, done, answers, kept)
    return replace(answers, welds=answers.welds - own)


def pulled(parts: Loose, done: Sequence[int], pushes: Floats) -> tuple[Floats, Floats]:
    """What is joined, standing free, under forces (6n, p): displacements (6n, p) [mm, rad] and forces at the elements'
    midpoints (m, 6, p), local N Vy Vz T My Mz [N, N mm].

    Holds for forces in balance, small displacements and elastic parts. Source: the stiffness method.
    """
    frame = _Frame(parts)
    shape = frame.released(done, standing=True).solve(pushes)
    inner = frame.on_gaps(shape).reshape(pushes.shape[1], -1, 6).transpose(1, 2, 0)
    return shape, np.asarray(inner)


def _before(
    frame: _Frame, stage: Stage, done: Sequence[int], after: Influences, kept: Floats
) -> tuple[Influences, Floats]:
    """The same once a stage is taken into account; kept: (o, 6 j) influence of how the joints are when it ends."""
    here = _rows_of(stage.meetings)
    fixed = np.zeros_like(kept)
    fixed[:, here] = kept[:, here]
    shape = frame.clamped(stage, done).solve(frame.off_joints(fixed))
    kept = kept - fixed + frame.on_joints(shape, done, "fastened")
    seats = frame.on_joints(shape, stage.meetings, "fitted")
    felt = [_stop_block(stop)[1] @ shape[_dofs(stop.node)] for stop in stage.stops]
    stops = np.array(felt).reshape(len(felt), len(kept)).T
    answers = replace(
        after,
        gaps=after.gaps + frame.on_gaps(shape),
        seats=after.seats + seats,
        welds=after.welds + fixed,
        stops=(stops, *after.stops),
    )
    return answers, kept


@dataclass(frozen=True, eq=False)
class _Factors:
    """A factorised stiffness, with the matrix itself for sharpening."""

    matrix: Matrix
    lu: SuperLU

    def solve(self, forces: Floats) -> Floats:
        """(6n, o) displacements under forces (6n, o).

        What is wanted are small differences across stiff joints of a piece that stands very softly, so what the
        factors leave over is solved for again.
        Source: N. J. Higham, Accuracy and Stability of Numerical Algorithms, 2nd ed. (2002), chapter 12 (from memory).
        """
        found = self.lu.solve(np.asfortranarray(forces))
        return np.asarray(found + self.lu.solve(np.asfortranarray(forces - self.matrix @ found)))


class _Frame:
    """The loose members with their joints in any state."""

    def __init__(self, parts: Loose) -> None:
        self.parts = parts
        pairs = np.array([m.nodes for m in parts.meetings], dtype=np.intp).reshape(-1, 2)
        self.model = replace(parts.model, links=pairs, link_stiffness=np.zeros((len(pairs), 6, 6)))
        self.elements: Beams = beams(self.model)
        turn = np.zeros((len(pairs), 6, 6))
        for i, meeting in enumerate(parts.meetings):
            turn[i, :3, :3] = turn[i, 3:, 3:] = meeting.axes
        self.deform: Floats = turn @ link_deform(self.model)
        self.turn = turn
        self.dofs: Ints = (pairs[:, :, None] * 6 + np.arange(6)).reshape(-1, 12)
        self.state = {
            "fitted": np.array([m.seat.fitted for m in parts.meetings]).reshape(-1, 6, 6),
            "fastened": np.array([m.seat.fastened for m in parts.meetings]).reshape(-1, 6, 6),
        }

    def clamped(self, stage: Stage, done: Sequence[int]) -> _Factors:
        """The frame while a stage's parts are clamped, factorised."""
        local = np.zeros((len(self.parts.meetings), 6, 6))
        local[list(done)] = self.state["fastened"][list(done)]
        local[list(stage.meetings)] = self.state["fitted"][list(stage.meetings)]
        springs = {int(nodes[0]): GROUND.copy() for nodes in self.parts.nodes_of.values()}
        for stop in stage.stops:
            springs[stop.node] = springs.get(stop.node, 0.0) + _stop_block(stop)[0]
        return self._factors(local, springs)

    def released(self, done: Sequence[int], *, standing: bool) -> _Factors:
        """What is joined so far and let go, factorised.

        standing: by its feet, so softly that its shape is its own; else each group of joined parts is held at one node,
        where nothing pushes, and no foot is felt.
        """
        local = np.zeros((len(self.parts.meetings), 6, 6))
        local[list(done)] = self.state["fastened"][list(done)]
        if not standing:
            groups = connected(self.parts, done)
            return self._factors(local, {int(self.parts.nodes_of[group[0]][0]): HELD for group in groups})
        springs: dict[int, Floats] = {}
        for stand in (*self.parts.feet, *self.parts.walls):
            block = GROUND + np.diag([FLOOR] * 3 + [0.0] * 3)
            springs[stand.node] = springs.get(stand.node, 0.0) + block
        return self._factors(local, springs or {0: GROUND})

    def _factors(self, local: Floats, springs: dict[int, Floats]) -> _Factors:
        from scipy.sparse.linalg import splu

        model = replace(self.model, link_stiffness=self.turn.transpose(0, 2, 1) @ local @ self.turn)
        matrix = stiffness(model, supports(model, springs=springs))
        options = {"SymmetricMode": True}
        return _Factors(matrix, splu(matrix, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options=options))

    def on_gaps(self, shape: Floats) -> Floats:
        """(o, 6m) work of the gaps at elements' midpoints in shapes (6n, o)."""
        push = self.elements.stiffness @ (self.elements.deform @ shape[self.model.element_dofs])
        return np.asarray(push.reshape(-1, shape.shape[1]).T)

    def on_joints(self, shape: Floats, which: Sequence[int], state: str) -> Floats:
        """(o, 6j) work of offsets in some joints, zero for the others."""
        push = np.zeros((len(self.dofs), 6, shape.shape[1]))
        index = list(which)
        push[index] = self.state[state][index] @ (self.deform[index] @ shape[self.dofs[index]])
        return np.asarray(push.reshape(-1, shape.shape[1]).T)

    def off_joints(self, kept: Floats) -> Floats:
        """(6n, o) weights on displacements that read the joints' offsets with weights kept (o, 6j)."""
        total = np.zeros((self.model.dof_count, len(kept)))
        weights = self.deform.transpose(0, 2, 1) @ kept.T.reshape(len(self.dofs), 6, -1)
        np.add.at(total, self.dofs, weights)
        return total


def connected(parts: Loose, done: Sequence[int]) -> list[tuple[int, ...]]:
    """Members that some meetings join, group by group; a member that none of them joins is a group by itself."""
    whose = {k: {k} for k in parts.nodes_of}
    for i in done:
        first, second = parts.meetings[i].members
        if whose[first] is not whose[second]:
            whose[first] |= whose[second]
            for k in whose[first]:
                whose[k] = whose[first]
    return list(dict.fromkeys(tuple(sorted(group)) for group in whose.values()))


def _stop_block(stop: Stop) -> tuple[Floats, Floats]:
    """Stiffness (6, 6) of a stop, and the force (6,) of its unit error."""
    way, size = np.zeros(6), CLAMP_TURN if stop.turn else CLAMP
    way[3:6] = stop.along if stop.turn else 0.0
    way[:3] = 0.0 if stop.turn else stop.along
    return size * np.outer(way, way), size * way


def _dofs(node: int) -> slice:
    return slice(6 * node, 6 * node + 6)


def _rows_of(meetings: Sequence[int]) -> Ints:
    return np.array([6 * i + d for i in meetings for d in range(6)], dtype=np.intp)
