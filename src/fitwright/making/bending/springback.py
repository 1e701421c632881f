"""Springback from physics: how far a bend opens when the die lets go, before any trial has been made."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.polynomial.legendre import leggauss
from numpy.typing import NDArray

from fitwright.making.bending.errors import BendError
from fitwright.stock import Flat, Material, RoundBar, RoundTube, Section

Floats = NDArray[np.float64]

BASIS = "elastic-perfectly plastic bending and elastic unloading (Kalpakjian and Schmid, bending chapter)"
# What the prior does not know: tube as delivered yields between a little under and well over what its grade states, and
# hardens toward its ultimate strength while it is bent. From memory; the shop's own trials replace it.
YIELD_LOW, YIELD_HIGH = 0.85, 2.2
SIGMAS_OF_90 = 1.645
# Where less than this remains, the bend is elastic but for a trace, and no overbend makes it.
LEAST_KEPT = 0.05
_NODES, _WEIGHTS = leggauss(48)


@dataclass(frozen=True)
class Springback:
    """The prior for one bend.

    kept: what remains of the angle after release (final angle / angle in the die).
    command: the angle to bend to [rad]; low and high: its 90 % range, high never told beyond twice the command: there
    the stock may as well be elastic. trials: that it is from, 0 where it is from physics alone.
    """

    kept: float
    command: float
    low: float
    high: float
    basis: str = BASIS
    trials: int = 0

    @property
    def spread(self) -> float:
        """Standard deviation of the angle to bend to [rad]."""
        return (self.high - self.low) / (2 * SIGMAS_OF_90)


def springback(
    section: Section, material: Material, radius: float, angle: float, across: Floats | None = None
) -> Springback:
    """The angle to bend to for a wanted `angle` [rad] on a die of centreline `radius` [mm].

    across: direction (2,) in the section's (u, v) from the bend's centre outward; not needed for round sections.

    Raises BendError when the material has no yield stress, or when the tube would spring back straight.
    Holds for a bend in one plane of stress-free stock of one yield stress, without hardening, friction, tension or
    flattening; the range given is for what that leaves out.
    Source: `kept_angle`.
    """
    if material.fy is None:
        raise BendError(f"{material.name} has no yield stress: springback cannot be estimated; record a trial bend")
    kept = kept_angle(section, radius, material.fy, material.e, across)
    if kept < LEAST_KEPT:
        raise BendError(
            f"a bend of {radius:.0f} mm radius is elastic: {material.name} springs back straight; use a smaller radius"
        )
    low = kept_angle(section, radius, material.fy * YIELD_LOW, material.e, across)
    high = kept_angle(section, radius, material.fy * YIELD_HIGH, material.e, across)
    return Springback(kept, angle / kept, angle / low, angle / max(high, kept / 2))


def kept_angle(section: Section, radius: float, fy: float, e: float, across: Floats | None = None) -> float:
    """Final angle over angle in the die, which is also die radius over released radius, 1 - M R / (E I).

    radius: centreline radius in the die [mm]; fy: yield stress, e: Young's modulus [MPa]; across: see `springback`.
    0 when the section stays elastic.

    Holds for bending in one plane, held in that plane while released; plane sections; same yield in tension
    and compression.
    Source: Kalpakjian and Schmid, Manufacturing Engineering and Technology, bending chapter (Gardiner's relation is
    this result for a rectangle); for other sections the moment is integrated here.
    """
    moment = section_moment(section, 1 / radius, fy, e, across)
    return max(0.0, 1 - moment * radius / (e * section_inertia(section, across)))


def section_moment(section: Section, curvature: float, fy: float, e: float, across: Floats | None = None) -> float:
    """Bending moment of an elastic-perfectly plastic section at a curvature [1/mm], in N mm.

    Round sections and flats bent square to a side are exact; others are summed over their fibres, about the axis where
    the axial force is zero.

    Holds for plane sections; same yield in tension and compression.
    Source: definition, M = integral of stress times distance.
    """
    round_parts = _discs(section)
    if round_parts:
        return sum(sign * _disc_moment(diameter / 2, curvature, fy, e) for sign, diameter in round_parts)
    breadth, height = _rectangle(section, across)
    if height:
        return _rectangle_moment(breadth, height, curvature, fy, e)
    heights, areas = _heights(section, across)
    shift = _neutral(heights, areas, curvature, fy, e)
    stress = np.clip(e * curvature * (heights - shift), -fy, fy)
    return float(np.sum(stress * heights * areas))


def section_inertia(section: Section, across: Floats | None = None) -> float:
    """Second moment of area about the bending axis through the centroid [mm4]."""
    round_parts = _discs(section)
    if round_parts:
        return sum(sign * math.pi / 64 * diameter**4 for sign, diameter in round_parts)
    heights, areas = _heights(section, across)
    return float(np.sum(heights**2 * areas))


def rolled_radius(section: Section, radius: float, fy: float, e: float, across: Floats | None = None) -> float:
    """The radius to roll to, so that it springs open to `radius` [mm].

    Raises BendError when no radius does it before the section is bent to its own depth.
    Holds for and Source: as `kept_angle`; solved by bisection.
    """
    low, high = _depth(section), radius
    if low / kept_angle(section, low, fy, e, across) > radius:
        raise BendError(f"a radius of {radius:.1f} mm is too small to roll this section to")
    for _ in range(60):
        middle = (low + high) / 2
        kept = kept_angle(section, middle, fy, e, across)
        if kept * radius < middle:
            high = middle
        else:
            low = middle
    return (low + high) / 2


def _discs(section: Section) -> tuple[tuple[float, float], ...]:
    """A round section as discs added and taken away: (sign, diameter)."""
    if isinstance(section, RoundTube):
        return (1.0, section.od), (-1.0, section.od - 2 * section.wall)
    return ((1.0, section.diameter),) if isinstance(section, RoundBar) else ()


def _disc_moment(radius: float, curvature: float, fy: float, e: float) -> float:
    """Moment of a full disc: with y = r sin(t), width 2 r cos(t); split where the stress has its kink."""
    ratio = fy / (e * curvature * radius)
    split = math.asin(ratio) if ratio < 1 else math.pi / 2
    total = 0.0
    for start, end in ((0.0, split), (split, math.pi / 2)):
        t = (start + end) / 2 + (end - start) / 2 * _NODES
        y = radius * np.sin(t)
        stress = np.minimum(e * curvature * y, fy)
        total += float(np.sum(_WEIGHTS * stress * y * 2 * (radius * np.cos(t)) ** 2)) * (end - start) / 2
    return 2 * total


def _rectangle(section: Section, across: Floats | None) -> tuple[float, float]:
    """(breadth, height) of a flat bent square to a side; (0, 0) for anything else."""
    if not isinstance(section, Flat) or across is None or min(np.abs(across)) > 1e-9:
        return 0.0, 0.0
    return (section.width, section.thickness) if abs(across[0]) <= 1e-9 else (section.thickness, section.width)


def _rectangle_moment(breadth: float, height: float, curvature: float, fy: float, e: float) -> float:
    """M = Y b h^2 / 4 (1 - (y / (h / 2))^2 / 3) with the yield line at y; elastic when that lies outside."""
    core = fy / (e * curvature) / (height / 2)
    if core >= 1:
        return e * curvature * breadth * height**3 / 12
    return fy * breadth * height**2 / 4 * (1 - core**2 / 3)


def _heights(section: Section, across: Floats | None) -> tuple[Floats, Floats]:
    """Distance of each fibre from the centroid toward the outside of the bend (m,) and its area (m,)."""
    if across is None:
        raise BendError(f"which way the {section.shape} is bent is not known: give the direction across the bend")
    fibres = section.fibres()
    outward = np.asarray(across, dtype=float) / np.linalg.norm(across)
    heights = fibres[:, :2] @ outward
    return heights - float(np.sum(heights * fibres[:, 2]) / np.sum(fibres[:, 2])), fibres[:, 2]


def _neutral(heights: Floats, areas: Floats, curvature: float, fy: float, e: float) -> float:
    """Height at which the stress is zero, so that the axial force is; bisection on a force that falls as it rises."""
    low, high = float(heights.min()), float(heights.max())
    for _ in range(60):
        middle = (low + high) / 2
        force = float(np.sum(np.clip(e * curvature * (heights - middle), -fy, fy) * areas))
        low, high = (middle, high) if force > 0 else (low, middle)
    return (low + high) / 2


def _depth(section: Section) -> float:
    u0, u1, v0, v1 = section.extents
    return max(u1 - u0, v1 - v0) / 2
