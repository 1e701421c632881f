"""How nearly a reading is taken: a tape, a protractor, a feeler gauge."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from fitwright.job.readings import Quantity, Reading

DATA = Path(__file__).parent / "data"
UNITS = {"mm": 1.0, "deg": math.radians(1.0)}
LIKELY = 1.96
KIND = {
    Quantity.BEND: "angle",
    Quantity.ROTATION: "angle",
    Quantity.FOOT_HEIGHT: "gap",
    Quantity.FOOT_GAP: "gap",
    Quantity.JOINT_GAP: "gap",
    Quantity.TWIST: "gap",
    Quantity.FOR_SHELF: "opening",
    Quantity.ABOVE_SHELF: "opening",
    Quantity.CLEAR: "opening",
    Quantity.PAINT: "paint",
}


@dataclass(frozen=True)
class Precision:
    """One standard deviation [mm, rad], and where the default comes from."""

    value: float
    basis: str


@cache
def precisions() -> Mapping[str, Precision]:
    """The usual ones by kind."""
    rows = tomllib.loads((DATA / "precision.toml").read_text(encoding="utf-8"))
    return {kind: Precision(row["value"] * UNITS[row["unit"]], row["basis"]) for kind, row in rows.items()}


def precision_of(reading: Reading) -> Precision:
    """How nearly a reading was taken: as it says itself (95 %), else the usual for its kind and length.

    >>> from fitwright.job.readings import Of
    >>> round(precision_of(Reading(Of(Quantity.WIDTH), 1000.0)).value, 3)
    0.5
    """
    if reading.within is not None:
        return Precision(reading.within / LIKELY, "as the reading says")
    usual = precisions()
    kind = KIND.get(reading.of.quantity, "length")
    if kind != "length":
        return usual[kind]
    more = usual["length_per_metre"].value * abs(reading.value) / 1000.0
    return Precision(math.hypot(usual["length"].value, more), usual["length"].basis)
