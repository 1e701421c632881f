"""Virtual builds: what the errors of a shop make of a piece, how likely it fits, and what to do about it."""

from __future__ import annotations

from fitwright.mechanics.variation.builds import virtual_builds
from fitwright.mechanics.variation.chances import outcome_spreads
from fitwright.mechanics.variation.groups import usual_sequence
from fitwright.mechanics.variation.model import (
    BestNominal,
    Chance,
    Change,
    Correction,
    Histogram,
    Outcome,
    OutcomeSpread,
    Sensitivity,
    Share,
    Source,
    VariationError,
    VirtualBuilds,
)
from fitwright.mechanics.variation.questions import Limits, usual_limits
from fitwright.mechanics.variation.quick import estimate
from fitwright.mechanics.variation.recorded import spreads_of_shop
from fitwright.mechanics.variation.setting import Variation, sensitivity, usual_making, variation, with_making
from fitwright.mechanics.variation.simulate import draw
from fitwright.mechanics.variation.sources import Making
from fitwright.mechanics.variation.spreads import (
    SpreadError,
    SpreadNote,
    Spreads,
    spread_notes,
    usual_spreads,
    with_spreads,
)
from fitwright.mechanics.variation.stops import Stage, Stop

__all__ = [
    "BestNominal",
    "Chance",
    "Change",
    "Correction",
    "Histogram",
    "Limits",
    "Making",
    "Outcome",
    "OutcomeSpread",
    "Sensitivity",
    "Share",
    "Source",
    "SpreadError",
    "SpreadNote",
    "Spreads",
    "Stage",
    "Stop",
    "Variation",
    "VariationError",
    "VirtualBuilds",
    "draw",
    "estimate",
    "outcome_spreads",
    "sensitivity",
    "spread_notes",
    "spreads_of_shop",
    "usual_limits",
    "usual_making",
    "usual_sequence",
    "usual_spreads",
    "variation",
    "virtual_builds",
    "with_making",
    "with_spreads",
]
