"""Each carry: what it weighs, whether it rolls, how many people, where they hold, what to mind."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from fitwright.job.obstacles import Lift as Car
from fitwright.job.obstacles import Stairs, Step, Van
from fitwright.piece import Piece
from fitwright.place.route.grips import Hold, holds, shares
from fitwright.place.route.legs import Leg
from fitwright.place.route.lifting import MOST_PEOPLE, NIOSH, STAND_OFF_MM, TEAM, Lift, people_for, person_load
from fitwright.place.route.model import Bulk, Passage
from fitwright.place.route.whole import Route

PERSON_KG = 75.0  # EN 81-20, 5.4.2.3: what a lift counts for one person
TWIST = {"corner": np.radians(30), "landing": np.radians(30)}
HANDS_LOW_MM, HANDS_HIGH_MM = 300.0, 1200.0


@dataclass(frozen=True, eq=False)
class Carry:
    """One leg's carrying.

    limit: what one person should lift there [kg], None when it rolls; people: how many it takes, None when more than
    four. share: of the weight at the heavier end; index: that person's part against the limit.
    """

    leg: Leg
    passage: Passage
    bulk: Bulk
    mass: float
    rolled: bool
    limit: float | None
    people: int | None
    share: float
    index: float | None
    holds: tuple[Hold, ...]
    cautions: tuple[str, ...]
    sources: tuple[str, ...] = (NIOSH, TEAM)


def carries(route: Route, piece: Piece) -> tuple[Carry, ...]:
    """A carry for each leg that has a way."""
    return tuple(
        _carry(leg, passage, route.bulk, piece)
        for leg, passage in zip(route.legs, route.passages, strict=True)
        if passage.stance is not None and passage.poses
    )


def _carry(leg: Leg, passage: Passage, bulk: Bulk, piece: Piece) -> Carry:
    assert passage.stance is not None
    if passage.rolled and leg.kind not in ("stairs", "step"):
        return Carry(
            leg, passage, bulk, bulk.mass, True, None, 1, 0.5, None, (), tuple(_cautions(leg, passage, bulk, 1))
        )
    held = holds(piece, bulk, passage.stance)
    slope = _slope(leg)
    share = max(*shares(held, bulk, passage.stance, slope), *shares(held, bulk, passage.stance, -slope))
    lift = Lift(STAND_OFF_MM, _hands(held), _raised(leg), TWIST.get(leg.kind, 0.0))
    people = _people(bulk.mass, lift.limit, share, two_at_least=bool(slope))
    index = person_load(bulk.mass, people or MOST_PEOPLE, share) / lift.limit
    told = tuple(_cautions(leg, passage, bulk, people))
    return Carry(leg, passage, bulk, bulk.mass, False, lift.limit, people, share, index, held, told)


def _people(mass: float, limit: float, share: float, *, two_at_least: bool) -> int | None:
    """How many; on stairs one above and one below."""
    found = people_for(mass, limit, share)
    return max(found, 2) if found is not None and two_at_least else found


def _slope(leg: Leg) -> float:
    return float(np.arctan2(leg.obstacle.rise, leg.obstacle.run)) if isinstance(leg.obstacle, Stairs) else 0.0


def _hands(held: tuple[Hold, ...]) -> float:
    """Height of the hands at the start [mm], within reach of one who neither kneels nor lifts over the chest."""
    middle = float(np.mean([one.height for one in held])) if held else 0.0
    return float(np.clip(middle, HANDS_LOW_MM, HANDS_HIGH_MM))


def _raised(leg: Leg) -> float:
    """How far it is raised in one lift [mm]."""
    one = leg.obstacle
    if isinstance(one, Van):
        return one.bed
    return one.height if isinstance(one, Step) else 0.0


def _cautions(leg: Leg, passage: Passage, bulk: Bulk, people: int | None) -> Iterable[str]:
    one = leg.obstacle
    if people is None:
        yield f"too heavy for {MOST_PEOPLE} by hand ({TEAM.partition(':')[0]}): use a stair climber, a hoist or straps"
    if passage.rolled and leg.kind not in ("stairs", "step"):
        yield "push it at the height of its centre of mass, one on each end; unlock the casters first (common practice)"
    if isinstance(one, Stairs):
        yield "whoever is below has most of the weight: the stronger there, nobody stands behind (HSE L23)"
    if isinstance(one, Van):
        yield "strap it to the side before driving off, what is loose taken out or tied (common practice)"
    if isinstance(one, Car) and one.load is not None:
        yield f"at most {int((one.load - bulk.mass) // PERSON_KG)} people in the car with it (75 kg each, EN 81-20)"
    if passage.spot.room < one.spare:
        yield f"mind hands at {passage.spot.what}: less room than knuckles want"
    if leg.kind in ("corner", "landing"):
        yield "turn with the feet, not with the back (NIOSH 94-110)"
