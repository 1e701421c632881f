"""The walls and the top of an opening as surveyed: straight between the places where they were measured."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fitwright.job.model import Measured, Opening, Skirting
from fitwright.place.survey.outline import outline

Floats = NDArray[np.float64]
Where = Floats | float


@dataclass(frozen=True)
class Walls:
    """An opening and the height of the piece that is to stand in it [mm].

    Sizes at several heights say by themselves how the walls stand to one another; a lean says where one of them stands.
    With one size alone, measured at one height, each wall leans as it was said to lean. Seen from above a wall runs
    straight from its front end to its back end, as `skew` or the plan says; sizes at several stations say by themselves
    how far apart the walls are.

    corners: those of the plan (4, 2), None for the ones adjusted from it. within: what lengths are known to [mm].
    """

    opening: Opening
    piece_height: float
    skirting: Skirting | None = None
    within: float | None = None
    corners: Floats | None = None

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
        board = {self.skirting.height} if self.skirting else set()
        return np.array(sorted({0.0, self.full, *measured, *board}))

    @cached_property
    def widths(self) -> tuple[Measured, ...]:
        """The widths by themselves, the plan's front where there is no other."""
        return self._sizes("width", self.opening.widths, 1, 0)

    @cached_property
    def depths(self) -> tuple[Measured, ...]:
        """The depths by themselves, the plan's left side where there is no other."""
        return self._sizes("depth", self.opening.depths, 2, 1)

    @cached_property
    def stations(self) -> Floats:
        """How far from the front a side wall may bend (k,) [mm]."""
        return np.array(sorted({0.0, *(one.station for one in self.widths)}))

    @cached_property
    def deep(self) -> float:
        """Over what depth the side walls run in [mm]."""
        return min((one.size for one in self.depths), default=1.0)

    @cached_property
    def wide(self) -> float:
        """Over what width the back wall runs in [mm]."""
        return min((one.size for one in self.widths), default=1.0)

    @property
    def runs(self) -> bool:
        """Whether the side walls come nearer to one another, or to the middle, along their depth."""
        return len(self.stations) > 1 or any(self._skew.get(side) for side in ("left", "right"))

    def sides(self, heights: Floats, deep: Where = 0.0) -> tuple[Floats, Floats]:
        """Where the left and the right wall stand (n,) at heights (n,) [mm]; the left one at 0 on the floor in front.

        deep: how far from the front (n,) [mm].
        """
        at = self.widths[0]
        left = self._lean("left", heights) + self._runs("left", deep)
        if len(self.widths) == 1:
            floor = at.size + sum(self._there(side, at.at, at.station) for side in ("left", "right"))
            return left, floor - self._lean("right", heights) - self._runs("right", deep)
        width = sized(self.widths, heights, deep)
        one_station = len(self.stations) == 1
        if "right" in self.opening.lean and "left" not in self.opening.lean:
            floor = float(sized(self.widths, np.zeros(1), 0.0)[0])
            right = floor - self._lean("right", heights) - self._runs("right", deep)
            return right - width + (self._both(deep) if one_station else 0.0), right
        return left, left + width - (self._both(deep) if one_station else 0.0)

    def back(self, heights: Floats, across: Where = 0.0) -> Floats:
        """Where the back wall stands (n,) at heights (n,), behind the front line of the opening [mm].

        across: how far from the left (n,) [mm].
        """
        at = self.depths[0]
        if len(self.depths) == 1:
            floor = at.size + self._there("back", at.at, at.station)
            return np.asarray(floor - self._lean("back", heights) - self._runs("back", across))
        turned = self._runs("back", across) if len({one.station for one in self.depths}) == 1 else 0.0
        return np.asarray(sized(self.depths, heights, across) - turned)

    def top(self, across: Floats) -> Floats:
        """How high the top is (n,) at distances from the left (n,) [mm]."""
        return profile(self.opening.tops, across)

    def board(self, side: str, heights: Floats) -> Floats:
        """How far the skirting stands out from a wall (n,) at heights (n,) [mm]."""
        if self.skirting is None or side not in self.skirting.on:
            return np.zeros(len(heights))
        return np.where(heights <= self.skirting.height + 1e-9, self.skirting.thickness, 0.0)

    @cached_property
    def _corners(self) -> Floats | None:
        if self.corners is not None or self.opening.plan is None:
            return self.corners
        return outline(self.opening, self.within).corners

    @cached_property
    def _skew(self) -> dict[str, float]:
        if self._corners is None:
            return dict(self.opening.skew)
        _, right, back_left, back_right = self._corners.tolist()
        return {"left": back_left[0], "right": right[0] - back_right[0], "back": back_left[1] - back_right[1]}

    def _sizes(self, what: str, pairs: Sequence[tuple[float, float]], corner: int, axis: int) -> tuple[Measured, ...]:
        found = [one for one in self.opening.measures if one.what == what]
        found = found or [Measured(what, at, size) for at, size in pairs]
        if not found and self._corners is not None and self.opening.plan is not None:
            found = [Measured(what, self.opening.plan.at, float(self._corners[corner, axis]))]
        return tuple(sorted(found, key=lambda one: (one.station, one.at)))

    def _there(self, side: str, at: float, station: float) -> float:
        """How far a wall stands in at one place [mm]."""
        return float(self._lean(side, np.array([at]))[0]) + float(np.asarray(self._runs(side, station)))

    def _both(self, deep: Where) -> Where:
        """How much narrower it is than at the station where the widths were measured [mm]."""
        station = self.widths[0].station
        return sum((self._runs(side, deep) - self._runs(side, station) for side in ("left", "right")), 0.0)

    def _lean(self, side: str, heights: Floats) -> Floats:
        return np.asarray(self.opening.lean.get(side, 0.0) * np.clip(heights / self.full, 0, 1))

    def _runs(self, side: str, place: Where) -> Where:
        """How far a wall has run in at a distance from its near end [mm]; straight on beyond its ends."""
        if not self._skew.get(side):
            return 0.0
        return self._skew[side] * (place / (self.wide if side == "back" else self.deep))


def profile(pairs: Sequence[tuple[float, float]], at: Floats) -> Floats:
    """Sizes (n,) at places (n,), straight between those measured and level beyond them."""
    places, sizes = zip(*sorted(pairs), strict=True)
    return np.asarray(np.interp(at, places, sizes))


def sized(measures: Sequence[Measured], at: Floats, station: Where) -> Floats:
    """Sizes (n,) at heights (n,) and stations (n,): straight between heights, then straight between stations."""
    stations = sorted({one.station for one in measures})
    rows = [profile([(one.at, one.size) for one in measures if one.station == place], at) for place in stations]
    if len(rows) == 1:
        return rows[0]
    place = np.clip(np.broadcast_to(np.asarray(station, dtype=float), at.shape), stations[0], stations[-1])
    after = np.clip(np.searchsorted(stations, place), 1, len(stations) - 1)
    each = np.arange(len(at))
    one, other = np.array(stations)[after - 1], np.array(stations)[after]
    share = (place - one) / (other - one)
    sizes = np.array(rows)
    return np.asarray((1 - share) * sizes[after - 1, each] + share * sizes[after, each])
