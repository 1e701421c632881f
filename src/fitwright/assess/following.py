"""What follows from the readings."""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property
from typing import Self

from fitwright.assess.planning import Planned
from fitwright.piece.as_made import Moves
from fitwright.truing import (
    Changed,
    Command,
    Truing,
    before_joining,
    changes,
    numbers_of,
    set_anew,
    truing,
)


class Trued(Planned):
    """The job after what was read on the real parts."""

    @cached_property
    def truing(self) -> Truing | None:
        """What follows from the readings; None without any, and for a piece that is no frame."""
        base = self.built_on
        if not self.job.readings or base.making is None:
            return None
        return truing(base.making, self.job, base.set_ups, base.bend_sheets)

    @cached_property
    def built_on(self) -> Self:
        """The job as what is joined by now was built: around the loose parts as they were read; itself till then."""
        loose = before_joining(self.job, self.piece)
        if loose is None or self.making is None:
            return self
        first = truing(self.making, loose, self.set_ups, self.bend_sheets)
        return self._with_moves(first.moves, first.commands) if first.moved else self

    @cached_property
    def trued(self) -> Self:
        """The job with what is not made yet as it follows from the readings; itself where nothing does."""
        if self.truing is None or not (self.truing.moved or self.truing.commands):
            return self.built_on
        return self.built_on._with_moves(self.truing.moves, self.truing.commands)

    def _with_moves(self, moves: Moves, commands: tuple[Command, ...]) -> Self:
        new = replace(self, job=replace(self.job, readings=()), moves=self.moves.plus(moves))
        new.__dict__["bend_sheets"] = set_anew(new.bend_sheets, commands)
        return new

    @cached_property
    def changes(self) -> tuple[Changed, ...]:
        """Numbers of what is not made yet that change, old and new; takes what the bench plans take, twice."""
        if self.truing is None:
            return ()
        old, new = (numbers_of(one.piece, one.bend_sheets, one.bench) for one in (self, self.trued))
        return changes(old, new, self.truing, self.piece, self.set_ups)
