"""Angle: two legs from a heel, with the root and toe radii of rolled angle."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import pi, sqrt

import numpy as np
from numpy.typing import NDArray

from fitwright.stock.mistakes import StockError, positive
from fitwright.stock.patches import rectangle, ring_quarter, root_fillet
from fitwright.stock.rectangles import SWAP
from fitwright.stock.section import Points, Section, arc

ARC_FINE = 12 * 45  # outline points: arcs in steps of two degrees

Mask = NDArray[np.bool_]


@dataclass(frozen=True)
class Angle(Section):
    """Angle [mm]: heel at the origin, leg_a along +u, leg_b along +v; radii of the root and of the toes' inside."""

    leg_a: float
    leg_b: float
    thickness: float
    root_radius: float = 0.0
    toe_radius: float = 0.0

    def __post_init__(self) -> None:
        positive("angle", leg_a=self.leg_a, leg_b=self.leg_b, thickness=self.thickness)
        short = min(self.leg_a, self.leg_b)
        if self.leg_b > self.leg_a:
            raise StockError(f"leg_a {self.leg_a:g} mm is the longer leg, and {self.leg_b:g} mm is longer: swap them")
        if not 0 <= self.toe_radius <= self.thickness:
            raise StockError(f"a toe radius of {self.toe_radius:g} mm has to be from 0 to {self.thickness:g} mm")
        room = short - self.toe_radius - max(0.0, self.root_radius)
        if self.root_radius < 0 or self.thickness >= room:
            raise StockError(
                f"an angle with a leg of {short:g} mm and a root radius of {self.root_radius:g} mm cannot be "
                f"{self.thickness:g} mm thick: less than {room:g} mm, and a radius not below 0"
            )

    @property
    def shape(self) -> str:
        """The shape in trade words."""
        return "angle"

    def outline(self, n: int = 72) -> Points:
        """The outer outline (k, 2) [mm], counterclockwise."""
        a, b, t, root, toe = self._sizes
        steps = max(4, n // 12)
        pieces = [np.array([[0.0, 0.0], [a, 0.0]])]
        pieces.append(arc((a - toe, t - toe), toe, 0.0, pi / 2, steps) if toe else np.array([[a, t]]))
        inner = arc((t + root, t + root), root, 1.5 * pi, -pi / 2, steps) if root else np.array([[t, t]])
        pieces.append(inner)
        pieces.append(arc((t - toe, b - toe), toe, 0.0, pi / 2, steps) if toe else np.array([[t, b]]))
        pieces.append(np.array([[0.0, b]]))
        return _without_repeats(np.concatenate(pieces))

    def fibres(self) -> Points:
        """Fibres (m, 3): u, v [mm], dA [mm2]."""
        a, b, t, root, toe = self._sizes
        pieces = [rectangle((0.0, a - toe), (0.0, t), 14, 3), rectangle((0.0, t), (t, b - toe), 3, 14)]
        if toe:
            pieces += [ring_quarter((a - toe, t - toe), (0.0, toe), 0), ring_quarter((t - toe, b - toe), (0.0, toe), 0)]
        if 0 < toe < t:
            pieces += [rectangle((a - toe, a), (0.0, t - toe), 2, 2), rectangle((0.0, t - toe), (b - toe, b), 2, 2)]
        if root:
            pieces.append(root_fillet(t, root))
        return np.concatenate(pieces)

    def distance(self, uv: Points) -> Points:
        """Signed distance (...) [mm] of points (..., 2) to the filled outline."""
        points = np.asarray(uv, dtype=float)
        gaps = [_to_line(points, p, q) for p, q in self._lines] + [_to_arc(points, *bend) for bend in self._arcs]
        nearest: Points = np.min(gaps, axis=0)
        signed: Points = np.where(self._holds(points), -nearest, nearest)
        return signed

    @property
    def dimensions(self) -> dict[str, float]:
        """The sizes by trade word [mm]."""
        return {
            "leg": self.leg_a,
            "leg_a": self.leg_a,
            "leg_b": self.leg_b,
            "thickness": self.thickness,
            "width": self.leg_a,
            "height": self.leg_b,
        }

    @property
    def extents(self) -> tuple[float, float, float, float]:
        """(umin, umax, vmin, vmax) [mm]."""
        return 0.0, self.leg_a, 0.0, self.leg_b

    def symmetries(self) -> tuple[Points, ...]:
        """The maps (2, 2) that carry the section onto itself."""
        return (np.eye(2), SWAP) if self.leg_a == self.leg_b else (np.eye(2),)

    @cached_property
    def j(self) -> float:
        """Torsion constant of two legs and the bulge at their root [mm4].

        Holds for legs of one thickness; against the exact solution within about 6 %, high for a root radius above the
        thickness. Each leg is taken shorter by what the radius of its toe takes off.
        Source: Roark's Formulas for Stress and Strain, 7th ed., Table 10.1 case 24 (L section).
        """
        t, root = self.thickness, self.root_radius
        rounded = (1 - pi / 4) * self.toe_radius**2 / t
        a, c = self.leg_a - rounded, self.leg_b - rounded - t
        bulge = 2 * (2 * t + 3 * root - sqrt(2) * (2 * root + t))  # diameter of the circle inscribed in the root
        leg = a * t**3 * (1 / 3 - 0.21 * t / a * (1 - t**4 / (12 * a**4)))
        other = c * t**3 * (1 / 3 - 0.105 * t / c * (1 - t**4 / (192 * c**4)))
        return leg + other + (0.07 + 0.076 * root / t) * bulge**4

    @cached_property
    def z_plastic_u(self) -> float:
        """Plastic modulus for bending about the u axis [mm3]."""
        return _plastic(self.outline(ARC_FINE))

    @cached_property
    def z_plastic_v(self) -> float:
        """Plastic modulus for bending about the v axis [mm3]."""
        return _plastic(self.outline(ARC_FINE)[::-1, ::-1])

    @property
    def _sizes(self) -> tuple[float, float, float, float, float]:
        return self.leg_a, self.leg_b, self.thickness, self.root_radius, self.toe_radius

    @cached_property
    def _lines(self) -> list[tuple[Points, Points]]:
        a, b, t, root, toe = self._sizes
        ends = [
            ((0.0, 0.0), (a, 0.0)),
            ((a, 0.0), (a, t - toe)),
            ((a - toe, t), (t + root, t)),
            ((t, t + root), (t, b - toe)),
            ((t - toe, b), (0.0, b)),
            ((0.0, b), (0.0, 0.0)),
        ]
        return [(np.array(p), np.array(q)) for p, q in ends]

    @cached_property
    def _arcs(self) -> list[tuple[Points, float, int]]:
        """Centre (2,), radius [mm] and quadrant of each rounded corner."""
        a, b, t, root, toe = self._sizes
        toes = [(np.array([a - toe, t - toe]), toe, 0), (np.array([t - toe, b - toe]), toe, 0)] if toe else []
        return toes + ([(np.array([t + root, t + root]), root, 2)] if root else [])

    def _holds(self, points: Points) -> Mask:
        """Whether points (..., 2) lie in the metal."""
        a, b, t, root, toe = self._sizes
        u, v = points[..., 0], points[..., 1]
        legs = (u >= 0) & (v >= 0) & (((u <= a) & (v <= t)) | ((u <= t) & (v <= b)))
        off = np.hypot(u - a + toe, v - t + toe) > toe
        off_b = np.hypot(u - t + toe, v - b + toe) > toe
        cut = (u > a - toe) & (v > t - toe) & off | (u > t - toe) & (v > b - toe) & off_b
        centre = t + root
        fillet = (u > t) & (v > t) & (u < centre) & (v < centre) & (np.hypot(u - centre, v - centre) >= root)
        held: Mask = (legs & ~cut) | fillet
        return held


def _without_repeats(points: Points) -> Points:
    keep = np.linalg.norm(points - np.roll(points, 1, axis=0), axis=1) > 1e-9
    kept: Points = points[keep]
    return kept


def _to_line(points: Points, start: Points, end: Points) -> Points:
    along = end - start
    length2 = float(along @ along)
    if length2 == 0:
        length2 = 1.0  # a line without length is its start, wherever along it one looks
    where = np.clip((points - start) @ along / length2, 0.0, 1.0)
    gap: Points = np.linalg.norm(points - start - where[..., None] * along, axis=-1)
    return gap


def _to_arc(points: Points, centre: Points, radius: float, quadrant: int) -> Points:
    spoke = points - centre
    facing = spoke if quadrant == 0 else -spoke
    within = (facing >= 0).all(axis=-1)
    gap: Points = np.where(within, np.abs(np.linalg.norm(spoke, axis=-1) - radius), np.inf)
    return gap


def _plastic(outline: Points) -> float:
    """Plastic modulus about the line v = const that halves the area of a polygon (k, 2) [mm3]."""
    low, high = float(outline[:, 1].min()), float(outline[:, 1].max())
    half = _above(outline, low)[0] / 2
    for _ in range(48):
        middle = (low + high) / 2
        low, high = (middle, high) if _above(outline, middle)[0] > half else (low, middle)
    upper = _above(outline, low)[1]
    mirrored = outline[::-1] * np.array([1.0, -1.0])
    return upper + _above(mirrored, -low)[1]


def _above(outline: Points, level: float) -> tuple[float, float]:
    """Area above v = level [mm2] and its first moment about that line [mm3], of a counterclockwise polygon (k, 2).

    The polygon with every v below the level raised to it: the strips so made have no area. Exact when edges that
    cross the level are split there.
    """
    u, v = _split(outline, level).T
    h = np.maximum(v - level, 0.0)
    next_u, next_h = np.roll(u, -1), np.roll(h, -1)
    area = np.sum((u - next_u) * (h + next_h)) / 2
    moment = np.sum((u - next_u) * (h * h + h * next_h + next_h * next_h)) / 6
    return float(area), float(moment)


def _split(outline: Points, level: float) -> Points:
    following = np.roll(outline, -1, axis=0)
    rise = following[:, 1] - outline[:, 1]
    crosses = (outline[:, 1] - level) * (following[:, 1] - level) < 0
    at = np.where(crosses, (level - outline[:, 1]) / np.where(crosses, rise, 1.0), 0.0)
    cut = outline + at[:, None] * (following - outline)
    return np.stack([outline, cut], axis=1).reshape(-1, 2)
