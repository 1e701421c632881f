"""How much softer a bend is than straight tube: the section goes oval and gives way."""

from __future__ import annotations

import numpy as np

from fitwright.mechanics.model import Floats, FrameError


def bend_characteristic(wall: float, bend_radius: float, od: float) -> float:
    """h = t R / r2 of a bend, with r the mean radius of the wall [-].

    wall, bend_radius (centreline), od: [mm].

    >>> round(bend_characteristic(2.0, 100.0, 32.0), 4)
    0.8889
    """
    mean = (od - wall) / 2
    if min(wall, bend_radius, mean) <= 0:
        raise FrameError(
            f"a bend of {bend_radius} mm radius in tube {od} x {wall} mm is not possible: "
            "give a positive wall below half the diameter, and a positive radius"
        )
    return wall * bend_radius / mean**2


def bend_softening(wall: float, bend_radius: float, od: float) -> float:
    """Flexibility factor k of a bend in round tube, in its plane and out of it [-]; torsion is not softened.

    k = 1.65 / h, never under 1, for bending in the plane of the bend and out of it. A factor of 1 is right for solid
    bar. No published value was found for square tube; 1 is taken there (common practice).

    Holds for smooth bends with od/wall up to 100, away from stiffened ends: a bend that starts at a joint which keeps
    the tube round is stiffer, so the factor errs to the soft side, and ASME B31J-2017 allows 1.3 / h for a 90 degree
    bend in tube of its own thickness. Furniture tube has h from 0.3 to 2; from h = 1.65 it makes no difference.
    Source: ASME B31.3-2006, Appendix D, table D300, welding elbow or pipe bend (seen in a worked spreadsheet); after
    R. A. Clark and E. Reissner, Advances in Applied Mechanics 2 (1951) 93-122.

    >>> round(bend_softening(2.0, 100.0, 32.0), 4)
    1.8562
    >>> bend_softening(3.0, 200.0, 32.0)
    1.0
    """
    return max(1.0, 1.65 / bend_characteristic(wall, bend_radius, od))


def chords(centre: Floats, axis: Floats, start: Floats, angle: float, count: int) -> Floats:
    """(count + 1, 3) points on an arc at equal steps, ends included [mm].

    centre, axis, start: (3,); the arc turns by angle [rad] about axis, right-handed.
    Eight chords in 90 degrees leave sag within 0.7 % of the true arc's, sixteen within 0.2 %
    (`tests/rate/test_frame_patch.py`).
    """
    unit = axis / np.linalg.norm(axis)
    arm = start - centre
    turn = np.linspace(0.0, angle, count + 1)[:, None]
    along = unit * float(unit @ arm)
    across: Floats = centre + along + (arm - along) * np.cos(turn) + np.cross(unit, arm) * np.sin(turn)
    return across
