"""What the finished piece is held against when it is put right: how far each outcome may be off."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from fitwright.making.bench.tape import ISO_13920, iso_13920
from fitwright.mechanics.model import Floats
from fitwright.mechanics.variation import Variation
from fitwright.mechanics.variation.rock import rock, stances

SIZES = ("width", "depth", "height")
SQUARE = ("diagonals", "parallel", "twist")
BASIS = f"{ISO_13920}; the rock that the job allows"


@dataclass(frozen=True, eq=False)
class Wants:
    """The rows of outcomes that count, and the forms of the feet that make it rock.

    rows: (w,) of outcomes; off: (w,) how far each may be off [mm]. forms: (f, o) of these and of what feet are out of
    their plane; limit: of that [mm].
    """

    setting: Variation

    @cached_property
    def rows(self) -> tuple[int, ...]:
        """Outcomes that are sizes or squareness."""
        return tuple(i for i, outcome in enumerate(self.setting.outcomes) if outcome.kind in (*SIZES, *SQUARE))

    @cached_property
    def off(self) -> Floats:
        """(w,) how far each may be off [mm]: by its length, of squareness by the largest size."""
        largest = max((o.nominal for o in self.setting.outcomes if o.kind in SIZES), default=1000.0)
        lengths = (self.setting.outcomes[i] for i in self.rows)
        return np.array([iso_13920(o.nominal if o.kind in SIZES else largest) for o in lengths])

    @cached_property
    def feet(self) -> tuple[int, ...]:
        """Rows of the feet."""
        return tuple(i for i, outcome in enumerate(self.setting.outcomes) if outcome.kind == "foot")

    @cached_property
    def stances(self) -> list[tuple[tuple[int, ...], Floats]]:
        """As `rock` takes them."""
        plan = np.array([foot.point[:2] for foot in self.setting.parts.feet]).reshape(-1, 2)
        return stances(plan, np.asarray(self.setting.framed.piece.centre)[:2]) if len(plan) > 3 else []

    @property
    def limit(self) -> float:
        """The rock that is allowed [mm]."""
        return self.setting.limits.rock

    def rock(self, outcomes: Floats) -> float:
        """How far a foot hangs with outcomes (o,) [mm]."""
        return float(rock(outcomes[list(self.feet)][None], self.stances)[0]) if self.stances else 0.0

    def misfit(self, outcomes: Floats) -> float:
        """How far outcomes (o,) are off on the whole, in parts of what is allowed: root of the mean square."""
        shares = (outcomes - self.setting.sensitivity.nominal)[list(self.rows)] / self.off
        return float(np.sqrt(np.mean(shares**2))) if len(shares) else 0.0

    @cached_property
    def _plane(self) -> Floats:
        """(k, n) what is left of heights of feet when the plane nearest to them is taken out."""
        plan = np.array([foot.point[:2] for foot in self.setting.parts.feet]).reshape(-1, 2)
        if len(plan) < 4:
            return np.zeros((0, len(plan)))
        rows = np.column_stack([plan - plan.mean(axis=0), np.ones(len(plan))])
        return np.asarray(np.eye(len(plan)) - rows @ np.linalg.pinv(rows))

    @cached_property
    def forms(self) -> Floats:
        """(w + k, o) linear forms of the outcomes' deviations, each 1 where it is as far off as it may be."""
        forms = np.zeros((len(self.rows), len(self.setting.outcomes)))
        forms[np.arange(len(self.rows)), list(self.rows)] = 1 / self.off
        out_of_plane = np.zeros((len(self._plane), len(self.setting.outcomes)))
        if len(self._plane):
            out_of_plane[:, list(self.feet)] = 2 * self._plane / self.limit
        return np.vstack([forms, out_of_plane])
