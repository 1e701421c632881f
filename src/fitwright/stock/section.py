"""What every section can be asked: outline, bore, area, second moments, torsion, distance to its surface."""

from __future__ import annotations

from abc import ABC, abstractmethod
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

Points = NDArray[np.float64]

ARC_STEPS = 6
ROUND_OFF = 1e-9  # moments nearer to each other than this fraction are the same


@dataclass(frozen=True)
class Section(ABC):
    """A shape of stock in its own coordinates (u, v) [mm], u along the wider side.

    The origin is the centre, for angle the heel with the legs along +u and +v. Properties that carry strength
    (`area`, `i_u`, `j`, …) use the design wall where the standard has one; `metal_area`, for weight, the nominal wall.
    """

    @property
    @abstractmethod
    def shape(self) -> str:
        """The shape in trade words, such as `round tube`."""

    @property
    def is_round(self) -> bool:
        """Whether any turn about the axis leaves the section as it is."""
        return False

    @abstractmethod
    def outline(self, n: int = 72) -> Points:
        """The outer outline (k, 2) [mm], counterclockwise, not closed; round: n points from +u on."""

    def bore(self, n: int = 72) -> Points | None:
        """The outline of the bore (k, 2) [mm], counterclockwise; None for solid and open sections."""
        return None

    @abstractmethod
    def fibres(self) -> Points:
        """Fibres (m, 3): u, v [mm] and dA [mm2] of the section that carries strength."""

    @abstractmethod
    def distance(self, uv: Points) -> Points:
        """Signed distance (...) [mm] of points (..., 2) to the filled outer outline; negative inside."""

    @property
    @abstractmethod
    def dimensions(self) -> dict[str, float]:
        """The sizes by trade word [mm], for arithmetic on dims."""

    @property
    @abstractmethod
    def extents(self) -> tuple[float, float, float, float]:
        """(umin, umax, vmin, vmax) [mm]."""

    @property
    @abstractmethod
    def j(self) -> float:
        """St Venant torsion constant [mm4]."""

    @property
    @abstractmethod
    def z_plastic_u(self) -> float:
        """Plastic modulus for bending about the u axis [mm3]."""

    @property
    @abstractmethod
    def z_plastic_v(self) -> float:
        """Plastic modulus for bending about the v axis [mm3]."""

    @property
    def metal_area(self) -> float:
        """Area of the nominal section, for weight [mm2]."""
        return self.area

    def symmetries(self) -> tuple[Points, ...]:
        """Orthogonal maps (2, 2) of (u, v) that carry the section onto itself; round: the identity alone."""
        return (np.eye(2),)

    @cached_property
    def area(self) -> float:
        """Area that carries strength [mm2]."""
        return float(self.fibres()[:, 2].sum())

    @cached_property
    def centroid(self) -> Points:
        """Centroid (2,) [mm]."""
        fibres = self.fibres()
        first: Points = fibres[:, 2] @ fibres[:, :2] / self.area
        return np.where(np.abs(first) < ROUND_OFF * np.sqrt(self.area), 0.0, first)

    @cached_property
    def i_u(self) -> float:
        """Second moment about the centroid's u axis, the integral of v squared [mm4]."""
        return self._second_moments[0]

    @cached_property
    def i_v(self) -> float:
        """Second moment about the centroid's v axis, the integral of u squared [mm4]."""
        return self._second_moments[1]

    @cached_property
    def i_uv(self) -> float:
        """Product moment about the centroid, the integral of u v [mm4]."""
        return self._second_moments[2]

    @cached_property
    def principal(self) -> tuple[float, float, float]:
        """Largest and smallest second moment [mm4], and the angle [rad] from u to the axis of the largest.

        Holds for any plane section. Source: Mohr's circle, Gere, Mechanics of Materials, 7th ed., 12.9.
        """
        mean, half = (self.i_u + self.i_v) / 2, (self.i_u - self.i_v) / 2
        radius = float(np.hypot(half, self.i_uv))
        if radius < ROUND_OFF * mean:
            return mean, mean, 0.0
        return mean + radius, mean - radius, 0.5 * float(np.arctan2(0.0 - self.i_uv, half))

    @cached_property
    def s_u(self) -> float:
        """Elastic modulus for bending about the u axis, to the farther face [mm3]."""
        _, _, low, high = self.extents
        return self.i_u / max(high - float(self.centroid[1]), float(self.centroid[1]) - low)

    @cached_property
    def s_v(self) -> float:
        """Elastic modulus for bending about the v axis, to the farther face [mm3]."""
        low, high, _, _ = self.extents
        return self.i_v / max(high - float(self.centroid[0]), float(self.centroid[0]) - low)

    @cached_property
    def _second_moments(self) -> tuple[float, float, float]:
        fibres = self.fibres()
        u, v = (fibres[:, :2] - self.centroid).T
        da = fibres[:, 2]
        i_u, i_v, i_uv = float(da @ (v * v)), float(da @ (u * u)), float(da @ (u * v))
        return i_u, i_v, i_uv if abs(i_uv) > ROUND_OFF * (i_u + i_v) else 0.0


def arc(centre: tuple[float, float], radius: float, start: float, sweep: float, steps: int) -> Points:
    """Points (steps + 1, 2) along an arc [mm], from the angle `start` through `sweep` [rad]."""
    turns = start + np.linspace(0.0, sweep, steps + 1)
    return np.column_stack([centre[0] + radius * np.cos(turns), centre[1] + radius * np.sin(turns)])


def rounded_outline(width: float, height: float, radius: float, n: int) -> Points:
    """Outline (k, 2) of a rectangle about the origin with rounded corners [mm]; a sharp corner is one point."""
    half_u, half_v = width / 2, height / 2
    if radius <= 0:
        return np.array([[half_u, -half_v], [half_u, half_v], [-half_u, half_v], [-half_u, -half_v]])
    u, v, steps = half_u - radius, half_v - radius, max(4, n // 12)
    corners = [(u, -v), (u, v), (-u, v), (-u, -v)]
    return np.concatenate([arc(at, radius, (k - 1) * np.pi / 2, np.pi / 2, steps) for k, at in enumerate(corners)])


def rounded_distance(uv: Points, width: float, height: float, radius: float) -> Points:
    """Signed distance (...) of points (..., 2) to a rectangle about the origin with rounded corners [mm]."""
    past = np.abs(np.asarray(uv, dtype=float)) - np.array([width / 2 - radius, height / 2 - radius])
    outside = np.linalg.norm(np.maximum(past, 0.0), axis=-1)
    inside = np.minimum(past.max(axis=-1), 0.0)
    signed: Points = outside + inside - radius
    return signed
