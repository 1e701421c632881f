"""Round sections: tube, pipe, bar."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import pi

import numpy as np

from fitwright.stock.mistakes import StockError, positive
from fitwright.stock.patches import ring
from fitwright.stock.section import Points, Section, arc


@dataclass(frozen=True)
class _Round(Section):
    """What tube and bar share."""

    @property
    def outside(self) -> float:
        """Outside diameter [mm]."""
        raise NotImplementedError

    @property
    def inside(self) -> float:
        """Diameter of the bore left by the wall that carries strength [mm]; 0 when solid."""
        return 0.0

    @property
    def is_round(self) -> bool:
        """Round, so True."""
        return True

    def outline(self, n: int = 72) -> Points:
        """The outer outline (k, 2) [mm], counterclockwise."""
        return arc((0.0, 0.0), self.outside / 2, 0.0, 2 * pi, n)[:-1]

    def distance(self, uv: Points) -> Points:
        """Signed distance (...) [mm] of points (..., 2) to the filled outline."""
        signed: Points = np.linalg.norm(np.asarray(uv, dtype=float), axis=-1) - self.outside / 2
        return signed

    @property
    def extents(self) -> tuple[float, float, float, float]:
        """(umin, umax, vmin, vmax) [mm]."""
        half = self.outside / 2
        return -half, half, -half, half

    @cached_property
    def j(self) -> float:
        """Polar moment [mm4], exact for round sections.

        Source: Roark's Formulas, 7th ed., Table 10.1 cases 1 and 10.
        """
        return pi / 32 * (self.outside**4 - self.inside**4)

    @property
    def z_plastic_u(self) -> float:
        """Plastic modulus (D^3 - d^3) / 6 [mm3]. Source: AISC Manual, 15th ed., Table 17-27."""
        return (self.outside**3 - self.inside**3) / 6

    @property
    def z_plastic_v(self) -> float:
        """Plastic modulus for bending about the v axis [mm3]."""
        return self.z_plastic_u


@dataclass(frozen=True)
class RoundTube(_Round):
    """Round tube, od and wall [mm]; design_wall [mm] where the standard reduces the wall for strength."""

    od: float
    wall: float
    design_wall: float | None = None

    def __post_init__(self) -> None:
        positive(self.shape, od=self.od, wall=self.wall, design_wall=self.strength_wall)
        if max(self.wall, self.strength_wall) >= self.od / 2:
            raise StockError(
                f"a {self.shape} of {self.od:g} mm cannot have a wall of {self.wall:g} mm: "
                f"it has to be less than {self.od / 2:g}; for a solid write round bar, for a gauge ga"
            )

    @property
    def shape(self) -> str:
        """The shape in trade words."""
        return "round tube"

    @property
    def strength_wall(self) -> float:
        """The wall that counts for strength [mm]."""
        return self.wall if self.design_wall is None else self.design_wall

    @property
    def id(self) -> float:
        """Inside diameter of the real bore [mm], by the nominal wall."""
        return self.od - 2 * self.wall

    @property
    def outside(self) -> float:
        """Outside diameter [mm]."""
        return self.od

    @property
    def inside(self) -> float:
        """Diameter of the bore that the strength wall leaves [mm]."""
        return self.od - 2 * self.strength_wall

    def bore(self, n: int = 72) -> Points:
        """The outline of the real bore (k, 2) [mm], counterclockwise."""
        return arc((0.0, 0.0), self.id / 2, 0.0, 2 * pi, n)[:-1]

    def fibres(self) -> Points:
        """Fibres (m, 3): u, v [mm], dA [mm2]."""
        return ring(self.inside / 2, self.od / 2, 3, 48)

    @property
    def metal_area(self) -> float:
        """Area of the nominal section, for weight [mm2]."""
        return pi * (self.od - self.wall) * self.wall

    @property
    def dimensions(self) -> dict[str, float]:
        """The sizes by trade word [mm]."""
        return {
            "od": self.od,
            "id": self.id,
            "wall": self.wall,
            "diameter": self.od,
            "width": self.od,
            "height": self.od,
        }


@dataclass(frozen=True)
class Pipe(RoundTube):
    """Pipe of a nominal pipe size and schedule; od and walls [mm]."""

    nps: str = ""
    schedule: str = ""

    @property
    def shape(self) -> str:
        """The shape in trade words."""
        return "pipe"


@dataclass(frozen=True)
class RoundBar(_Round):
    """Solid round bar, diameter [mm]."""

    diameter: float

    def __post_init__(self) -> None:
        positive(self.shape, diameter=self.diameter)

    @property
    def shape(self) -> str:
        """The shape in trade words."""
        return "round bar"

    @property
    def outside(self) -> float:
        """Outside diameter [mm]."""
        return self.diameter

    def fibres(self) -> Points:
        """Fibres (m, 3): u, v [mm], dA [mm2]."""
        return ring(0.0, self.diameter / 2, 4, 36)

    @property
    def dimensions(self) -> dict[str, float]:
        """The sizes by trade word [mm]."""
        return {"diameter": self.diameter, "od": self.diameter, "width": self.diameter, "height": self.diameter}
