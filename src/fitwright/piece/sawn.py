"""How a saw is set for the cut at an end of a member."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fitwright.piece.model import CutKind, Member
from fitwright.piece.path import Vector
from fitwright.piece.vectors import size

ALIKE = 0.5  # cosine between the ways that two cuts lean, from which they lean alike
ONE_WAY_RAD = 1e-3
"""A saw tilted less than this from one of its two ways is set the other way only."""


@dataclass(frozen=True)
class OneCut:
    """One pass of the saw, the member lying on its wider side, an angle on one leg.

    swing: of the saw round the upright, from square to the member; bevel: of the blade from upright [rad].
    """

    swing: float
    bevel: float = 0.0

    @property
    def compound(self) -> bool:
        """Whether the blade is both swung and bevelled, however the member is laid down."""
        return self.bevel > 0


def one_cut(member: Member, end: int) -> OneCut | None:
    """The saw for an end that one pass cuts; None for a cope, and for an end of two planes or more.

    A cut that is off square one way only is told as a swing: the member is rolled onto the side that allows it.
    Holds for straight members, and for the straight at the end of a bent one.
    Source: common practice; with both, the cosines of swing and bevel multiply to that of the whole tilt.
    """
    cut = member.ends[end]
    if cut.copes or len(cut.planes) > 1:
        return None
    if cut.kind is not CutKind.MITRE or member.stock.section.is_round or not cut.planes:
        return OneCut(cut.angle)
    section, frame = member.stock.section, member.body.frame_at(end)
    u0, u1, v0, v1 = section.extents
    flat, upright = (0, 1) if u1 - u0 >= v1 - v0 else (1, 0)
    (plane,) = cut.planes
    swing = float(np.arctan2(abs(plane.normal @ frame[flat]), abs(plane.normal @ member.body.outward(end))))
    bevel = float(np.arcsin(min(abs(plane.normal @ frame[upright]), 1.0)))
    return OneCut(cut.angle) if min(swing, bevel) < ONE_WAY_RAD else OneCut(swing, bevel)


def leaning_alike(member: Member) -> bool:
    """Whether the mitres at both ends lean the same way, as those of a brace; not toward each other, as in a frame.

    Holds for straight members; False where either end is no mitre of one plane.
    """
    ways = [_lean(member, end) for end in (0, 1)]
    return bool(ways[0] @ ways[1] < -ALIKE)


def _lean(member: Member, end: int) -> Vector:
    """Across the member, where the plane that cuts an end faces (3,); nothing where it is square or not one plane."""
    planes = member.ends[end].planes if member.ends[end].kind is CutKind.MITRE else ()
    if len(planes) != 1:
        return np.zeros(3)
    outward = member.body.outward(end)
    across = planes[0].normal - (planes[0].normal @ outward) * outward
    return np.asarray(across / max(size(across), ONE_WAY_RAD))
