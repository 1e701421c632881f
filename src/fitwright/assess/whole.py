"""Everything that follows from a job and a shop, computed once and only when asked for."""

from __future__ import annotations

from functools import cached_property

from fitwright.assess.following import Trued
from fitwright.checks import static_findings
from fitwright.checks.fit_chance import fit_chance_findings
from fitwright.checks.frame_findings import frame_findings
from fitwright.findings import Finding, Verdict, by_urgency
from fitwright.job.beside import Beside
from fitwright.job.model import Job
from fitwright.making.bending import bend_findings
from fitwright.place import space_findings
from fitwright.place.photo_wanted import photo_input_findings
from fitwright.pricing import price_findings
from fitwright.shop import Shop
from fitwright.shop.learning import Learnt
from fitwright.truing import truing_findings


class Assessment(Trued):
    """A job assessed in a shop; every property is computed on first use and kept.

    Raises what `build` raises (PieceError) on first use of anything that needs the piece.
    """

    @cached_property
    def all_findings(self) -> tuple[Finding, ...]:
        """The findings with those that take longer: whether it comes out right, how welding pulls it, the
        bench, the finish.

        A set-up that is made like another has that one's findings, and they are told once.
        """
        from fitwright.place.photo.judging import photo_findings

        chances = [] if self.builds is None else fit_chance_findings(self.builds, self.job.style)
        pulls = () if self.welding is None else self.welding.findings
        set_ups = [found for plan in self.bench if not plan.subassembly.same_as for found in plan.findings]
        prices = price_findings(self.cost, self.price, self.job)
        photos = photo_findings(self.photo, self.job.style)
        ways = self._way_findings()
        longer = [*chances, *pulls, *set_ups, *self.finishing.findings, *prices, *photos, *ways]
        return tuple(by_urgency([*self.findings, *longer]))

    def _way_findings(self) -> list[Finding]:
        if self.route is None:
            return []
        from fitwright.checks.carrying import carrying_findings
        from fitwright.checks.route import route_findings

        return [*route_findings(self.job, self.route), *carrying_findings(self.job, self.carries)]

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """Every finding that is quick to have, worst first."""
        found = [*space_findings(self.job, self.piece, self.fit), *static_findings(self.job, self.piece)]
        found += frame_findings(self.piece, self.job, self.framed, self.frame)
        for mark, sheet in self.bend_sheets.items():
            stock, tight = self.made[mark].stock, self.job.brief.rules.tight
            found += bend_findings(sheet, stock, self.shop, self.job.style, tight, self.learnt)
        found += self.timber_work.findings + tuple(photo_input_findings(self.job, self.beside))
        found += truing_findings(self.truing, self.job)
        return tuple(by_urgency([*self._unreached(), *found, *self._cutting_findings()]))

    def _unreached(self) -> list[Finding]:
        """That the shop's records are in none of the numbers, where they could not be asked."""
        if not self.unreached:
            return []
        advice = (
            f"{self.unreached}. Bends, cutting, hours and prices are reckoned without the shop's trials, rack and "
            "recorded times: reach the records and compute again before bending or buying"
        )
        return [Finding("shop", "records", "the shop's records", Verdict.NEEDS_INPUT, advice=advice)]


def assess(
    job: Job, shop: Shop, learnt: Learnt | None = None, beside: Beside | None = None, unreached: str = ""
) -> Assessment:
    """Everything there is to know about making this job in this shop, lazily.

    learnt: from the shop's records, None where nothing was recorded: then it is physics and defaults.
    beside: the job's folder, where its photo is looked for; None where there is none, and its marks alone speak.
    unreached: why the shop's records could not be asked; it is told first of all findings that lack something.
    """
    return Assessment(job, shop, learnt, beside, unreached=unreached)
