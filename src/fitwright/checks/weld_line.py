"""A weld treated as a line: its length and moduli, and the stress on its throat under any force."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import sin

import numpy as np
from numpy.typing import NDArray

from fitwright.checks.fillets import THROAT
from fitwright.errors import FitwrightError
from fitwright.stock import Section

Floats = NDArray[np.float64]

ROUND_POINTS = 240


class WeldLineError(FitwrightError, ValueError):
    """A weld line without length, or a branch that never meets what it is welded to."""


@dataclass(frozen=True, eq=False)
class WeldLine:
    """Straight runs of weld from starts (n, 2) to ends (n, 2) [mm] in the plane of the joint, axes u and v."""

    starts: Floats
    ends: Floats

    @cached_property
    def runs(self) -> Floats:
        """Length of each run (n,) [mm]."""
        return np.asarray(np.linalg.norm(self.ends - self.starts, axis=1))

    @cached_property
    def length(self) -> float:
        """Length of the weld [mm]."""
        return float(self.runs.sum())

    @cached_property
    def centroid(self) -> Floats:
        """Centroid (2,) [mm]."""
        middles = (self.starts + self.ends) / 2
        return np.asarray(self.runs @ middles / self.length)

    @cached_property
    def inertia(self) -> Floats:
        """Second moments (2, 2) about the centroid [mm3]: the integrals of u u, u v; v u, v v along the line.

        Exact for straight runs. Source: statics of lines; Blodgett, Design of Welded Structures, section 7.4.
        """
        a, b = self.starts - self.centroid, self.ends - self.centroid
        total = np.einsum("i,ij,ik->jk", self.runs, a + b, a + b) + np.einsum("i,ij,ik->jk", self.runs, a, a)
        total += np.einsum("i,ij,ik->jk", self.runs, b, b)
        return np.asarray(total / 6)

    @property
    def i_u(self) -> float:
        """Second moment about the u axis, the integral of v squared [mm3]."""
        return float(self.inertia[1, 1])

    @property
    def i_v(self) -> float:
        """Second moment about the v axis, the integral of u squared [mm3]."""
        return float(self.inertia[0, 0])

    @property
    def s_u(self) -> float:
        """Modulus for bending about the u axis [mm2]."""
        return self.i_u / float(np.abs(self.points[:, 1]).max())

    @property
    def s_v(self) -> float:
        """Modulus for bending about the v axis [mm2]."""
        return self.i_v / float(np.abs(self.points[:, 0]).max())

    @property
    def j(self) -> float:
        """Polar second moment [mm3]."""
        return self.i_u + self.i_v

    @cached_property
    def points(self) -> Floats:
        """Every end of a run from the centroid (2n, 2) [mm]."""
        return np.vstack([self.starts, self.ends]) - self.centroid


def weld_line(outline: Floats, *, closed: bool = True) -> WeldLine:
    """The weld along a line of points (k, 2) [mm], back to its first point when closed.

    Raises WeldLineError for a line without length.

    >>> line = weld_line(np.array([[0.0, 0], [2, 0], [2, 3], [0, 3]]))
    >>> round(line.length, 6), round(line.s_u, 6), round(line.j, 3)
    (10.0, 9.0, 20.833)
    """
    points = np.asarray(outline, dtype=float)
    starts, ends = (points, np.roll(points, -1, axis=0)) if closed else (points[:-1], points[1:])
    keep = np.linalg.norm(ends - starts, axis=1) > 1e-9
    if not keep.any():
        raise WeldLineError(f"a weld of {len(points)} points has no length: give at least two points apart")
    return WeldLine(starts[keep], ends[keep])


def around(section: Section, slope: float = np.pi / 2, lean: float = 0.0) -> WeldLine:
    """The weld all round a branch of a section, set on a flat face.

    slope: between the branch's axis and the face [rad], pi/2 when square; lean: the direction in which it leans, from
    the section's u axis [rad]. An oblique branch meets the face in an outline longer by 1 / sin(slope) along its lean.
    On a tube the true line is a saddle; flattened to the face it is a little short, on the safe side.

    Raises WeldLineError when the slope is zero. Source: geometry; Blodgett, Design of Welded Structures, section 7.4.
    """
    if abs(sin(slope)) < 1e-6:
        raise WeldLineError(f"a branch at {np.degrees(slope):.1f}° to a face runs along it: weld its edges as a lap")
    toward = np.array([np.cos(lean), np.sin(lean)])
    stretch = np.eye(2) + (1 / abs(sin(slope)) - 1) * np.outer(toward, toward)
    return weld_line(section.outline(ROUND_POINTS) @ stretch)


def weld_stress(forces: Floats, line: WeldLine, leg: float, at: Floats | None = None) -> Floats:
    """Largest stress on the throat (...) [MPa] of a fillet of `leg` [mm] under forces (..., 6) [N, N mm].

    forces: along u, v and w (out of the plane of the weld), moments about u, v and w (right-handed), at the point `at`
    (2,) [mm] of the plane, which is the weld's centroid when not given. Shear and pull are added as vectors at each end
    of each run.
    Holds for fillets all of one leg, stiff parts. Source: Blodgett, Design of Welded Structures, section 7.4; Shigley,
    Mechanical Engineering Design, 9-3 and 9-4; unsymmetrical bending by Gere, Mechanics of Materials, 7th ed., 6.5.
    """
    f = np.asarray(forces, dtype=float)
    arm = np.zeros(2) if at is None else np.asarray(at, dtype=float) - line.centroid
    mu, mv, mw = f[..., 3] + arm[1] * f[..., 2], f[..., 4] - arm[0] * f[..., 2], f[..., 5]
    mw = mw + arm[0] * f[..., 1] - arm[1] * f[..., 0]
    u, v = line.points.T
    bending = np.stack([-mv, mu], axis=-1) @ np.linalg.pinv(line.inertia)
    pull = f[..., 2:3] / line.length + bending[..., 0:1] * u + bending[..., 1:2] * v
    shear_u = f[..., 0:1] / line.length - mw[..., None] * v / line.j
    shear_v = f[..., 1:2] / line.length + mw[..., None] * u / line.j
    per_length = np.sqrt(pull**2 + shear_u**2 + shear_v**2)
    return np.asarray(per_length.max(axis=-1) / (THROAT * leg))
