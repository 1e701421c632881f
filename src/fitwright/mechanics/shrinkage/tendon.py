"""The pull of a weld along itself: a tendon in the section, and what the section can bear of it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.mechanics.shrinkage.errors import ShrinkageError
from fitwright.mechanics.shrinkage.tables import rows
from fitwright.stock import Section

TENDON = 200.0
"""Newtons of pull for each J/mm of heat: F = 0.2 q (kN, J/mm), J. D. White, R. H. Leggatt, J. B. Dwight, Weld shrinkage
prediction, Welding and Metal Fabrication (1980), and Leggatt's papers since (from memory); see `okerblom_force`."""

OKERBLOM = 0.335
"""N. O. Okerblom, The Calculations of Deformations of Welded Metal Structures (1958): plastic strain times area for
each heat, alpha / (c rho) x 0.335 (from memory)."""

BLODGETT = 0.005
"""Bow of a member by a weld along it, inches: O. Blodgett, Design of Welded Structures, section 7.7 (constant
recalled)."""

RULE_OF_THUMB = 0.8 / 3000.0
"""TWI, FAQ How much shall I allow for weld shrinkage: a fillet weld shortens by 0.8 mm in 3 m of its own length."""

FIRST_YIELD = 0.5
"""Share of the section's plastic limit taken as the pull to expect where the tendon would exceed it: between first
yield
and the limit (an assumption, narrowed by readings)."""


@dataclass(frozen=True)
class PullRange:
    """What a weld along a member does to it: low, likely, high, in the unit of the function, and where each comes
    from."""

    low: float
    likely: float
    high: float
    basis: str


def tendon_force(heat: float) -> float:
    """The pull along a weld in mild steel [N] for a heat input [J/mm].

    Holds for members whose section is large beside the weld: the pull is what the metal beside the weld can resist.
    Source: White, Leggatt and Dwight, `TENDON`.

    >>> tendon_force(1000.0)
    200000.0
    """
    return TENDON * heat


def okerblom_force(heat: float, e: float, kind: str = "steel") -> float:
    """The same from the metal's own constants [N]: 0.335 E alpha q / (c rho).

    heat: [J/mm]; e: [MPa]; kind: steel, stainless or aluminium.

    Raises ShrinkageError for a metal that is not in the table.
    Holds as `tendon_force`; gives 0.22 kN per J/mm for mild steel, a tenth more.
    Source: Okerblom, `OKERBLOM`.
    """
    for row in rows("metals"):
        if row["kind"] == kind:
            return OKERBLOM * e * float(row["alpha"]) / float(row["heat"]) * heat
    raise ShrinkageError(f"no expansion and heat capacity for {kind!r}: known are steel, stainless, aluminium")


def blodgett_bow(area: float, length: float, distance: float, second_moment: float) -> float:
    """Bow of a member by a weld along its whole length [mm].

    area: of the weld [mm2]; length: [mm]; distance: of the weld from the neutral axis [mm]; second_moment: [mm4].
    Holds for heavy fabricated members only; on light tube it gives several times what can happen, see `bow_range`.
    Source: Blodgett, 0.005 A L^2 d / I (inches; the formula keeps its form in any unit).

    >>> round(blodgett_bow(0.0625 * 25.4**2, 120 * 25.4, 4 * 25.4, 100 * 25.4**4) / 25.4, 3)
    0.18
    """
    return BLODGETT * area * length**2 * distance / second_moment


def plastic_limit(area: float, plastic_modulus: float, distance: float, fy: float) -> float:
    """The largest pull [N] at a distance from the centroid [mm] that a section of fully yielded metal can balance.

    area [mm2], plastic_modulus [mm3], fy [MPa]. Solves F d / Mp = cos(pi F / (2 Np)), by halving.
    Holds for thin round tube, and on the safe side of nothing: other sections differ from it by a few percent.
    Source: plastic interaction of axial force and moment of a thin round tube, M / Mp = cos(pi N / (2 Np)), any book
    on plastic design (from memory).
    """
    squash, moment = area * fy, plastic_modulus * fy
    low, high = 0.0, squash
    for _ in range(60):
        middle = (low + high) / 2
        spare = math.cos(math.pi / 2 * middle / squash) - middle * distance / moment
        low, high = (middle, high) if spare > 0 else (low, middle)
    return low


def pull_range(section: Section, heat: float, distance: float, fy: float, e: float, kind: str = "steel") -> PullRange:
    """The pull of a weld along a member at a distance from its centroid [N], never a bare number.

    high: the tendon force, no more than the section can balance when it yields throughout. low: the pull that shortens
    the weld's own line as much as the rule of thumb of plate shops says. likely: the tendon force up to half the
    plastic limit.
    Holds for sections of one wall thickness. Source: `tendon_force`, `plastic_limit`, `RULE_OF_THUMB`; published
    formulas are for plates and heavy sections, so readings of the shop outweigh them (`narrowed`).
    """
    tendon = tendon_force(heat) * okerblom_force(1.0, e, kind) / okerblom_force(1.0, 206000.0, "steel")
    inertia = min(section.i_u, section.i_v)
    limit = plastic_limit(section.area, min(section.z_plastic_u, section.z_plastic_v), distance, fy)
    thumb = RULE_OF_THUMB * e / (1 / section.area + distance**2 / inertia)
    high = min(tendon, limit)
    low = min(thumb, high)
    likely = max(min(tendon, FIRST_YIELD * limit), low)
    what = "capped by what the section bears when it yields" if tendon > limit else "tendon force 0.2 kN per J/mm"
    return PullRange(low, likely, high, f"{what}; low end 0.8 mm in 3 m of weld")


def bow_range(
    section: Section, heat: float, distance: float, length: float, fy: float, e: float, kind: str = "steel"
) -> PullRange:
    """The bow of a member [mm] by a weld all along it, as a range with its basis.

    length: of member and weld [mm]; the rest as `pull_range`. Bow = F d L^2 / (8 E I).
    Holds as `pull_range`. Source: beam bent by an eccentric force.
    """
    pull = pull_range(section, heat, distance, fy, e, kind)
    each = distance * length**2 / (8 * e * min(section.i_u, section.i_v))
    return PullRange(pull.low * each, pull.likely * each, pull.high * each, pull.basis)
