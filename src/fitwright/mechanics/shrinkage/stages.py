"""Welding as it goes on: every weld made stiffens the frame and freezes what its joint has given.

All joints are tacked and the group is clamped. A run then shrinks: its own joint moves by what is left of the free
shrinkage under the restraint of the frame as it is at that moment, and the joints that are only tacked give a little.
The first run on a joint makes it rigid and locks in what its tacks had given. Released at the end, the frame takes the
shape that all locked-in gaps ask for. Each step is linear; the order matters because stiffness grows from step to step.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from fitwright.mechanics.model import Floats, Ints
from fitwright.mechanics.shrinkage.runs import Bead, Run
from fitwright.mechanics.shrinkage.seam import Seam
from fitwright.mechanics.shrinkage.transverse import restrained_share
from fitwright.mechanics.shrinkage.welded import Joined, seam_motion_at

PARTS = ("draw", "tilt", "turning", "bending")
"""What a run does, apart: draws the end, tilts it, turns it, and bends the member it lies on."""

APART = np.eye(4)
TOGETHER = np.ones((4, 1))

SMALL = 60_000
"""Multiplications in a product that is not worth a second thread."""

SECOND_SIDE = 0.5
"""How much of its own pull the second side of a joint still gives once the first side holds it: an assumption without a
publication, which is why its spread is wide."""


@dataclass(frozen=True, eq=False)
class Stages:
    """What the stages need: r runs, w welded ends, g gaps.

    stiffness: (6g, 6g) of the gaps, as clamped. tacks: (w, 6, 6).
    connection: (r,) the gap of each run's joint; host: (r,) that of the member it lies on, -1 for none.
    own: (r, 4, 6) by part, what each run would do at its joint's gap; kink: (r, 4, 6) at the host's.
    draw_axis: (r, 6) and tilt_axis: (r, 6) unit motions at the gap; draw_section, tilt_section: (r,) the length of weld
    times thickness [mm2], and its second moment about the tilt axis [mm4], that resist them.
    """

    stiffness: Floats
    tacks: Floats
    connection: Ints
    host: Ints
    own: Floats
    kink: Floats
    draw_axis: Floats
    tilt_axis: Floats
    draw_section: Floats
    tilt_section: Floats

    @property
    def runs(self) -> int:
        """r."""
        return len(self.connection)

    @cached_property
    def host_push(self) -> Floats:
        """(r, w, 6, 4) by part, force in the gaps of the welded ends that the bending of the host asks for."""
        push = np.zeros((self.runs, len(self.tacks), 6, 4))
        for run in np.flatnonzero(self.host >= 0).tolist():
            push[run] = -self.blocks[int(self.host[run])] @ self.kink[run].T
        return push

    @cached_property
    def blocks(self) -> Floats:
        """(g, w, 6, 6) force in the gaps of the welded ends for a unit of each gap."""
        size = self.size
        return np.ascontiguousarray(self.stiffness[:size].reshape(len(self.tacks), 6, -1, 6).transpose(2, 0, 1, 3))

    @cached_property
    def tacked(self) -> State:
        """Every joint tacked, none welded."""
        matrix = self.stiffness[: self.size, : self.size].copy()
        for k, tack in enumerate(self.tacks):
            matrix[6 * k : 6 * k + 6, 6 * k : 6 * k + 6] += tack
        return State(np.arange(len(self.tacks)), np.asarray(np.linalg.inv(matrix)))

    @property
    def size(self) -> int:
        """6 w, the unknowns while every joint is only tacked."""
        return 6 * len(self.tacks)


def stages_of(
    stiffness: Floats, tacks: Floats, links: Joined, beads: Sequence[Bead], runs: Sequence[Run], numbers: Sequence[int]
) -> Stages:
    """The stages' data; numbers: which runs, by their place in `runs`."""
    chosen = [runs[k] for k in numbers]
    gaps = [links.of_bead[run.bead] for run in chosen]
    own, kink = np.zeros((len(chosen), 4, 6)), np.zeros((len(chosen), 4, 6))
    draw, tilt = np.zeros((len(chosen), 6)), np.zeros((len(chosen), 6))
    section = np.zeros((len(chosen), 2))
    for k, (run, gap) in enumerate(zip(chosen, gaps, strict=True)):
        at, seam = links.gaps.points[gap], beads[run.bead].seam
        parts = np.zeros((4, 6))
        parts[0, :3], parts[1, 3:], parts[2] = run.drawn[:3], run.drawn[3:], run.turned
        # a gap is where the end lies before it is drawn to its place: the other way round
        own[k] = -seam_motion_at(parts, run.middle, at)
        kink[k, 3] = -run.kink
        axis = np.cross(run.toward, seam.pull)
        draw[k] = np.concatenate([seam.pull, np.zeros(3)])
        tilt[k] = seam_motion_at(np.concatenate([np.zeros(3), axis / np.linalg.norm(axis)]), seam.middle, at)
        section[k] = _resisting(seam, run.toward)
    hosts = [links.host_of_bead.get(run.bead, -1) for run in chosen]
    return Stages(
        stiffness=stiffness,
        tacks=tacks,
        connection=np.array(gaps, dtype=np.intp),
        host=np.array(hosts, dtype=np.intp),
        own=own,
        kink=kink,
        draw_axis=draw,
        tilt_axis=tilt,
        draw_section=section[:, 0],
        tilt_section=section[:, 1],
    )


def _resisting(seam: Seam, toward: Floats) -> tuple[float, float]:
    arms = (seam.points - seam.middle) @ toward
    return seam.total * seam.thickness, max(float(seam.length @ arms**2), 1.0) * seam.thickness


@dataclass(frozen=True, eq=False)
class State:
    """How far the work has got: the joints that are only tacked, (t,) by number, and their flexibility (6t, 6t)."""

    left: Ints
    flexible: Floats

    def place(self, joint: int) -> slice | None:
        """Where a joint stands in `flexible`; None once it is welded."""
        at = int(np.searchsorted(self.left, joint))
        return slice(6 * at, 6 * at + 6) if at < len(self.left) and self.left[at] == joint else None


def step(stages: Stages, state: State, run: int, mix: Floats = APART) -> Floats:
    """(6g, q) what all gaps do when a run is welded in a state.

    mix: (4, q) how the parts of the run are put together, by themselves or in one sum.
    Holds for small motions; restraint is taken in the direction of the draw and of the tilt, the joint's other
    motions held.
    Source: incremental superposition; restraint by `restrained_share`.
    """
    j = int(stages.connection[run])
    place, flexible = state.place(j), state.flexible
    if place is not None:
        inverse = np.linalg.inv(flexible[place, place])
        own = _own(stages, run, inverse - stages.tacks[j], mix, held=1.0)
        given = times(flexible, times(stages.host_push[run][state.left].reshape(-1, 4), mix))
        given += times(flexible[:, place], inverse @ (own - given[place]))
    else:
        beside = stages.blocks[j][state.left].reshape(-1, 6)
        seen = stages.stiffness[6 * j : 6 * j + 6, 6 * j : 6 * j + 6] - times(beside.T, times(flexible, beside))
        own = _own(stages, run, seen, mix, held=SECOND_SIDE)
        push = times(stages.host_push[run][state.left].reshape(-1, 4), mix)
        given = times(flexible, push - times(beside, own))
    gaps = np.zeros((len(stages.stiffness) // 6, 6, mix.shape[1]))
    gaps[state.left] = given.reshape(len(state.left), 6, mix.shape[1])
    gaps[j] = own
    if (host := int(stages.host[run])) >= 0:
        gaps[host] += stages.kink[run].T @ mix
    return gaps.reshape(-1, mix.shape[1])


def times(a: Floats, b: Floats) -> Floats:
    """(i, k) product of (i, j) and (j, k), for small ones without waking the threads of the linear algebra library.

    The search makes tens of thousands of products of a few microseconds each; on a busy machine the threads would cost
    many times that in waiting for one another.
    """
    if a.size * b.shape[1] > SMALL:
        return np.asarray(a @ b)
    return np.asarray(np.einsum("ij,jk->ik", a, b))


def _own(stages: Stages, run: int, seen: Floats, mix: Floats, held: float) -> Floats:
    """(6, q) what is left of a run's own shrinkage under the restraint seen (6, 6) at its joint."""
    shares = _shares(stages, run, seen, held)
    left: Floats = (stages.own[run] * shares[:, None]).T @ mix
    return left


def _shares(stages: Stages, run: int, seen: Floats, held: float) -> Floats:
    """(4,) how much of each part is left under the restraint seen (6, 6) at the joint; held: by the joint's first
    side."""
    draw, tilt = stages.draw_axis[run], stages.tilt_axis[run]
    drawn = restrained_share(float(draw @ seen @ draw) / float(stages.draw_section[run]))
    tilted = restrained_share(float(tilt @ seen @ tilt) / float(stages.tilt_section[run]))
    return np.array([drawn * held, tilted * held, tilted * held, 1.0])


def weld(stages: Stages, state: State, run: int) -> State:
    """The state once a run is made: its joint is rigid from then on."""
    place = state.place(int(stages.connection[run]))
    if place is None:
        return state
    others = np.ones(len(state.flexible), dtype=np.bool_)
    others[place] = False
    rows = state.flexible[others]
    column, inner = rows[:, place], rows.compress(others, axis=1)
    inner -= times(column, np.asarray(np.linalg.solve(state.flexible[place, place], column.T), dtype=np.float64))
    return State(state.left[others[::6]], inner)


def walk(stages: Stages, order: Iterable[int]) -> Floats:
    """(r, 6g, 4) what each run does to every gap when the runs are made in an order; rows by run, not by place."""
    state = stages.tacked
    done = np.zeros((stages.runs, len(stages.stiffness), 4))
    for run in order:
        done[run] = step(stages, state, run)
        state = weld(stages, state, run)
    return done
