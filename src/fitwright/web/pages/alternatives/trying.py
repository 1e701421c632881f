"""The alternatives of one state of a job, worked out aside, a few at a time; a newer change ends them."""

from __future__ import annotations

import asyncio
from dataclasses import dataclass, field, replace
from weakref import WeakKeyDictionary

from fitwright.assess import Assessment
from fitwright.errors import FitwrightError
from fitwright.pricing.exploring.alternatives import alternatives_of
from fitwright.pricing.exploring.running import cores
from fitwright.pricing.exploring.trying import Figures, Point, Tried, changed
from fitwright.report.point import figures_of
from fitwright.web.aside import Superseded, Tell, Worker
from fitwright.web.desk import Work
from fitwright.web.errors import NotThere

AT_ONCE = min(2, cores())
"""A shop's laptop has other things to do as well."""
LOOK_EVERY = 0.3
"""How often it is looked whether the job has changed [s]."""


@dataclass(eq=False)
class Trying:
    """What is to be tried, and what has been."""

    points: tuple[Point, ...]
    done: dict[int, Tried] = field(default_factory=dict)
    goes_on: asyncio.Task[None] | None = None
    _waiting: list[Point] = field(default_factory=list)

    @property
    def rows(self) -> tuple[Tried, ...]:
        """Those that are done, in the order of the points."""
        return tuple(self.done[point.number] for point in self.points if point.number in self.done)

    @property
    def finished(self) -> bool:
        """Whether all are done."""
        return len(self.done) == len(self.points)

    def point(self, number: int) -> Point:
        """The point of a number. Raises NotThere."""
        for point in self.points:
            if point.number == number:
                return point
        raise NotThere(f"there is no alternative {number} of this job any more")


_TRYING: WeakKeyDictionary[Work, Trying] = WeakKeyDictionary()


def trying_of(work: Work) -> Trying:
    """What is tried of a state of a job. Raises what is wrong with the job file."""
    known = _TRYING.get(work)
    if known is None:
        right = work.right
        known = _TRYING[work] = Trying(alternatives_of(work.state.text, right.job, right.shop))
    return known


def go_on(work: Work) -> Trying:
    """The same, with the work under way."""
    trying = trying_of(work)
    if not trying.finished and (trying.goes_on is None or trying.goes_on.done()):
        trying.goes_on = asyncio.ensure_future(_all(work, trying))
        trying.goes_on.add_done_callback(lambda task: task.cancelled() or task.exception())
    return trying


async def _all(work: Work, trying: Trying) -> None:
    trying._waiting = [point for point in trying.points if point.number not in trying.done]
    await asyncio.gather(*(_some(work, trying) for _ in range(AT_ONCE)))


async def _some(work: Work, trying: Trying) -> None:
    while trying._waiting and work.newest():
        point = trying._waiting.pop(0)
        try:
            trying.done[point.number] = await _one(work, point)
        except Superseded:
            return


async def _one(work: Work, point: Point) -> Tried:
    """In a process of its own, which has another job than the desk's own and so is none of them."""
    assert work.given is not None, "a job that is right has all that it is computed from"
    try:
        worker = Worker(replace(work.given, text=changed(work.state.text, point.settings)))
    except FitwrightError as wrong:
        return Tried(point, None, str(wrong))
    try:
        return await _result(work, point, worker)
    finally:
        worker.stop()


async def _result(work: Work, point: Point, worker: Worker) -> Tried:
    """What it found. Raises Superseded once the job has changed."""
    aside = worker.do(point_figures)
    while not aside.result.done():
        await asyncio.wait([aside.result], timeout=LOOK_EVERY)
        if not work.newest():
            raise Superseded
    wrong = aside.result.exception()
    if wrong is None:
        figures: Figures = aside.result.result()
        return Tried(point, figures)
    if isinstance(wrong, Superseded):
        raise wrong
    return Tried(point, None, str(wrong))


def point_figures(assessment: Assessment, tell: Tell) -> Figures:
    """What a changed job comes to."""
    tell("the whole job", 0.1)
    return figures_of(assessment)
