"""The plan of a job for its page: steps, their times, small pictures; kept for as long as nothing of it changes."""

from __future__ import annotations

import hashlib
from collections import OrderedDict
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

from fitwright.assess import Assessment
from fitwright.job import Job
from fitwright.making.plan import Schedule, Step
from fitwright.sheets.drawing import A4, LETTER, to_svg
from fitwright.sheets.packet.pages.arranging import arrangement_drawing
from fitwright.sheets.packet.pages.steps import picture_of
from fitwright.web.aside import Tell

KEPT = 16


@dataclass(frozen=True)
class Plan:
    """Steps with their schedule, and pictures (SVG) by number of step."""

    schedule: Schedule
    pictures: Mapping[int, str]

    @property
    def steps(self) -> tuple[Step, ...]:
        """The steps in build order."""
        return tuple(timed.step for timed in self.schedule.steps)


def step_plan(assessment: Assessment, tell: Tell) -> Plan:
    """The plan, worked out: bench and welds take most of the time."""

    def set_up(done: int, of: int, name: str) -> None:
        tell(f"bench: {name}" if name else "bench", 0.4 * done / max(of, 1))

    assessment.set_up(set_up)
    assessment.weld(lambda step, share: tell(step, 0.4 + 0.4 * share))
    tell("the schedule", 0.85)
    schedule = assessment.schedule
    tell("pictures", 0.92)
    whole = arrangement_drawing(assessment, LETTER if assessment.job.style.unit == "inch" else A4, date.today())
    drawn = ((one.step.number, picture_of(assessment, whole, one.step)) for one in schedule.steps)
    return Plan(schedule, {number: to_svg(drawing) for number, drawing in drawn if drawing is not None})


class Plans:
    """Plans worked out, by what they follow from; ticks, hours and readings are not of it."""

    def __init__(self) -> None:
        self._kept: OrderedDict[str, Plan] = OrderedDict()

    def get(self, key: str) -> Plan | None:
        """The plan kept under a key."""
        return self._kept.get(key)

    def keep(self, key: str, plan: Plan) -> Plan:
        """Keep a plan; the oldest goes when there are many."""
        self._kept[key] = plan
        while len(self._kept) > KEPT:
            self._kept.popitem(last=False)
        return plan


def key_of(job: Job, place: str, shop: object) -> str:
    """What a plan follows from, as a digest: the job without what is written down while building, and the shop."""
    bare = replace(job, progress=(), readings=())
    return hashlib.sha256(repr((place, bare, shop)).encode()).hexdigest()
