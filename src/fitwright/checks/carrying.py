"""What it weighs to carry: the most burdened person against what one should lift, and a lift's load."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from fitwright.findings import Finding, Verdict, at_most, needs_input
from fitwright.job.model import Job
from fitwright.job.obstacles import Lift
from fitwright.place.route.carrying import PERSON_KG, Carry
from fitwright.place.route.lifting import MOST_PEOPLE, NIOSH, TEAM

AREA = "carrying"
HEAVY = 3.0  # a lifting index over which most who lift are at risk, between 1 and which some are: NIOSH 94-110, 1.4
CAR = "EN 81-20, 5.4.2: rated load, 75 kg a person"


def carrying_findings(job: Job, carries: Sequence[Carry]) -> list[Finding]:
    """The hardest carry, and every lift's load; none where nothing is carried."""
    carried = [one for one in carries if one.index is not None and one.limit]
    found = [_hardest(job, max(carried, key=lambda one: one.index or 0.0))] if carried else []
    return found + [_load(job, one, one.leg.obstacle) for one in carries if isinstance(one.leg.obstacle, Lift)]


def _hardest(job: Job, carry: Carry) -> Finding:
    assert carry.index is not None
    assert carry.limit is not None
    people, each = carry.people or MOST_PEOPLE, carry.index * carry.limit
    check = f"lift for each of {people} people" if people > 1 else "lift for one person"
    weight, limit = job.style.weight(carry.mass), job.style.weight(carry.limit)
    formula = f"{weight} in all; recommended for one: {limit}, hands 300 mm before the ankles"
    found = at_most(
        AREA, carry.leg.name, check, each, carry.limit, "kg", tight=job.brief.rules.tight * carry.limit,
        basis=f"{NIOSH}; {TEAM}", advice="one more to help, or parts off first", formula=formula,
    )  # fmt: skip
    if carry.people is not None:
        return found
    advice = (
        f"{weight}: more than {MOST_PEOPLE} should carry by hand; take parts off, or use a dolly, straps or a hoist"
    )
    verdict = Verdict.FAILS if carry.index > HEAVY else Verdict.TIGHT
    return replace(found, verdict=verdict, advice=advice)


def _load(job: Job, carry: Carry, car: Lift) -> Finding:
    if car.load is None:
        return needs_input(AREA, carry.leg.name, "load in the lift", "space: route: lift: load", basis=CAR)
    people = carry.people or 1
    total = carry.mass + people * PERSON_KG
    alone = carry.mass <= car.load
    advice = "let it go up alone" if alone else "too heavy for the car: take parts off, or another way up"
    return at_most(AREA, carry.leg.name, f"load with {people} in the car", total, car.load, "kg",
                   tight=job.brief.rules.tight * car.load, basis=CAR, advice=advice,
                   formula=f"{job.style.weight(carry.mass)} + {people} x {job.style.weight(PERSON_KG)}")  # fmt: skip
