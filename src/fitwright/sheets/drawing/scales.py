"""The scales that drawings are made to."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Literal

Practice = Literal["metric", "inch"]
List = Literal["metric", "inch", "pictorial"]


@dataclass(frozen=True, order=True)
class Scale:
    """A ratio of drawn to real size."""

    ratio: Fraction

    @property
    def factor(self) -> float:
        """Drawn mm for each real mm."""
        return float(self.ratio)

    @property
    def label(self) -> str:
        """As stated on the drawing.

        >>> Scale(Fraction(1, 10)).label
        '1:10'
        """
        return f"{self.ratio.numerator}:{self.ratio.denominator}"


@cache
def scales(practice: List) -> tuple[Scale, ...]:
    """The usual scales, largest first.

    metric: ISO 5455. inch: the scales of the architect's rule (1:2 half size to 1:96, 1/8 inch to the foot) and of the
    engineer's rule (1:10 to 1:60); common practice. pictorial: finer steps for pictures that are not measured on.
    """
    text = files(__package__).joinpath("scales.csv").read_text(encoding="utf-8")
    rows = [row for row in csv.DictReader(text.splitlines()) if row["practice"] == practice]
    return tuple(sorted((Scale(Fraction(int(row["drawn"]), int(row["real"]))) for row in rows), reverse=True))


def fitting(practice: Practice, size: tuple[float, float], room: tuple[float, float]) -> Scale | None:
    """The largest usual scale at which a size fits a room, both (width, height) in mm; None when none does."""
    for scale in scales(practice):
        if size[0] * scale.factor <= room[0] and size[1] * scale.factor <= room[1]:
            return scale
    return None
