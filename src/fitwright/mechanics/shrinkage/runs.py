"""Each weld as one or two runs, and what each run would do to a joint that is free."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fitwright.mechanics.model import Bools, Floats
from fitwright.mechanics.shrinkage.heat import Arc, heat_input
from fitwright.mechanics.shrinkage.seam import Seam, WeldKind, wall
from fitwright.mechanics.shrinkage.tendon import pull_range
from fitwright.mechanics.shrinkage.transverse import angular_change, transverse_shrinkage
from fitwright.piece.model import Member
from fitwright.piece.trim import nearest_axis
from fitwright.stock import Section

SPLITS = (0, 1)
"""A seam is parted in its two sides across the member that it lies on, or along it."""

NEAR_MM = 1e-6

YIELD = 250.0
"""Yield of metal without one in the table [MPa]: ASTM A36."""


@dataclass(frozen=True, eq=False)
class Bead:
    """A seam with the size it is welded to.

    leg: of a fillet, or depth of a butt [mm]; area: of the weld metal and what is fused with it in a butt [mm2];
    arc: settings; tacks: how many; tack_length [mm]; share: of the seam that is welded, less than 1 for stitches.
    """

    seam: Seam
    leg: float
    area: float
    arc: Arc
    tacks: int
    tack_length: float
    share: float = 1.0

    @property
    def throat(self) -> float:
        """Throat [mm]: 0.707 of the leg, for a butt its depth."""
        return self.leg if self.seam.kind is WeldKind.BUTT else self.leg * 0.5**0.5

    @property
    def heat(self) -> float:
        """Heat input [J/mm]."""
        return heat_input(self.arc, self.area)


@dataclass(frozen=True, eq=False)
class Run:
    """One stretch of a weld that is made without changing sides.

    bead: index of its bead; split: how the seam is parted, 0 or 1; side: 0 or 1; toward: (3,) the side on which it
    lies; length [mm].
    drawn, turned: (6,) how the first member would move if it were free, displacement [mm] and rotation [rad], global,
    at `middle` (3,) of the whole seam: by shrinkage across the seam, and by turning of a fillet without another side.
    kink: (6,) how the part of the second member that lies behind `host_point` (3,) on its line, against `host_along`
    (3,), would move there if it were free.
    """

    bead: int
    split: int
    side: int
    toward: Floats
    length: float
    drawn: Floats
    turned: Floats
    middle: Floats
    kink: Floats
    host_point: Floats
    host_along: Floats


def runs_of(beads: Sequence[Bead], members: Sequence[Member]) -> tuple[Run, ...]:
    """The runs of all beads: both sides of each in turn, first for one way of parting it, then for the other.

    A seam that cannot be parted is one run.
    """
    found: list[Run] = []
    for number, bead in enumerate(beads):
        for split in SPLITS:
            sides = bead.seam.sides(split)
            if sides[1].any() or split == 0:
                found += [_run(number, bead, split, k, part, members) for k, part in enumerate(sides) if part.any()]
    return tuple(found)


def _run(number: int, bead: Bead, split: int, side: int, chosen: Bools, members: Sequence[Member]) -> Run:
    seam = bead.seam
    first, second = members[seam.first], members[seam.second]
    shrinkage = transverse_shrinkage(bead.area, seam.thickness, first.stock.material.kind)
    turned = np.zeros(6)
    if chosen.all() and seam.kind is WeldKind.FILLET and first.stock.section.bore() is None:
        turned = one_sided(seam, angular_change(shrinkage, bead.leg, seam.thickness))
    host, along, kink = seam.middle, seam.run, np.zeros(6)
    if seam.first != seam.second and seam.kind is not WeldKind.BUTT:
        host, along, kink = host_kink(bead, chosen, second, shrinkage)
    return Run(
        bead=number,
        split=split,
        side=side,
        toward=seam.acrosses[split] * (1 if side == 0 else -1),
        length=float(seam.length[chosen].sum()) * bead.share,
        drawn=drawn(seam, chosen, shrinkage) * bead.share,
        turned=turned * bead.share,
        middle=seam.middle,
        kink=kink * bead.share,
        host_point=host,
        host_along=along,
    )


def drawn(seam: Seam, chosen: Bools, shrinkage: float) -> Floats:
    """(6,) how far and which way the end of the first member is drawn by shrinkage [mm] along a part of its seam.

    The plane that fits the shrinkage round the whole seam best: its middle gives the draw, its slope the tilt toward
    the side that was welded. The parts of a seam add up to a plain draw by the whole shrinkage.
    Holds for ends whose edge stays plane. Source: least squares; geometry.
    """
    arms = seam.points - seam.middle
    arms = arms - (arms @ seam.pull)[:, None] * seam.pull
    amount = np.where(chosen, shrinkage, 0.0)
    mean = float(seam.length @ amount) / seam.total
    spread = (arms * seam.length[:, None]).T @ arms
    slope = np.linalg.pinv(spread, rcond=1e-6) @ (arms.T @ (seam.length * (amount - mean)))
    return np.concatenate([mean * seam.pull, -np.cross(seam.pull, slope)])


def one_sided(seam: Seam, angle: float) -> Floats:
    """(6,) rotation of a flat member by a fillet on one of its faces that turns it by an angle [rad] about the seam.

    The member turns toward the face on which the weld lies; which face that is follows from where the seam lies.
    Holds for flats and legs of angle welded on one face only; a tube's wall is held by its own round, and a weld on
    both faces turns through its tilt.
    """
    axis = seam.length @ (seam.along * np.sign(seam.along @ seam.along[0])[:, None])
    size = float(np.linalg.norm(axis))
    return np.concatenate([np.zeros(3), angle * axis / size]) if size > 1e-9 else np.zeros(6)


def host_kink(bead: Bead, chosen: Bools, host: Member, shrinkage: float) -> tuple[Floats, Floats, Floats]:
    """Point (3,) and direction (3,) of the second member's line, and how the part behind moves by the weld on its
    side (6,).

    The weld shortens the wall that it lies on: along itself by its pull F / E, across itself by the half of its
    shrinkage that falls on this member. What of both runs along the member, times the distance of that wall from the
    centroid over the second moment, is the kink; over the area, the shortening. Across the member no more of the weld
    counts than reaches round its near half, once before and once behind the branch.
    Holds for plane sections; the pull is the likely one of `pull_range`.
    Source: inherent strain of a weld, as Y. Ueda, H. Murakawa, N. Ma, Welding Deformation and Residual Stress
    Prevention (2012), use it (from memory); beam kinematics.
    """
    seam, section, metal = bead.seam, host.stock.section, host.stock.material
    point, along = nearest_axis(host.body, seam.middle)
    point = point + _centroid_arm(host, point)
    arm = seam.middle - point
    arm = arm - (arm @ along) * along
    outside = float(np.linalg.norm(arm))
    distance = outside - wall(section) / 2
    if distance < NEAR_MM:
        return point, along, np.zeros(6)
    pull = pull_range(section, bead.heat, distance, metal.fy or YIELD, metal.e, metal.kind).likely
    cosine = (seam.along @ along) ** 2
    across = float(seam.length @ (1 - cosine))
    counted = min(1.0, 2 * _near_half(section) / across) if across > NEAR_MM else 1.0
    each = pull / metal.e * cosine + counted * 0.5 * shrinkage * min(seam.thickness, wall(section)) * (1 - cosine)
    volume = float(seam.length[chosen] @ each[chosen])
    turn = np.cross(arm / outside, along) * volume * distance / min(section.i_u, section.i_v)
    return point, along, np.concatenate([volume / section.area * along, turn])


def _near_half(section: Section) -> float:
    """How far a weld across a member reaches on its near side [mm]: half round a round one, the width of others."""
    low, high = section.extents[0], section.extents[1]
    return (high - low) * (np.pi / 2 if section.is_round and section.bore() is not None else 1.0)


def _centroid_arm(member: Member, point: Floats) -> Floats:
    """(3,) from the line of the section's origin to the centroid, at the start's frame: nil for all but angle."""
    return np.asarray(np.asarray(member.stock.section.centroid) @ member.body.frame)
