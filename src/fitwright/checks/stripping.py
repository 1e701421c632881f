"""How much of a thread is engaged, and at what pull it strips."""

from __future__ import annotations

from math import pi

from fitwright.checks.threads import Thread, limits

SHEAR = 0.577  # shear over tensile strength, von Mises; FED-STD-H28 takes a half to this


def turns(thread: Thread, depth: float) -> float:
    """Full threads engaged in a depth of metal [mm].

    Holds for a hole tapped right through. Source: depth over pitch.

    >>> round(turns(Thread("1/4-20", 6.35, 1.27, False), 1.651), 1)
    1.3
    """
    return depth / thread.pitch


def screw_shear_area(thread: Thread, depth: float) -> float:
    """Area of the screw's thread that shears at the hole's minor diameter [mm2], depth engaged [mm].

    Holds for standard limits of size. Source: FED-STD-H28/2B, AS_s = pi n Le Kn [1/(2n) + 0.57735 (Es - Kn)].
    """
    size, n = limits(thread), 1 / thread.pitch
    gap = size.pitch_screw_min - size.minor_hole_max
    return pi * n * depth * size.minor_hole_max * (1 / (2 * n) + 0.57735 * gap)


def hole_shear_area(thread: Thread, depth: float) -> float:
    """Area of the hole's thread that shears at the screw's major diameter [mm2], depth engaged [mm].

    Holds for standard limits of size. Source: FED-STD-H28/2B, AS_n = pi n Le Ds [1/(2n) + 0.57735 (Ds - En)].
    """
    size, n = limits(thread), 1 / thread.pitch
    gap = size.major_screw_min - size.pitch_hole_max
    return pi * n * depth * size.major_screw_min * (1 / (2 * n) + 0.57735 * gap)


def full_strength_depth(thread: Thread) -> float:
    """Depth [mm] at which the screw breaks before its own thread strips, screw and hole of one strength.

    Source: FED-STD-H28/2B, Le = 2 At / (pi n Kn [1/(2n) + 0.57735 (Es - Kn)]), the 2 for shear at half of tension.
    """
    return 2 * thread.stress_area / screw_shear_area(thread, 1.0)


def strip_force(thread: Thread, depth: float, hole_strength: float, screw_strength: float) -> float:
    """Pull at which the weaker of the two threads strips [N]; tensile strengths of the metals [MPa].

    Holds for at least one full thread. Source: FED-STD-H28/2B areas, shear strength 0.577 of tensile.
    """
    hole = hole_shear_area(thread, depth) * hole_strength
    return SHEAR * min(hole, screw_shear_area(thread, depth) * screw_strength)
