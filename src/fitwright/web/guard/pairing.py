"""The code that a device on the shop's network shows once to be let in."""

from __future__ import annotations

import hmac
import secrets
import time
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass, field

LETTERS = "23456789ABCDEFGHJKMNPQRSTVWXYZ"
"""Without those that are taken for one another when read off a screen."""

LENGTH = 8
WINDOW = 60.0
FROM_ONE = 5
FROM_ALL = 20


def fresh_code() -> str:
    """A code of 8 letters, one in 6.5e11."""
    return "".join(secrets.choice(LETTERS) for _ in range(LENGTH))


@dataclass
class Pairing:
    """One code, valid while the server runs, and the attempts of the last minute, by address and in all."""

    code: str = field(default_factory=fresh_code)
    clock: Callable[[], float] = time.monotonic
    _from: dict[str, deque[float]] = field(default_factory=dict)
    _all: deque[float] = field(default_factory=deque)

    @property
    def shown(self) -> str:
        """The code in two groups, as it is read out."""
        return f"{self.code[: LENGTH // 2]} {self.code[LENGTH // 2 :]}"

    def wait(self, address: str) -> float:
        """How long an address has to wait until its next attempt [s]; 0 when it may try."""
        self._forget()
        mine = self._from.get(address, deque())
        waits = [self._left(mine, FROM_ONE), self._left(self._all, FROM_ALL)]
        return max(waits)

    def fits(self, address: str, given: str) -> bool:
        """Whether a code is the right one; counts as an attempt, and takes the same time for any wrong code."""
        right = hmac.compare_digest("".join(given.split()).upper().encode(), self.code.encode())
        if not right:
            now = self.clock()
            self._from.setdefault(address, deque()).append(now)
            self._all.append(now)
        return right

    def _left(self, attempts: deque[float], allowed: int) -> float:
        return 0.0 if len(attempts) < allowed else attempts[-allowed] + WINDOW - self.clock()

    def _forget(self) -> None:
        """Drop attempts older than the window, and addresses without any."""
        begins = self.clock() - WINDOW
        for attempts in (self._all, *self._from.values()):
            while attempts and attempts[0] <= begins:
                attempts.popleft()
        self._from = {address: attempts for address, attempts in self._from.items() if attempts}
