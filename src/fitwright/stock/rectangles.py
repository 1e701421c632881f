"""Rectangular sections: square and rectangular tube, flat and square bar, lumber."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import pi, tanh

import numpy as np

from fitwright.stock.mistakes import StockError, positive
from fitwright.stock.patches import rectangle, ring_quarter
from fitwright.stock.section import Points, Section, rounded_distance, rounded_outline

HALVES = (np.eye(2), np.diag([-1.0, 1.0]), np.diag([1.0, -1.0]), -np.eye(2))
SWAP = np.array([[0.0, 1.0], [1.0, 0.0]])


@dataclass(frozen=True)
class _Rectangle(Section):
    """What tube, flat and lumber share: `across` (u, v sizes) and the radius of the outer corners [mm]."""

    @property
    def across(self) -> tuple[float, float]:
        """Outside sizes along u and v [mm]."""
        raise NotImplementedError

    @property
    def corner(self) -> float:
        """Radius of the outer corners [mm]."""
        return 0.0

    def outline(self, n: int = 72) -> Points:
        """The outer outline (k, 2) [mm], counterclockwise."""
        return rounded_outline(*self.across, self.corner, n)

    def distance(self, uv: Points) -> Points:
        """Signed distance (...) [mm] of points (..., 2) to the filled outline."""
        return rounded_distance(uv, *self.across, self.corner)

    @property
    def extents(self) -> tuple[float, float, float, float]:
        """(umin, umax, vmin, vmax) [mm]."""
        u, v = self.across
        return -u / 2, u / 2, -v / 2, v / 2

    def symmetries(self) -> tuple[Points, ...]:
        """The maps (2, 2) that carry the section onto itself."""
        u, v = self.across
        return HALVES + tuple(SWAP @ turn for turn in HALVES) if u == v else HALVES


@dataclass(frozen=True)
class RectTube(_Rectangle):
    """Square or rectangular tube [mm], width the wider side; design_wall where the standard reduces the wall.

    outer_radius: of the outside corners; the bore's is that less the wall, not below 0.
    """

    width: float
    height: float
    wall: float
    outer_radius: float
    design_wall: float | None = None

    def __post_init__(self) -> None:
        positive(self.shape, width=self.width, height=self.height, wall=self.wall, design_wall=self.strength_wall)
        if max(self.wall, self.strength_wall) >= self.height / 2:
            raise StockError(
                f"a {self.shape} of {self.width:g} x {self.height:g} mm cannot have a wall of {self.wall:g} mm: "
                f"it has to be less than {self.height / 2:g}; for a solid write flat or square bar, for a gauge ga"
            )
        if self.height > self.width:
            raise StockError(
                f"the width {self.width:g} mm is the wider side, and {self.height:g} mm is wider: swap them"
            )
        if not 0 <= self.outer_radius <= self.height / 2:
            raise StockError(f"a corner radius of {self.outer_radius:g} mm has to be from 0 to {self.height / 2:g} mm")

    @property
    def shape(self) -> str:
        """The shape in trade words."""
        return "square tube" if self.width == self.height else "rectangular tube"

    @property
    def strength_wall(self) -> float:
        """The wall that counts for strength [mm]."""
        return self.wall if self.design_wall is None else self.design_wall

    @property
    def across(self) -> tuple[float, float]:
        """Outside sizes along u and v [mm]."""
        return self.width, self.height

    @property
    def corner(self) -> float:
        """Radius of the outer corners [mm]."""
        return self.outer_radius

    @property
    def strength_radius(self) -> float:
        """Outer corner radius that goes with the wall that counts for strength, in proportion to it [mm]."""
        return self.outer_radius * self.strength_wall / self.wall

    @property
    def bore_radius(self) -> float:
        """Radius of the corners of the real bore [mm]."""
        return max(0.0, self.outer_radius - self.wall)

    @property
    def bore_width(self) -> float:
        """Width of the real bore [mm]."""
        return self.width - 2 * self.wall

    @property
    def bore_height(self) -> float:
        """Height of the real bore [mm]."""
        return self.height - 2 * self.wall

    def bore(self, n: int = 72) -> Points:
        """The outline of the real bore (k, 2) [mm], counterclockwise."""
        return rounded_outline(self.bore_width, self.bore_height, self.bore_radius, n)

    def fibres(self) -> Points:
        """Fibres (m, 3): u, v [mm], dA [mm2]."""
        outer, wall = self.strength_radius, self.strength_wall
        if outer >= wall:
            return np.concatenate([*_walls(self, outer), *_corners(self, outer - wall)])
        return np.concatenate([*_walls(self, wall), *_solid_corners(self, wall, outer)])

    @property
    def metal_area(self) -> float:
        """Area of the nominal section, for weight [mm2]."""
        return rounded_area(self.width, self.height, self.outer_radius) - rounded_area(
            self.bore_width, self.bore_height, self.bore_radius
        )

    @cached_property
    def j(self) -> float:
        """Torsion constant 4 A^2 t / p on the midline with its corner radii [mm4].

        Holds for thin walls: against the exact solution it is low by up to 3 % at a wall of an eighth of the side.
        Source: Bredt; Roark's Formulas, 7th ed., Table 10.1 case 16; AISC Manual, 15th ed., Table 1-12.
        """
        t = self.strength_wall
        u, v, r = self.width - t, self.height - t, max(0.0, self.strength_radius - t / 2)
        return 4 * rounded_area(u, v, r) ** 2 * t / (2 * (u + v) - (8 - 2 * pi) * r)

    @property
    def z_plastic_u(self) -> float:
        """Plastic modulus, outer rectangle less bore [mm3]."""
        return _tube_plastic(self, self.width, self.height)

    @property
    def z_plastic_v(self) -> float:
        """Plastic modulus for bending about the v axis [mm3]."""
        return _tube_plastic(self, self.height, self.width)

    @property
    def dimensions(self) -> dict[str, float]:
        """The sizes by trade word [mm]."""
        return {"width": self.width, "height": self.height, "wall": self.wall, "thickness": self.wall}


@dataclass(frozen=True)
class Flat(_Rectangle):
    """Flat or square bar [mm], width the wider side; sharp corners."""

    width: float
    thickness: float

    def __post_init__(self) -> None:
        positive(self.shape, width=self.width, thickness=self.thickness)
        if self.thickness > self.width:
            raise StockError(f"the width {self.width:g} mm of a {self.shape} has to be its wider side: swap the two")

    @property
    def shape(self) -> str:
        """The shape in trade words."""
        return "square bar" if self.width == self.thickness else "flat"

    @property
    def across(self) -> tuple[float, float]:
        """Outside sizes along u and v [mm]."""
        return self.width, self.thickness

    def fibres(self) -> Points:
        """Fibres (m, 3): u, v [mm], dA [mm2]."""
        (umin, umax, vmin, vmax) = self.extents
        return rectangle((umin, umax), (vmin, vmax), 12, 12)

    @cached_property
    def j(self) -> float:
        """St Venant torsion constant [mm4]."""
        return rectangle_torsion(self.width, self.thickness)

    @property
    def z_plastic_u(self) -> float:
        """Plastic modulus for bending about the u axis [mm3]."""
        return self.width * self.thickness**2 / 4

    @property
    def z_plastic_v(self) -> float:
        """Plastic modulus for bending about the v axis [mm3]."""
        return self.thickness * self.width**2 / 4

    @property
    def dimensions(self) -> dict[str, float]:
        """The sizes by trade word [mm]."""
        return {"width": self.width, "thickness": self.thickness, "height": self.thickness}


@dataclass(frozen=True)
class Lumber(Flat):
    """Lumber or board in its actual sizes [mm]; nominal: what it is sold as, such as `1x4`, if not as it is."""

    nominal: str = ""

    @property
    def shape(self) -> str:
        """The shape in trade words."""
        return "lumber"


def rounded_area(width: float, height: float, radius: float) -> float:
    """Area of a rectangle with rounded corners [mm2]."""
    return width * height - (4 - pi) * radius**2


def rounded_plastic(width: float, height: float, radius: float) -> float:
    """Plastic modulus of a rectangle with rounded corners about the axis along its width [mm3].

    The rectangle's less four corner pieces of area (1 - pi/4) r^2, each with its centroid r (10 - 3 pi)/(12 - 3 pi)
    from the face. Source: Roark's Formulas, 7th ed., Appendix A (spandrel of a quarter circle).
    """
    pieces = 4 * (1 - pi / 4) * radius**2
    return width * height**2 / 4 - pieces * (height / 2 - radius * (10 - 3 * pi) / (12 - 3 * pi))


def _tube_plastic(tube: RectTube, along: float, across: float) -> float:
    """Plastic modulus about the axis along the side `along`: outer rectangle less bore [mm3]."""
    t, radius = tube.strength_wall, tube.strength_radius
    bore = rounded_plastic(along - 2 * t, across - 2 * t, max(0.0, radius - t))
    return rounded_plastic(along, across, radius) - bore


def rectangle_torsion(width: float, thickness: float) -> float:
    """Torsion constant of a solid rectangle [mm4], width the longer side.

    Holds for any rectangle. Source: Timoshenko and Goodier, Theory of Elasticity, 3rd ed., art. 109, eq. 170.

    >>> round(rectangle_torsion(1.0, 1.0), 4)
    0.1406
    """
    a, b = width, thickness
    series = sum(tanh(n * pi * a / (2 * b)) / n**5 for n in range(1, 40, 2))
    return a * b**3 / 3 * (1 - 192 / pi**5 * (b / a) * series)


def _walls(tube: RectTube, setback: float) -> list[Points]:
    """Fibres of the four flats, each of them `setback` short of the outer corner at both ends."""
    u, v, t = tube.width / 2, tube.height / 2, tube.strength_wall
    long_u, long_v = (setback - u, u - setback), (setback - v, v - setback)
    return [
        rectangle(long_u, (v - t, v), 10, 2),
        rectangle(long_u, (-v, t - v), 10, 2),
        rectangle((u - t, u), long_v, 2, 10),
        rectangle((-u, t - u), long_v, 2, 10),
    ]


def _corners(tube: RectTube, inner: float) -> list[Points]:
    outer = tube.strength_radius
    u, v = tube.width / 2 - outer, tube.height / 2 - outer
    centres = [(u, v), (-u, v), (-u, -v), (u, -v)]
    return [ring_quarter(centre, (inner, outer), k) for k, centre in enumerate(centres)]


def _solid_corners(tube: RectTube, wall: float, outer: float) -> list[Points]:
    """Corners whose bore is sharp: a square of the wall's side with its outer corner rounded."""
    pieces: list[Points] = []
    for k, (su, sv) in enumerate([(1, 1), (-1, 1), (-1, -1), (1, -1)]):
        u, v = tube.width / 2, tube.height / 2
        wide = tuple(sorted((su * (u - wall), su * u)))
        inner_u = tuple(sorted((su * (u - wall), su * (u - outer))))
        inner_v = tuple(sorted((sv * (v - wall), sv * (v - outer))))
        edge_v = tuple(sorted((sv * (v - outer), sv * v)))
        pieces.append(rectangle((wide[0], wide[1]), (inner_v[0], inner_v[1]), 2, 2))
        if outer > 0:
            pieces.append(rectangle((inner_u[0], inner_u[1]), (edge_v[0], edge_v[1]), 2, 2))
            pieces.append(ring_quarter((su * (u - outer), sv * (v - outer)), (0.0, outer), k))
    return pieces
