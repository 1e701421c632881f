"""Rolling over a threshold or a gap: the push it takes, and whether the piece tips first."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, sqrt


@dataclass(frozen=True)
class Rolling:
    """A piece pushed across a step.

    weight [N]; base: between its axles, ahead: from the leading axle back to the centre of mass, radius of the wheels,
    push_height: of the push above the floor [mm].
    """

    weight: float
    base: float
    ahead: float
    radius: float
    push_height: float


def climb_ratio(radius: float, step: float) -> float:
    """Level force at the axle over the weight on a wheel at which it climbs a step; infinite from the radius up.

    radius, step [mm]. Holds for a rigid free wheel against a square edge that does not slip.
    Source: statics, F = W sqrt(2 R h - h^2) / (R - h).

    >>> round(60 * climb_ratio(1.5, 0.25), 1)
    39.8
    """
    if step <= 0:
        return 0.0
    return inf if step >= radius else sqrt(2 * radius * step - step**2) / (radius - step)


def gap_drop(radius: float, gap: float) -> float:
    """How far a wheel sinks into a gap that it rolls across [mm]; its radius when it falls in.

    Holds for a rigid wheel and square edges. Source: geometry, R - sqrt(R^2 - (g/2)^2).

    >>> gap_drop(25.0, 30.0)
    5.0
    """
    return radius if gap >= 2 * radius else radius - sqrt(radius**2 - (gap / 2) ** 2)


def push_to_climb(rolling: Rolling, step: float) -> float:
    """Level push [N] at which the leading wheels climb a step [mm]; infinite when it tips before.

    A push above the axles also bears down on the leading wheels, so that they climb harder.
    Holds for free wheels of one size, both leading ones at the step. Source: statics of the whole piece.
    """
    ratio = climb_ratio(rolling.radius, step)
    leading = rolling.weight * (1 - rolling.ahead / rolling.base)
    left = 1 - ratio * (rolling.push_height - rolling.radius) / rolling.base
    return inf if left <= 0 or ratio == inf else ratio * leading / left


def push_to_tip(rolling: Rolling) -> float:
    """Level push [N] at which the piece tips over its leading wheels held fast by a step; infinite at axle height.

    Source: statics, moments about the leading axle.
    """
    lever = rolling.push_height - rolling.radius
    return inf if lever <= 0 else rolling.weight * rolling.ahead / lever
