"""Columns by the AISC specification: Euler load, column curve, and how slender a wall may be."""

from __future__ import annotations

from math import pi, sqrt

import numpy as np

from fitwright.mechanics.model import Floats
from fitwright.stock import RectTube, RoundTube, Section

INELASTIC = 2.25
OMEGA = 1.67
"""AISC 360-16, E1 and F1: safety factor on compression and bending."""


def euler_load(e: float, inertia: float, effective_length: float) -> float:
    """Elastic buckling load of a column [N]: pi^2 E I / (K L)^2.

    e [MPa], inertia [mm4], effective_length K L [mm]. Holds for slender straight columns.
    Source: J. M. Gere, Mechanics of Materials, 7th ed., section 11.3.

    >>> round(euler_load(210e3, 43216, 1200) / 1000, 1)
    62.2
    """
    return pi**2 * e * inertia / effective_length**2


def column_stress(fy: float, fe: float) -> float:
    """Critical stress Fcr [MPa] of a column from its yield and elastic buckling stress [MPa].

    Holds for sections without slender walls. Source: AISC 360-16, E3-2 and E3-3.

    >>> round(column_stress(35.0, 29.9), 1)
    21.4
    """
    if fe <= 0:
        return 0.0
    return 0.658 ** (fy / fe) * fy if fy / fe <= INELASTIC else 0.877 * fe


def column_capacity(section: Section, e: float, fy: float, effective_length: float, safety: float = OMEGA) -> float:
    """Allowed compression [N] of a column that buckles about its weak axis.

    effective_length: K L [mm]. Holds for buckling in bending; twisting of open sections is not in it.
    Source: AISC 360-16, chapter E3, ASD.
    """
    weak = section.principal[1]
    fe = euler_load(e, weak, effective_length) / section.area
    return column_stress(fy, fe) * section.area / safety


def interaction(axial: Floats, bending: Floats) -> Floats:
    """Use of members in compression and bending (...), from the use in each (...) [-]; 1 is full.

    Source: AISC 360-16, H1-1a and H1-1b, with the two bending terms already added.

    >>> interaction(np.array([0.5, 0.1]), np.array([0.45, 0.45]))
    array([0.9, 0.5])
    """
    return np.asarray(np.where(axial >= 0.2, axial + 8 / 9 * bending, axial / 2 + bending))


def wall_slenderness(section: Section) -> float | None:
    """Diameter, or flat width, over wall of a tube [-]; None for other shapes.

    Source: AISC 360-16, B4.1b: the flat width between corners.
    """
    if isinstance(section, RoundTube):
        return section.od / section.strength_wall
    if isinstance(section, RectTube):
        wall = section.wall if section.design_wall is None else section.design_wall
        return (section.width - 2 * section.outer_radius) / wall
    return None


def compression_limit(section: Section, e: float, fy: float) -> float | None:
    """The wall slenderness up to which a tube in compression yields before its wall buckles [-].

    Round 0.11 E / Fy; rectangular 1.40 sqrt(E / Fy). Source: AISC 360-16, Table B4.1a cases 9 and 6 (from memory).

    >>> round(compression_limit(RoundTube(31.75, 1.651), 29000.0, 50.0) or 0, 1)
    63.8
    """
    if isinstance(section, RoundTube):
        return 0.11 * e / fy
    return 1.40 * sqrt(e / fy) if isinstance(section, RectTube) else None


def compact_limit(e: float, fy: float) -> float:
    """The D/t up to which round tube in bending reaches its plastic moment [-].

    Source: AISC 360-16, Table B4.1b: 0.07 E / Fy (from memory).

    >>> round(compact_limit(29000.0, 50.0), 1)
    40.6
    """
    return 0.07 * e / fy


def bending_capacity(section: Section, e: float, fy: float, safety: float = OMEGA) -> float:
    """Allowed moment [N mm] about the axis that is weaker in bending.

    Plastic for compact round tube (F8); elsewhere the elastic moment, on the safe side.
    Source: AISC 360-16, F8-1; F7 and F10 with the elastic modulus.
    """
    if isinstance(section, RoundTube) and section.od / section.strength_wall <= compact_limit(e, fy):
        return fy * section.z_plastic_u / safety
    return fy * min(section.s_u, section.s_v) / safety
