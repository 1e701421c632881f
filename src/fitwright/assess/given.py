"""What an assessment is made of."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.job.beside import Beside
from fitwright.job.model import Job
from fitwright.piece.as_made import Moves
from fitwright.shop import Shop
from fitwright.shop.learning import Learnt

NO_MOVES = Moves()


@dataclass(frozen=True, eq=False)
class Given:
    """A job with the shop that makes it, and what lies beside them.

    unreached: why the shop's records could not be asked, so that nothing of them is in the numbers; empty as a rule.
    """

    job: Job
    shop: Shop
    learnt: Learnt | None = None
    beside: Beside | None = None
    moves: Moves = NO_MOVES
    unreached: str = ""
