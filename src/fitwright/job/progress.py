"""How far the work has got: which steps of the build are done, and the hours that each took."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True)
class Progress:
    """What is kept of one step.

    step: its name in the plan, such as "bend A1". hours: worked on it so far, None where nobody kept them. since: when
    its timer was last started, None while it stands. done: when it was ticked off. line: in the job file.
    """

    step: str
    hours: float | None = None
    since: datetime | None = None
    done: datetime | None = None
    line: int = 0

    def hours_at(self, now: datetime) -> float:
        """Hours worked on it up to a moment, a running timer included; never less than what is kept.

        >>> half_past = datetime(2027, 2, 3, 9, 30)
        >>> Progress("saw", 0.25, datetime(2027, 2, 3, 9, 0)).hours_at(half_past)
        0.75
        """
        kept = self.hours or 0.0
        if self.since is None:
            return kept
        return kept + max((now.astimezone() - self.since.astimezone()).total_seconds(), 0.0) / 3600
