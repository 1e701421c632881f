"""How long a search may take, who is told of its progress, and who may stop it."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, field

Ear = Callable[[str, int | None, int, float], bool]
"""Told stage, best cost so far, proven bound and time [s]; returns False to stop the search."""

TELL_EVERY = 0.1
"""Seconds between two tellings."""


@dataclass
class Clock:
    """A limit in seconds from the clock's making; asking whether time is over also tells the ear how things stand."""

    limit: float
    ear: Ear | None = None
    start: float = field(default_factory=time.monotonic)
    stopped: bool = False
    stage: str = ""
    cost: int | None = None
    bound: int = 0
    told: float = 0.0

    @property
    def seconds(self) -> float:
        """Time since the start [s]."""
        return time.monotonic() - self.start

    @property
    def left(self) -> float:
        """Time left [s], nought once stopped."""
        return 0.0 if self.stopped else max(0.0, self.limit - self.seconds)

    @property
    def over(self) -> bool:
        """Whether the search has to end."""
        if self.ear is not None and not self.stopped and self.seconds - self.told >= TELL_EVERY:
            self.tell()
        return self.left <= 0.0

    def note(self, stage: str, cost: int | None, bound: int) -> None:
        """Take down how things stand: the best cost only falls and the bound only rises."""
        self.stage = stage
        self.cost = cost if self.cost is None or (cost is not None and cost < self.cost) else self.cost
        self.bound = max(self.bound, bound)

    def tell(self) -> None:
        """Tell the ear now."""
        self.told = self.seconds
        if self.ear is not None and not self.ear(self.stage, self.cost, self.bound, self.seconds):
            self.stopped = True

    def within(self, seconds: float) -> Clock:
        """A clock for a part of the search, no longer than what is left here; the ear hears how this one stands."""
        return Clock(min(seconds, self.left), self._relay)

    def _relay(self, stage: str, cost: int | None, bound: int, seconds: float) -> bool:
        self.tell()
        return not self.stopped
