"""The walls and the top of an opening as surveyed: straight between the places where they were measured."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fitwright.job.model import Opening

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Walls:
    """An opening and the height of the piece that is to stand in it [mm].

    Sizes at several heights say by themselves how the walls stand to one another; a lean says where one of them stands.
    With one size alone, measured at one height, each wall leans as it was said to lean.
    """

    opening: Opening
    piece_height: float

    @cached_property
    def full(self) -> float:
        """The height over which a lean was measured: that of the opening, else the highest known [mm]."""
        if self.opening.tops:
            return min(height for _, height in self.opening.tops)
        measured = [height for height, _ in (*self.opening.widths, *self.opening.depths)]
        return max([height for height in measured if height > 0], default=self.piece_height)

    @cached_property
    def heights(self) -> Floats:
        """Heights at which a wall may bend (k,) [mm]."""
        measured = {height for height, _ in (*self.opening.widths, *self.opening.depths)}
        return np.array(sorted({0.0, self.full, *measured}))

    def sides(self, heights: Floats) -> tuple[Floats, Floats]:
        """Where the left and the right wall stand (n,) at heights (n,) [mm]; the left one at 0 on the floor."""
        widths = sorted(self.opening.widths)
        at, size = widths[0]
        left, right = self._lean("left", heights), self._lean("right", heights)
        if len(widths) == 1:
            floor = size + float((self._lean("left", np.array([at])) + self._lean("right", np.array([at])))[0])
            return left, floor - right
        width = profile(widths, heights)
        if "right" in self.opening.lean and "left" not in self.opening.lean:
            stands = float(profile(widths, np.zeros(1))[0]) - right
            return stands - width, stands
        return left, left + width

    def back(self, heights: Floats) -> Floats:
        """Where the back wall stands (n,) at heights (n,), behind the front line of the opening [mm]."""
        depths = sorted(self.opening.depths)
        if len(depths) > 1:
            return profile(depths, heights)
        at, size = depths[0]
        floor = size + float(self._lean("back", np.array([at]))[0])
        return floor - self._lean("back", heights)

    def top(self, across: Floats) -> Floats:
        """How high the top is (n,) at distances from the left (n,) [mm]."""
        return profile(self.opening.tops, across)

    def _lean(self, side: str, heights: Floats) -> Floats:
        return np.asarray(self.opening.lean.get(side, 0.0) * np.clip(heights / self.full, 0, 1))


def profile(pairs: Sequence[tuple[float, float]], at: Floats) -> Floats:
    """Sizes (n,) at places (n,), straight between those measured and level beyond them."""
    places, sizes = zip(*sorted(pairs), strict=True)
    return np.asarray(np.interp(at, places, sizes))
