"""How welding pulls a piece: each group as it lies clamped, as it comes off the bench, in two orders of welding."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from fitwright.mechanics.framing import Framed
from fitwright.mechanics.loads import forces
from fitwright.mechanics.model import Floats
from fitwright.mechanics.response import solve
from fitwright.mechanics.shrinkage.clamps import clamp_points, clamped
from fitwright.mechanics.shrinkage.measures import (
    Measure,
    Point,
    measures_of,
    points_of,
    translations,
    without_rigid,
)
from fitwright.mechanics.shrinkage.ordering import Found, Progress, Search, best_order, go_on, quietest_runs
from fitwright.mechanics.shrinkage.runs import Bead, Run, runs_of
from fitwright.mechanics.shrinkage.saying import said
from fitwright.mechanics.shrinkage.seam import WeldKind
from fitwright.mechanics.shrinkage.spread import Spread
from fitwright.mechanics.shrinkage.stages import SECOND_SIDE, Stages, stages_of, walk
from fitwright.mechanics.shrinkage.tacks import tack_stiffness
from fitwright.mechanics.shrinkage.welded import Compliance, Group, SetUp, compliance, floating, joined, set_ups
from fitwright.units import Style

FACTOR = Spread(1.0, 0.45, "published formulas differ by about two either way; no readings of this shop yet")
"""What all predicted pulls are multiplied by."""

EFFECT_SD = np.array([0.2, 0.2, 0.5, 0.5])
"""Further spread by part (draw, tilt, turning, along) as a share: turning and pull along thin wall are known least."""

WELD_SD = 0.3
"""One weld beside the next of the same kind, as a share: hand, gap and fit-up (common practice)."""

SECOND_SIDE_SD = 0.3
"""Spread of `SECOND_SIDE`."""

SURE = 1.645
"""From so many standard deviations off zero on the sign is taken as sure: nine in ten of a normal spread."""


@dataclass(frozen=True, eq=False)
class Movement:
    """What one measure does: the change [mm] with its spread, in the words of the maker."""

    measure: Measure
    change: Spread

    def words(self, style: Style | None = None) -> str:
        """Such as `the open ends of A1 (hoop) pull in by 0.4 to 1.1 mm`; millimetres without a style."""
        return said(self.measure, self.change, style)


@dataclass(frozen=True, eq=False)
class Order:
    """An order of runs and what it leaves.

    runs: numbers of the runs in order. size: root mean square movement of the points [mm].
    moved: (p, 3) of the points after release, and held: (p, 3) while still clamped [mm]; clamp_forces: (c, 3) on the
    group by its clamps before release [N].
    """

    runs: tuple[int, ...]
    size: float
    moved: Floats
    held: Floats
    clamp_forces: Floats
    movements: tuple[Movement, ...]

    def largest(self, count: int = 3) -> tuple[Movement, ...]:
        """The movements with the farthest ends of their range, one for each kind of thing measured on each subject."""
        ranked = sorted(self.movements, key=lambda movement: -movement.change.most)
        seen: dict[str, Movement] = {}
        for movement in ranked:
            seen.setdefault(f"{movement.measure.kind} {movement.measure.subject}", movement)
        return tuple(seen.values())[:count]


@dataclass(frozen=True, eq=False)
class Pulled:
    """A welded group with the movement that its welding leaves.

    beads, runs: numbers of those that belong to it. clamps: (c, 3) where it is held. listed, proposed: the two orders.
    tried: orders computed; stopped: whether the search was stopped early.
    """

    group: Group
    points: tuple[Point, ...]
    beads: tuple[int, ...]
    clamps: Floats
    listed: Order
    proposed: Order
    tried: int
    stopped: bool


@dataclass(frozen=True, eq=False)
class Pull:
    """All welded groups of a piece, the runs they share numbers with, and the factor used."""

    groups: tuple[Pulled, ...]
    beads: tuple[Bead, ...]
    runs: tuple[Run, ...]
    factor: Spread = field(default=FACTOR)


def pull_of(
    framed: Framed,
    beads: Sequence[Bead],
    *,
    factor: Spread = FACTOR,
    clamps: Sequence[Floats] | None = None,
    progress: Progress = go_on,
    before: Pull | None = None,
    subassemblies: Sequence[Collection[int]] = (),
) -> Pull:
    """How welding moves every welded group, in the order listed and in the best order found.

    clamps: points (3,) where groups are held on the bench; when None, as `clamped` says. before: of the same welds at
    another size, whose orders are taken over instead of a search. subassemblies: members (by index) welded by
    themselves first; each comes off the bench as a group of its own, and what it moved is not counted again after.

    Raises ShrinkageError when a weld's joint is not in the frame.
    Holds for linear frames of thin members, small movements; the sequence is that of `stages`, what a weld does that
    of `runs`.
    Source: inherent strain through the frame model; the formulas are named where they are.
    """
    runs = runs_of(beads, framed.piece.members)
    setups = set_ups(framed, beads, subassemblies)
    known = [None] * len(setups) if before is None else [found.proposed.runs for found in before.groups]
    pulled = [
        _group_pull(setup, beads, runs, factor, clamps, progress, order)
        for setup, order in zip(setups, known, strict=True)
    ]
    return Pull(tuple(pulled), tuple(beads), runs, factor)


@dataclass(frozen=True, eq=False)
class _Bench:
    """One group ready to be welded: its gaps held and free, what is looked at, and its runs by number."""

    group: Group
    held: Compliance
    free: Compliance
    points: tuple[Point, ...]
    measures: tuple[Measure, ...]
    numbers: tuple[int, ...]
    stages: Stages


def _group_pull(
    setup: SetUp,
    beads: Sequence[Bead],
    runs: Sequence[Run],
    factor: Spread,
    clamps: Sequence[Floats] | None,
    progress: Progress,
    known: tuple[int, ...] | None,
) -> Pulled:
    bench, group = _bench(setup, beads, runs, clamps), setup.group
    read = translations(group, bench.points)
    free = bench.free.read(read)
    search = Search(bench.stages, without_rigid(bench.points) @ free)
    ways = _ways(bench, runs)
    listed = tuple(run for by_split in ways for run in by_split[0])
    if known is None:
        found = best_order(search, listed, quietest_runs(search, ways), progress)
    else:
        order = tuple(bench.numbers.index(run) for run in known)
        found = Found(order, search.movement(order), search.tried, False)
    orders = [_order(bench, order, free, read, factor) for order in (listed, found.order)]
    held = clamp_points(group, bench.held.factor.supports)
    return Pulled(group, bench.points, setup.beads, held, orders[0], orders[1], found.tried, found.stopped)


def _ways(bench: _Bench, runs: Sequence[Run]) -> list[list[list[int]]]:
    """Weld -> way of parting it -> its runs, by their place among the runs of the group."""
    ways: dict[int, dict[int, list[int]]] = {}
    for k, number in enumerate(bench.numbers):
        run = runs[number]
        ways.setdefault(run.bead, {}).setdefault(run.split, []).append(k)
    return [list(by_split.values()) for by_split in ways.values()]


def _bench(setup: SetUp, beads: Sequence[Bead], runs: Sequence[Run], clamps: Sequence[Floats] | None = None) -> _Bench:
    group = setup.group
    mine = {i: beads[i] for i in setup.beads}
    numbers = tuple(k for k, run in enumerate(runs) if run.bead in mine)
    links = joined(group, mine, [runs[k] for k in numbers])
    held = compliance(group, links.gaps, clamped(group, clamps))
    free = compliance(group, links.gaps, floating(group))
    tacks = np.array([_tacked_end(group, mine, links.gaps.points[g], c) for g, c in enumerate(links.connections)])
    stages = stages_of(held.joint_stiffness, tacks, links, beads, runs, numbers)
    points = points_of(group, _joint_names(group, [beads[i] for i in (*setup.before, *setup.beads)]))
    return _Bench(group, held, free, points, measures_of(group, points), numbers, stages)


def _joint_names(group: Group, beads: Sequence[Bead]) -> dict[int, str]:
    """Node -> such as `ledge 1 on hoop 1`."""
    members = group.framed.piece.members
    names: dict[int, str] = {}
    places = {place.joint: place for place in group.framed.joints}
    for seam in (bead.seam for bead in beads):
        name = f"{members[seam.first].name} on {members[seam.second].name}"
        if seam.kind is WeldKind.BUTT:
            name = f"the corner of {members[seam.first].name} and {members[seam.second].name}"
        names[group.node_of[places[seam.joint].node]] = name
    return names


def _tacked_end(group: Group, beads: Mapping[int, Bead], point: Floats, numbers: Sequence[int]) -> Floats:
    total = np.zeros((6, 6))
    for number in numbers:
        member = group.framed.piece.members[beads[number].seam.first]
        low, high, _, _ = member.stock.section.extents
        total += tack_stiffness(beads[number], point, member.stock.material.e, high - low)
    return total


def _order(bench: _Bench, order: Sequence[int], free: Floats, read: Floats, factor: Spread) -> Order:
    """free: (3p, 6g) movement of the points for a unit of each gap, released; read: (3p, 6n)."""
    parts = walk(bench.stages, order)
    second = _second(bench.stages, order)
    total = parts.sum(axis=(0, 2)) * factor.mean
    moved = without_rigid(bench.points) @ (free @ total)
    response = solve(bench.held.factor, forces(bench.group.model, bench.held.forces @ total))
    order_of = np.argsort(bench.held.factor.supports.spring_nodes)
    movements = [
        Movement(measure, _spread(measure.weights.ravel() @ free, parts, second, factor)) for measure in bench.measures
    ]
    return Order(
        runs=tuple(bench.numbers[k] for k in order),
        size=float(np.sqrt((moved**2).sum() / len(bench.points))),
        moved=moved.reshape(-1, 3),
        held=(read @ response.displacements).reshape(-1, 3),
        clamp_forces=response.spring_forces[order_of, :3, 0],
        movements=tuple(movements),
    )


def _second(stages: Stages, order: Sequence[int]) -> np.ndarray[tuple[int, ...], np.dtype[np.bool_]]:
    """(r,) which runs come second on their joint."""
    second = np.zeros(stages.runs, dtype=np.bool_)
    seen: set[int] = set()
    for run in order:
        second[run] = int(stages.connection[run]) in seen
        seen.add(int(stages.connection[run]))
    return second


def _spread(
    row: Floats, parts: Floats, second: np.ndarray[tuple[int, ...], np.dtype[np.bool_]], factor: Spread
) -> Spread:
    """Change of one output, row (6g,) on the gaps of all runs (r, 6g, 4), with the spreads from all sources together.

    Where the spread within the piece leaves no doubt of the sign, it is taken as log-normal: what is common to all
    welds is a factor. Source: root sum of squares of independent spreads, common to all welds, to one part, to one
    weld, to second sides.
    """
    by_run = np.einsum("g,rgp->rp", row, parts)
    mean = float(by_run.sum())
    by_part = EFFECT_SD * by_run.sum(axis=0)
    by_weld = WELD_SD * by_run.sum(axis=1)
    by_side = SECOND_SIDE_SD / SECOND_SIDE * float(by_run[second, :3].sum())
    inner = float(np.sqrt((by_part**2).sum() + (by_weld**2).sum() + by_side**2))
    sd = float(np.hypot(factor.sd * mean, factor.mean * inner))
    return Spread(mean * factor.mean, sd, factor.basis, sure=abs(mean) > SURE * inner)
