"""A welded group of members as a frame of its own, with a gap at every joint that is to be welded."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from fitwright.mechanics.axes import skew
from fitwright.mechanics.factor import Factor, factorise
from fitwright.mechanics.framing import Framed, JointPlace
from fitwright.mechanics.influence import influence, misfit_forces
from fitwright.mechanics.misfit import misfit_to_middle
from fitwright.mechanics.model import Floats, FrameModel, Ints
from fitwright.mechanics.shrinkage.errors import ShrinkageError
from fitwright.mechanics.shrinkage.runs import Bead, Run
from fitwright.mechanics.shrinkage.seam import Seam
from fitwright.mechanics.supports import Supports, supports

HALF = 0.5


@dataclass(frozen=True, eq=False)
class Gaps:
    """Where the frame can be given a lack of fit: g gaps of six each.

    ends: for each gap the (element, end, share) that move by it. points: (g, 3) where a gap is measured [mm].
    """

    ends: tuple[tuple[tuple[int, int, float], ...], ...]
    points: Floats

    @property
    def count(self) -> int:
        """g."""
        return len(self.ends)


@dataclass(frozen=True, eq=False)
class Group:
    """Members welded to one another, by themselves.

    members: their indices. model: their frame; node_of: node in the whole frame -> node here; kept: (m,) elements of
    the whole frame.
    """

    members: tuple[int, ...]
    model: FrameModel
    kept: Ints
    node_of: Mapping[int, int]
    framed: Framed

    @cached_property
    def element_of(self) -> Mapping[int, int]:
        """Element in the whole frame -> element here."""
        return {int(k): i for i, k in enumerate(self.kept)}


@dataclass(frozen=True, eq=False)
class SetUp:
    """What is welded in one go: the group as it then is, the numbers of the beads made, and of those made before."""

    group: Group
    beads: tuple[int, ...]
    before: tuple[int, ...] = ()


def welded_groups(framed: Framed, beads: Sequence[Bead]) -> tuple[Group, ...]:
    """The sets of members that the welds hold together, the largest first; what is only bolted on is left out."""
    return tuple(group_of(framed, members) for members in _together(beads, range(len(beads))))


def set_ups(framed: Framed, beads: Sequence[Bead], subassemblies: Sequence[Collection[int]] = ()) -> tuple[SetUp, ...]:
    """What is welded on the bench, one after the other: the subassemblies, each a set of members, then all the rest.

    A subassembly that its own welds do not hold together is as many as they hold.
    """
    done: list[int] = []
    found: list[SetUp] = []
    for members in [*subassemblies, range(len(framed.piece.members))]:
        inside = [i for i, bead in enumerate(beads) if {bead.seam.first, bead.seam.second} <= set(members)]
        mine = [i for i in inside if i not in done]
        for together in _together(beads, inside):
            now = tuple(i for i in mine if beads[i].seam.first in together)
            if now:
                earlier = tuple(i for i in inside if i in done and beads[i].seam.first in together)
                found.append(SetUp(group_of(framed, together), now, earlier))
        done += mine
    return tuple(found)


def _together(beads: Sequence[Bead], numbers: Collection[int]) -> list[tuple[int, ...]]:
    """The sets of members that some of the welds hold together, the largest first."""
    holder: dict[int, int] = {}

    def find(k: int) -> int:
        while holder.setdefault(k, k) != k:
            k = holder[k]
        return k

    for number in numbers:
        holder[find(beads[number].seam.first)] = find(beads[number].seam.second)
    sets: dict[int, list[int]] = {}
    for k in sorted(holder):
        sets.setdefault(find(k), []).append(k)
    return [tuple(members) for members in sorted(sets.values(), key=len, reverse=True)]


def group_of(framed: Framed, members: Collection[int]) -> Group:
    """Some of the members as a frame of their own; panels, links and feet are not there while it is welded."""
    wanted = sorted(members)
    kept = np.flatnonzero(np.isin(framed.member_of, wanted))
    whole = framed.model
    used, numbers = np.unique(whole.elements[kept], return_inverse=True)
    model = replace(
        whole,
        nodes=whole.nodes[used],
        elements=np.asarray(numbers, dtype=np.intp).reshape(-1, 2),
        **{name: getattr(whole, name)[kept] for name in _BY_ELEMENT},
        links=np.zeros((0, 2), dtype=np.intp),
        link_stiffness=np.zeros((0, 6, 6)),
        rigid=np.zeros((0, 2), dtype=np.intp),
        node_labels=tuple(whole.node_labels[int(n)] for n in used),
        element_labels=tuple(whole.element_labels[int(e)] for e in kept),
    )
    return Group(tuple(wanted), model, kept, {int(n): i for i, n in enumerate(used)}, framed)


_BY_ELEMENT = (
    "y_axis",
    "e",
    "g",
    "area",
    "i_y",
    "i_z",
    "i_yz",
    "j",
    "shear_y",
    "shear_z",
    "softening",
    "offsets",
    "shear_centre",
    "releases",
    "mass_per_mm",
)


@dataclass(frozen=True, eq=False)
class Joined:
    """The gaps of a group: first one for each end that is welded, then one for each member that is welded to.

    connections: for each welded end the beads on it. of_bead: bead -> its gap. host_of_bead: bead -> the gap of the
    member it is welded to, None for a butt.
    """

    gaps: Gaps
    connections: tuple[tuple[int, ...], ...]
    of_bead: Mapping[int, int]
    host_of_bead: Mapping[int, int]

    @property
    def welds(self) -> int:
        """How many gaps belong to welded ends; the hosts come after."""
        return len(self.connections)


def joined(group: Group, beads: Mapping[int, Bead], runs: Sequence[Run]) -> Joined:
    """Find the gaps for these beads (by number) in a group.

    Two welds on one end share its gap, for the end moves as one.

    Raises ShrinkageError naming the joint that the frame does not have.
    """
    places = {place.joint: place for place in group.framed.joints}
    keys: dict[tuple[int, int, int], list[int]] = {}
    for number, bead in beads.items():
        seam = bead.seam
        key = (seam.first, -1 if seam.end is None else seam.end, seam.joint if seam.end is None else -1)
        keys.setdefault(key, []).append(number)
    ends: list[tuple[tuple[int, int, float], ...]] = []
    points, of_bead, host_of_bead = [], {}, {}
    for numbers in keys.values():
        here = _branch_ends(group, beads[numbers[0]].seam, places)
        of_bead.update(dict.fromkeys(numbers, len(ends)))
        ends.append(here)
        points.append(group.model.ends[here[0][0], here[0][1]])
    kinked = {run.bead: run for run in runs if run.kink.any()}
    for number, run in kinked.items():
        seam = beads[number].seam
        found = _host_ends(group, seam.second, group.node_of[places[seam.joint].node], run)
        if found:
            host_of_bead[number] = len(ends)
            ends.append(found)
            points.append(run.host_point)
    gaps = Gaps(tuple(ends), np.array(points).reshape(-1, 3))
    return Joined(gaps, tuple(tuple(numbers) for numbers in keys.values()), of_bead, host_of_bead)


def _branch_ends(group: Group, seam: Seam, places: Mapping[int, JointPlace]) -> tuple[tuple[int, int, float], ...]:
    """The (element, end) of the member whose edge is welded; of a lap those on either side of it."""
    if seam.joint not in places:
        raise ShrinkageError(f"joint {seam.joint} of the piece is not in the frame: weld only what has been framed")
    if seam.end is None:
        return tuple((group.element_of[e], end, 1.0) for e, end in places[seam.joint].ends)
    elements = group.framed.elements_of[seam.first]
    return ((group.element_of[int(elements[-seam.end])], seam.end, 1.0),)


def _host_ends(group: Group, member: int, node: int, run: Run) -> tuple[tuple[int, int, float], ...]:
    """The (element, end) of the member that adjoin a node, each with its share of a kink there.

    The kink lies half on each side of what is welded on: +1/2 for the part behind the host's point, -1/2 before it.
    """
    found = []
    for element in np.flatnonzero(group.framed.member_of[group.kept] == member).tolist():
        for end in (0, 1):
            if int(group.model.elements[element, end]) == node:
                away = group.model.ends[element, 1 - end] - group.model.ends[element, end]
                found.append((element, end, HALF if float(away @ run.host_along) < 0 else -HALF))
    return tuple(found)


@dataclass(frozen=True, eq=False)
class Compliance:
    """How a group answers its gaps under some supports.

    factor: the frame factorised. forces: (6n, 6g) forces on nodes from unit gaps. own: (6g, 6g) force in each gap for a
    unit of each, the nodes held.
    """

    factor: Factor
    forces: Floats
    own: Floats

    @cached_property
    def joint_stiffness(self) -> Floats:
        """(6g, 6g) force in each gap for a unit of each, the frame answering."""
        return self.own - influence(self.factor, self.forces.T, self.forces)

    def read(self, outputs: Floats) -> Floats:
        """(o, 6g) change of outputs (o, 6n) for a unit of each gap."""
        return influence(self.factor, outputs, self.forces)


def compliance(group: Group, gaps: Gaps, held: Supports) -> Compliance:
    """Factorise a group as it is held and ask it for every gap at once.

    Holds for the linear frame. Source: lack of fit as in `misfits`; the stiffness over the gaps is what remains of the
    elements' own when the frame has answered.
    """
    factor = factorise(group.model, held)
    flat = [(e, end, sign, g) for g, ends in enumerate(gaps.ends) for e, end, sign in ends]
    elements = np.array([f[0] for f in flat], dtype=np.intp)
    sides = np.array([f[1] for f in flat], dtype=np.intp)
    carry = _carried_to_ends(group.model, gaps, flat)
    unit = np.asarray(misfit_forces(factor, elements, sides).toarray())
    forces = np.einsum("npi,pij->npj", unit.reshape(len(unit), len(flat), 6), carry)
    total = np.zeros((gaps.count, len(unit), 6))
    np.add.at(total, np.array([f[3] for f in flat], dtype=np.intp), forces.transpose(1, 0, 2))
    pushed = np.ascontiguousarray(total.transpose(1, 0, 2)).reshape(len(unit), -1)
    middle = misfit_to_middle(group.model, elements, sides) @ carry
    own = _own_stiffness(factor, elements, middle, [f[3] for f in flat], gaps.count)
    return Compliance(factor, pushed, own)


def _carried_to_ends(model: FrameModel, gaps: Gaps, flat: Sequence[tuple[int, int, float, int]]) -> Floats:
    """(p, 6, 6) from a gap at its own point to the misfit at each element end that moves by it."""
    carry = np.tile(np.eye(6), (len(flat), 1, 1))
    arms = np.array([model.ends[e, end] - gaps.points[g] for e, end, _, g in flat]).reshape(-1, 3)
    carry[:, :3, 3:] = -skew(arms)
    signs = np.array([sign for _, _, sign, _ in flat])
    return np.asarray(carry * signs[:, None, None])


def _own_stiffness(factor: Factor, elements: Ints, middle: Floats, gap_of: Sequence[int], count: int) -> Floats:
    """(6g, 6g) stiffness of the elements themselves over the gaps, the nodes held."""
    own = np.zeros((count, 6, count, 6))
    pushed = factor.elements.stiffness[elements] @ middle
    for a, element in enumerate(elements.tolist()):
        for b in np.flatnonzero(elements == element).tolist():
            own[gap_of[a], :, gap_of[b], :] += middle[a].T @ pushed[b]
    return own.reshape(6 * count, 6 * count)


def floating(group: Group) -> Supports:
    """Held at one node, so that nothing is forced: the free shape, to within a rigid motion."""
    return supports(group.model, {int(group.model.elements[0, 0]): "fixed"})


def seam_motion_at(motion: Floats, at: Floats, to: Floats) -> Floats:
    """(..., 6) a small rigid motion given at a point (3,) as seen at another (3,)."""
    moved = np.array(motion, dtype=np.float64)
    moved[..., :3] += np.cross(moved[..., 3:], to - at)
    return moved
