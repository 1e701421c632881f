"""What each trade does with the parts: bends, copes, bench, timber, finish."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

from fitwright.assess.standing import Standing
from fitwright.making.bench import BenchPlan, GroupWish, bench_plans
from fitwright.making.bench.groups import Group, groups_of
from fitwright.making.bench.plan import Progress as BenchProgress
from fitwright.making.bending import BendSheet, bend_sheet_of
from fitwright.making.coping import CopeSheet, cope_sheets
from fitwright.making.finishing import FinishWork, finish_work
from fitwright.making.tape_tolerance import tape_tolerance
from fitwright.making.timber import TimberWork, timber_work
from fitwright.making.ways import own_air
from fitwright.mechanics.variation import (
    outcome_spreads,
)

PARTS_TO_JOIN = 2  # one part by itself needs no set-up
# where the base line of a template may stand: whole numbers of these are quickly measured [mm]
TEMPLATE_STEPS = {"inch": 25.4 / 8, "mm": 5.0, "cm": 5.0}


class Prepared(Standing):
    """The parts as each trade makes them."""

    @cached_property
    def bend_sheets(self) -> Mapping[str, BendSheet]:
        """The bend sheet of every distinct bent member, by mark."""
        return {
            mark: bend_sheet_of(member, mark, self.shop, self.job.style, self.learnt)
            for mark, member in self.made.items()
            if member.path.bent
        }

    @cached_property
    def cope_templates(self) -> tuple[CopeSheet, ...]:
        """Every distinct template for a coped or mitred end, with the ends it serves."""
        step = TEMPLATE_STEPS[self.job.style.unit]
        return cope_sheets(self.piece, self.made, self.member_marks, step)

    @cached_property
    def timber_work(self) -> TimberWork:
        """Screws, spacers, stops, movement and order of work of every panel, and spare boards."""
        return timber_work(self.piece, self.job, self.shop.working.boards.usable)

    @cached_property
    def finishing(self) -> FinishWork:
        """Areas, grinding, coats, tins, waits, and whether the air lets one paint."""
        return finish_work(self.piece, self.job, own_air(self.shop.working))

    @cached_property
    def set_ups(self) -> tuple[Group, ...]:
        """What is put together in one go on the bench, in order; quick, for it asks for no stops and no blocks."""
        return groups_of(self.piece, self._wishes) if len(self.piece.members) >= PARTS_TO_JOIN else ()

    @cached_property
    def bench(self) -> tuple[BenchPlan, ...]:
        """Every set-up on the bench, in order; none for a piece of one part. Seconds on a large piece."""
        return self._bench_plans(None)

    def set_up(self, progress: BenchProgress) -> tuple[BenchPlan, ...]:
        """`bench`, with each set-up told as it is begun; kept like any other property.

        progress: as `bench_plans` has it.
        """
        if "bench" not in self.__dict__:
            self.__dict__["bench"] = self._bench_plans(progress)
        return self.bench

    def _bench_plans(self, progress: BenchProgress | None) -> tuple[BenchPlan, ...]:
        if len(self.piece.members) < PARTS_TO_JOIN:
            return ()
        made = None if self.making is None else tape_tolerance(outcome_spreads(self.making.sensitivity))
        return bench_plans(self.piece, self.job, self.shop, self._wishes, progress, tolerance=made)

    @property
    def _wishes(self) -> list[GroupWish] | None:
        return [GroupWish(one.name, one.parts, one.up, one.flip) for one in self.job.subassemblies] or None
