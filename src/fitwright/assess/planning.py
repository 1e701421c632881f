"""What to buy, what to do on which day, and what it costs."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from functools import cached_property

import numpy as np

from fitwright.assess.sawing import Sawn
from fitwright.making.bending.trialled import trials_asked
from fitwright.making.blocks_sawn import with_more
from fitwright.making.handing import Trades, given_of
from fitwright.making.plan import Rate, Schedule, Step, build_steps, schedule_of
from fitwright.making.plan.recorded import recorded_rates
from fitwright.making.ways import own_hours, own_rates
from fitwright.pricing import Bought, Cost, Price, Worked, buying_list, cost_of, own_margin, price_at


class Planned(Sawn):
    """Buying, steps, days and money."""

    @cached_property
    def buying(self) -> tuple[Bought, ...]:
        """What to buy."""
        piece, blocks = self.piece, self.blocks
        plans = with_more(self.cutting_plans, blocks.bought)
        stocks = {**blocks.stocks, **self.stocks}
        return buying_list(plans, stocks, piece.panels, piece.hardware, self.shop, self.job.style)

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """The whole build in order, each step with its numbers, time and cautions; takes what bench and welds take."""
        own = own_rates(self.shop.working)
        return self._steps_at(own if self.learnt is None else recorded_rates(self.learnt.hours, own))

    @cached_property
    def usual_steps(self) -> tuple[Step, ...]:
        """The steps with the times of the table and the shop file, whatever hours were recorded since."""
        return self.steps if self.learnt is None else self._steps_at(own_rates(self.shop.working))

    def _steps_at(self, rates: Mapping[str, Rate]) -> tuple[Step, ...]:
        trades = Trades(
            self.piece, self.job, self.bend_sheets, self.made, self.member_marks, self.cut_groups, self.stocks,
            self.cope_templates, self.welding, self.bench, self.timber_work, self.finishing, self.blocks.groups,
            self._frame_size(), self._trials(),
        )  # fmt: skip
        bought = [(one.what, one.size, one.quantity) for one in self.buying]
        return build_steps(given_of(trades, bought), self.job.style, rates)

    def _trials(self) -> Mapping[tuple[str, str], int]:
        """How many bends are tried first, by die and stock."""
        counts = {mark.mark: mark.quantity for mark in self.member_marks}
        bent = [
            (step.die or "", self.stocks[sheet.stock], counts[mark])
            for mark, sheet in self.bend_sheets.items()
            for step in sheet.steps
        ]
        return trials_asked(bent, self.shop.dies, self.learnt)

    def _frame_size(self) -> tuple[float, ...]:
        """Width, depth and height of the members alone [mm]."""
        points = [mesh.vertices for mesh in self.meshes if mesh.kind == "member"]
        return tuple(float(size) for size in np.ptp(np.concatenate(points), axis=0)) if points else ()

    @cached_property
    def schedule(self) -> Schedule:
        """When each step is done by those who work in the shop, in days from the first, and the last to begin on."""
        return self.scheduled()

    def scheduled(self, begin: date | None = None, people: int | None = None) -> Schedule:
        """The schedule from a day on, days off left out; in days without dates when none is given."""
        working = self.shop.working
        return schedule_of(
            self.steps, hours=own_hours(working), begin=begin, due=self.job.due, people=people or working.people
        )

    @cached_property
    def cost(self) -> Cost:
        """What it costs the shop, line by line; takes what steps and virtual builds take."""
        steel = sum(m.mass for m in self.piece.members if not m.stock.material.is_timber)
        plans = with_more(self.cutting_plans, self.blocks.plans)
        worked = Worked(plans, {**self.blocks.stocks, **self.stocks}, self.buying, self.welding, self.finishing,
                        self.steps, self.builds, steel, self.learnt)  # fmt: skip
        return cost_of(worked, self.job, self.shop)

    @cached_property
    def price(self) -> Price:
        """What the client pays, at the job's own margin or the shop's."""
        return price_at(self.cost.total, own_margin(self.job, self.shop), self.shop.prices.pricing)
