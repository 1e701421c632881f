"""How each step stands: done, under way, ready, waiting for something to dry, or for other steps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from fitwright.job.progress import Progress
from fitwright.making.plan import After, Step

DONE, RUNNING, READY, DRYING, LATER = "done", "under way", "ready", "waiting", "later"


@dataclass(frozen=True)
class Standing:
    """One step. kept: what is written of it; until, why: what it waits for by the clock; open: steps before it."""

    step: Step
    kept: Progress
    state: str
    seconds: int
    until: datetime | None = None
    why: str = ""
    open: tuple[int, ...] = ()

    @property
    def running(self) -> bool:
        """Whether its timer runs."""
        return self.kept.since is not None


def standings(steps: Sequence[Step], progress: Sequence[Progress], now: datetime) -> tuple[Standing, ...]:
    """Every step as it stands now; a step that is not written of has not been begun."""
    kept = {one.step: one for one in progress}
    done = {step.number: when for step in steps if (when := _done(kept.get(step.key))) is not None}
    return tuple(_standing(step, kept.get(step.key, Progress(step.key)), done, now) for step in steps)


def _done(kept: Progress | None) -> datetime | None:
    return None if kept is None or kept.done is None else kept.done.astimezone()


def _standing(step: Step, kept: Progress, done: dict[int, datetime], now: datetime) -> Standing:
    seconds = round(3600 * kept.hours_at(now))
    if step.number in done:
        return Standing(step, kept, DONE, seconds)
    open_ = tuple(one.number for one in step.after if one.number not in done)
    waits = [(done[one.number] + timedelta(minutes=one.wait), one) for one in step.after if one.number in done]
    until, last = max(waits, key=lambda pair: pair[0], default=(None, After(0)))
    if kept.since is not None:
        return Standing(step, kept, RUNNING, seconds)
    if open_:
        return Standing(step, kept, LATER, seconds, open=open_)
    if until is not None and until > now.astimezone():
        return Standing(step, kept, DRYING, seconds, until, last.why)
    return Standing(step, kept, READY, seconds)


def next_of(all_: Sequence[Standing], order: Sequence[int]) -> Standing | None:
    """What to take up next: what is under way, else the first ready one in the order of the schedule."""
    place = {number: k for k, number in enumerate(order)}
    for state in (RUNNING, READY):
        found = [one for one in all_ if one.state == state]
        if found:
            return min(found, key=lambda one: place.get(one.step.number, len(place)))
    return None
