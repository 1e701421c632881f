"""The frame's answer to every load case: movements, section forces, feet, and the load factor at which it buckles."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from fitwright.checks.cases import HOLLOW_MM, Cases, LoadCase
from fitwright.checks.joint_forces import JointForce, joint_forces
from fitwright.mechanics import Response, buckling, factorise, feet, floor, on_feet, section_forces, solve, stand
from fitwright.mechanics.contact import Feet, Floor
from fitwright.mechanics.framing import Framed, floor_feet, holding
from fitwright.mechanics.framing.loading import as_loads
from fitwright.mechanics.model import Bools, Floats

STATIONS = (0.0, 0.5, 1.0)
DRAWN_SHARE = 0.08


@dataclass(frozen=True, eq=False)
class FrameResults:
    """k cases on a frame of n nodes and m elements.

    displacements: (n, 6, k) [mm, rad]; forces: (m, 3, 6, k) N Vy Vz T My Mz at start, middle and end of each element;
    ends: (m, 12, k) forces of nodes on element ends, local; lift: (c, k) of each foot [mm]; press: (c, k) [N].
    tips: (k,) true where the piece goes over; all numbers of such a case are not a number.
    free: the response in which case `free_case`, the one with most weight on, is a column; for the load factor.
    """

    framed: Framed
    cases: Cases
    displacements: Floats
    forces: Floats
    ends: Floats
    lift: Floats
    press: Floats
    tips: Bools
    free: Response
    free_column: int
    free_case: int

    @cached_property
    def load_factor(self) -> float:
        """Times the loads of the case with most weight on at which the frame buckles; infinite where it cannot."""
        if not np.isfinite(self.free.displacements[:, self.free_column]).all():
            return float("inf")
        found = buckling(self.free, self.free_column)
        return float(found.factors[0]) if len(found.factors) else float("inf")

    @cached_property
    def passed(self) -> tuple[JointForce, ...]:
        """What every joint has to pass in each case."""
        return joint_forces(self.framed, self.ends)

    @property
    def magnified(self) -> float:
        """What second order adds to bending: 1 / (1 - 1 / load factor), at most 10.

        Source: EN 1993-1-1:2005, 5.2.2(5)B (from memory).
        """
        return 10.0 if self.load_factor <= 10 / 9 else 1 / (1 - 1 / self.load_factor)

    def deflected(self, case: int, scale: float | None = None) -> tuple[Floats, float]:
        """The ends of the elements moved (m, 2, 3) [mm], exaggerated by `scale`, and that scale.

        Without a scale, one is taken at which the largest movement is a twelfth of the piece's largest side.
        """
        moved = self.framed.moved_ends(self.displacements[:, :, case])
        most = float(np.nanmax(np.linalg.norm(moved, axis=2), initial=0.0))
        if scale is None:
            scale = DRAWN_SHARE * float(self.framed.piece.envelope.size.max()) / most if most > 0 else 1.0
        return np.asarray(self.framed.model.ends + scale * moved), scale


def solve_cases(framed: Framed, cases: Cases) -> FrameResults:
    """Every case solved: one factorisation for a piece free to roll and spread, one for feet that grip.

    Raises Mechanism, in the names of the parts, for a piece in which something can move without resistance.
    """
    model, count = framed.model, len(cases.cases)
    moved = np.zeros((model.node_count, 6, count))
    forces = np.zeros((model.element_count, len(STATIONS), 6, count))
    ends = np.zeros((model.element_count, 12, count))
    lift, press = np.zeros((len(framed.feet), count)), np.zeros((len(framed.feet), count))
    tips = np.zeros(count, dtype=np.bool_)
    free = column = None
    for grips in (False, True):
        ground = _ground(framed, stick=grips)
        for hollow, numbers in _together(cases.cases, grips):
            answer = _answer(framed, ground, [cases.cases[i] for i in numbers], hollow)
            moved[:, :, numbers] = answer.response.by_node
            forces[..., numbers] = section_forces(answer.response, STATIONS)
            ends[..., numbers] = answer.response.end_forces
            lift[:, numbers], press[:, numbers], tips[numbers] = answer.lift, answer.force, answer.tips
            if hollow is None and not grips:
                free, column = answer.response, numbers.index(_heaviest(cases, numbers))
    assert free is not None
    assert column is not None
    at = _heaviest(cases, list(range(count)))
    return FrameResults(framed, cases, moved, forces, ends, lift, press, tips, free, column, at)


def _heaviest(cases: Cases, numbers: list[int]) -> int:
    return next((i for i in numbers if cases.cases[i].kind == "full"), numbers[0])


@dataclass(frozen=True, eq=False)
class _Answer:
    response: Response
    lift: Floats
    force: Floats
    tips: Bools


def _together(cases: Sequence[LoadCase], grips: bool) -> list[tuple[int | None, list[int]]]:
    """Numbers of the cases that are solved together: those with the same supports and the same hollow."""
    groups: dict[int | None, list[int]] = {}
    for i, case in enumerate(cases):
        if case.grips == grips:
            groups.setdefault(case.hollow, []).append(i)
    return list(groups.items())


def _ground(framed: Framed, *, stick: bool) -> Floor:
    contacts = floor_feet(framed, stick=stick)
    held = holding(framed, stick=stick)
    if not len(contacts.nodes):
        nothing = feet([])
        factor = factorise(framed.model, held)
        return Floor(factor, nothing, nothing.pushing, nothing.pushing, np.zeros((0, 0)), np.zeros((0, 0)))
    return floor(factorise(framed.model, on_feet(framed.model, held, contacts)), contacts)


def _answer(framed: Framed, ground: Floor, cases: Sequence[LoadCase], hollow: int | None) -> _Answer:
    loads = as_loads(framed, [case.pattern for case in cases])
    if not len(ground.feet.nodes):
        none = np.zeros((0, loads.cases))
        return _Answer(solve(ground.factor, loads), none, none, np.zeros(loads.cases, dtype=np.bool_))
    stance = stand(replace(ground, feet=_hollowed(ground.feet, hollow)), loads)
    return _Answer(stance.response, stance.lift, stance.force, stance.tips)


def _hollowed(contacts: Feet, hollow: int | None) -> Feet:
    if hollow is None:
        return contacts
    gap = contacts.gap.copy()
    gap[hollow] += HOLLOW_MM
    return replace(contacts, gap=gap)
