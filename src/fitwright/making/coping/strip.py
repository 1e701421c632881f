"""The outside of a section unrolled: which point of the outline, and of the wall under it, lies where on the paper."""

from __future__ import annotations

from abc import ABC, abstractmethod
from dataclasses import dataclass
from functools import cached_property
from math import pi

import numpy as np
from numpy.typing import NDArray

from fitwright.stock import Angle, RectTube, Section
from fitwright.stock.rounds import RoundTube

Floats = NDArray[np.float64]

QUARTER = pi / 2
NEXT_TO_MM = 1e-9


class Strip(ABC):
    """Places along the outline of a section, counterclockwise in (u, v) [mm]."""

    girth: float
    """Length of the whole strip [mm]."""
    closed: bool = True
    """Whether the strip comes round to its own start."""

    @abstractmethod
    def outer(self, s: Floats) -> Floats:
        """Points (k, 2) of the outside at places s (k,)."""

    @abstractmethod
    def inner(self, s: Floats) -> Floats:
        """Points (k, 2) of the wall's other side, straight through from the same places; of a solid, the outside."""

    @property
    def wall(self) -> float:
        """Thickness of the wall [mm]; 0 for solid sections."""
        return 0.0

    @property
    def folds(self) -> tuple[float, ...]:
        """Places where the paper is creased."""
        return ()

    @property
    def knots(self) -> tuple[float, ...]:
        """Places where the outline changes its curvature."""
        return self.folds

    @property
    def middles(self) -> tuple[float, ...]:
        """Places of the lines that the paper may start on: quarters, or middles of sides."""
        return tuple(self.girth * k / 4 for k in range(4))

    def side(self, _s: float) -> float | None:
        """Width of the flat side at a place [mm]; None on a round."""
        return None


@dataclass(frozen=True)
class RoundStrip(Strip):
    """A round tube or bar, from +u on."""

    radius: float
    thickness: float

    @property
    def girth(self) -> float:  # type: ignore[override]
        """Pi D [mm]; the thickness of the paper is left out of account."""
        return 2 * pi * self.radius

    @property
    def wall(self) -> float:
        """Thickness of the wall [mm]; 0 for a bar."""
        return self.thickness

    def outer(self, s: Floats) -> Floats:
        """Points (k, 2) of the outside."""
        turned = s / self.radius
        return self.radius * np.stack([np.cos(turned), np.sin(turned)], axis=-1)

    def inner(self, s: Floats) -> Floats:
        """Points (k, 2) of the bore."""
        return self.outer(s) * (1 - self.thickness / self.radius)


@dataclass(frozen=True)
class BoxStrip(Strip):
    """A rectangular tube or a flat, its corners rounded, from the middle of its +u side on."""

    width: float
    height: float
    corner: float
    thickness: float

    @property
    def girth(self) -> float:  # type: ignore[override]
        """All round, corners rounded [mm]."""
        return 2 * (self.width + self.height) - (8 - 2 * pi) * self.corner

    @property
    def wall(self) -> float:
        """Thickness of the wall [mm]; 0 for a flat."""
        return self.thickness

    @cached_property
    def knots(self) -> tuple[float, ...]:
        """Where each corner begins and ends."""
        arc = QUARTER * self.corner
        side = (self.height - 2 * self.corner, self.width - 2 * self.corner)
        at, found = side[0] / 2, []
        for k in range(4):
            found += [at, at + arc]
            at += arc + side[(k + 1) % 2]
        return tuple(found)

    @property
    def folds(self) -> tuple[float, ...]:
        """The middle of each corner."""
        return tuple((self.knots[2 * k] + self.knots[2 * k + 1]) / 2 for k in range(4))

    @property
    def middles(self) -> tuple[float, ...]:
        """The middle of each side."""
        half = self.girth / 2
        quarter = (self.knots[1] + self.knots[2]) / 2
        return (0.0, quarter, half, half + quarter)

    def side(self, s: float) -> float:
        """Width of the side whose middle lies at a place [mm]."""
        nearest = int(np.argmin([abs(s - middle) for middle in self.middles]))
        return self.height if nearest % 2 == 0 else self.width

    def outer(self, s: Floats) -> Floats:
        """Points (k, 2) of the outside."""
        s = np.asarray(s, dtype=float) % self.girth
        centres = self._cores
        points = np.empty((*s.shape, 2))
        for k in range(4):
            begin, end = self.knots[2 * k], self.knots[2 * k + 1]
            before = self.knots[2 * k - 1] if k else self.knots[7] - self.girth
            across = np.array([np.cos(k * QUARTER), np.sin(k * QUARTER)])
            along = np.array([-across[1], across[0]])
            for here in (s, s - self.girth):
                flat = (here >= before - NEXT_TO_MM) & (here <= begin + NEXT_TO_MM)
                points[flat] = centres[k] + self.corner * across + (here[flat] - begin)[:, None] * along
            bent = (s > begin) & (s < end)
            turned = k * QUARTER + (s[bent] - begin) / (self.corner or 1.0)
            points[bent] = centres[k] + self.corner * np.stack([np.cos(turned), np.sin(turned)], axis=-1)
        return points

    @cached_property
    def _cores(self) -> Floats:
        """Centres (4, 2) of the corner radii, counterclockwise from +u +v."""
        u, v = self.width / 2 - self.corner, self.height / 2 - self.corner
        return np.array([[u, v], [-u, v], [-u, -v], [u, -v]])

    def inner(self, s: Floats) -> Floats:
        """The nearest points (k, 2) of the bore; of a solid, the outside."""
        outer = self.outer(s)
        if not self.thickness:
            return outer
        radius = max(0.0, self.corner - self.thickness)
        half = np.array([self.width, self.height]) / 2 - self.thickness - radius
        core = np.clip(outer, -half, half)
        away = outer - core
        return np.asarray(core + radius * away / np.linalg.norm(away, axis=-1)[..., None])


@dataclass(frozen=True)
class AngleStrip(Strip):
    """The two outer faces of an angle: from the toe of leg b over the heel to the toe of leg a.

    The rounding of the root is left out of account: it is ground to suit (common practice).
    """

    leg_a: float
    leg_b: float
    thickness: float
    closed = False

    @property
    def girth(self) -> float:  # type: ignore[override]
        """Over both legs [mm]."""
        return self.leg_a + self.leg_b

    @property
    def wall(self) -> float:
        """Thickness of the legs [mm]."""
        return self.thickness

    @property
    def folds(self) -> tuple[float, ...]:
        """The heel."""
        return (self.leg_b,)

    @property
    def knots(self) -> tuple[float, ...]:
        """The heel, and where the other leg begins."""
        return (self.leg_b - self.thickness, self.leg_b, self.leg_b + self.thickness)

    @property
    def middles(self) -> tuple[float, ...]:
        """None: nothing is wrapped."""
        return ()

    def outer(self, s: Floats) -> Floats:
        """Points (k, 2) of the outer faces."""
        past = np.asarray(s, dtype=float) - self.leg_b
        return np.stack([np.maximum(past, 0.0), np.maximum(-past, 0.0)], axis=-1)

    def inner(self, s: Floats) -> Floats:
        """Points (k, 2) straight through the leg, at the heel as deep as the leg is thick."""
        on_a = np.asarray(s, dtype=float) >= self.leg_b
        through = np.stack([np.where(on_a, 0.0, self.thickness), np.where(on_a, self.thickness, 0.0)], axis=-1)
        return np.asarray(self.outer(s) + through)


def strip_of(section: Section) -> Strip:
    """The strip of a section; walls are the real ones, not those that count for strength."""
    if section.is_round:
        wall = section.wall if isinstance(section, RoundTube) else 0.0
        return RoundStrip(section.extents[1], wall)
    if isinstance(section, Angle):
        return AngleStrip(section.leg_a, section.leg_b, section.thickness)
    low_u, high_u, low_v, high_v = section.extents
    if isinstance(section, RectTube):
        return BoxStrip(high_u - low_u, high_v - low_v, section.outer_radius, section.wall)
    return BoxStrip(high_u - low_u, high_v - low_v, 0.0, 0.0)
