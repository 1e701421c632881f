"""From records to what is learnt of them."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping, Sequence

from fitwright.shop.learning.hours import HoursFactor, HoursSeen, hours_factors
from fitwright.shop.learning.model import Learnt
from fitwright.shop.learning.pieces import LARGEST_ANGLE, Estimate, TrialPiece, offset_of, take_up_of
from fitwright.shop.learning.sources import errors_read
from fitwright.shop.learning.springback import BendTrial
from fitwright.shop.model import Shop
from fitwright.shop.records.model import Hours, Measured, OnHand, Trial


def learn(
    shop: Shop,
    trials: Sequence[Trial] = (),
    readings: Sequence[Measured] = (),
    hours: Sequence[Hours] = (),
    stock: Sequence[OnHand] = (),
) -> Learnt:
    """What the records of a shop say. Trials that are left out, and hours without the table's time, are not used."""
    used = [trial for trial in trials if not trial.left_out]
    pieces = pieces_by_die(used)
    dies = {die.name: die for die in shop.dies}
    return Learnt(
        bends_of(used),
        heats_on_hand(stock),
        _estimates({name: take_up_of(some, dies[name].take_up) for name, some in pieces.items() if name in dies}),
        _estimates({name: offset_of(some, dies[name].offset) for name, some in pieces.items() if name in dies}),
        hours_learnt(hours),
        errors_read(readings),
    )


def bends_of(trials: Sequence[Trial]) -> dict[tuple[str, str], tuple[BendTrial, ...]]:
    """Trials by die and section, in the order in which they were made."""
    found: dict[tuple[str, str], list[BendTrial]] = defaultdict(list)
    for trial in sorted(trials, key=lambda one: (one.day, one.id)):
        bend = BendTrial(math.radians(trial.asked_deg), math.radians(trial.got_deg), trial.heat)
        found[trial.die, trial.section].append(bend)
    return {key: tuple(some) for key, some in found.items()}


def pieces_by_die(trials: Sequence[Trial]) -> dict[str, list[TrialPiece]]:
    """The trials that were measured as pieces, by die."""
    found: dict[str, list[TrialPiece]] = defaultdict(list)
    for trial in trials:
        angle = math.radians(trial.got_deg)
        if trial.radius and trial.leg_start and angle <= LARGEST_ANGLE:
            piece = TrialPiece(trial.radius, angle, trial.blank, trial.leg_start, trial.leg_end, trial.mark)
            found[trial.die].append(piece)
    return found


def heats_on_hand(stock: Sequence[OnHand]) -> dict[str, str]:
    """The heat of each stock on the rack where all of it is of one: else nobody knows which will be cut."""
    heats: dict[str, set[str]] = defaultdict(set)
    for one in stock:
        if one.count > 0:
            heats[one.label].add(one.heat)
    return {label: next(iter(some)) for label, some in heats.items() if len(some) == 1 and "" not in some}


def hours_learnt(hours: Sequence[Hours]) -> Mapping[str, HoursFactor]:
    """Time over the table's by kind of step, from hours with the table's time beside them."""
    seen = [HoursSeen(one.step_kind, one.hours * one.people, one.usual_hours) for one in hours if one.usual_hours]
    return hours_factors(seen) if seen else {}


def _estimates(found: Mapping[str, Estimate | None]) -> dict[str, Estimate]:
    return {name: one for name, one in found.items() if one is not None}
