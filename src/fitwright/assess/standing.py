"""The piece as a frame: how it stands, how it comes out, how welding pulls it."""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property

from fitwright.assess.shaping import Shaped
from fitwright.checks.frame_findings import frame_results
from fitwright.checks.frame_results import FrameResults
from fitwright.making.welding import WeldPlan, weld_plan
from fitwright.mechanics import Mechanism
from fitwright.mechanics.framing import Framed, NotFramed, framed
from fitwright.mechanics.shrinkage import Progress as WeldProgress
from fitwright.mechanics.variation import (
    Making,
    Variation,
    VirtualBuilds,
    spreads_of_shop,
    usual_limits,
    usual_making,
    variation,
    virtual_builds,
    with_spreads,
)

# virtual builds behind findings and sheets: one standard error of a chance near 95 % is a tenth of a per cent
BUILDS = 50_000


class Standing(Shaped):
    """The piece as a frame."""

    @cached_property
    def framed(self) -> Framed | None:
        """The piece as a frame; None for one that floats or has no members, which a finding then says."""
        try:
            return framed(self.piece, self.job)
        except NotFramed:
            return None

    @cached_property
    def frame(self) -> FrameResults | None:
        """Every load case on the frame; None for a piece that is no frame or moves without resistance."""
        if self.framed is None:
            return None
        try:
            return frame_results(self.piece, self.job, self.framed)
        except Mechanism:
            return None

    @cached_property
    def making(self) -> Variation | None:
        """How the shop's errors move what matters, with the care that the job asks for."""
        if self.framed is None or self.frame is None:
            return None
        care = {name.replace(" ", "_"): True for name in self.job.brief.rules.care}
        reach = max((saw.longest_stop or 0.0 for saw in self.shop.saws if saw.cuts == "metal"), default=0.0)
        making: Making = replace(usual_making(self.framed, reach), **care)
        rules = self.job.brief.rules
        limits = replace(usual_limits(self.job.style.unit == "inch"), chance=rules.chance)
        limits = limits if rules.rock is None else replace(limits, rock=rules.rock)
        spreads = with_spreads(self.shop.working.spreads)
        spreads = spreads if self.learnt is None else spreads_of_shop(self.learnt, spreads)
        return variation(self.framed, self.job, spreads=spreads, making=making, limits=limits)

    @cached_property
    def builds(self) -> VirtualBuilds | None:
        """The piece made many times over: the chances of it coming out right, and what to do differently."""
        return None if self.making is None else virtual_builds(self.making, BUILDS)

    @cached_property
    def welding(self) -> WeldPlan | None:
        """Every weld, its order and how it pulls; the search for the order takes seconds on a large piece."""
        return self._weld_plan(None)

    def weld(self, progress: WeldProgress) -> WeldPlan | None:
        """`welding`, with the search for the order telling how far it is; kept like any other property.

        progress: as `weld_plan` has it; returns False to stop the search with the best order so far.
        """
        if "welding" not in self.__dict__:
            self.__dict__["welding"] = self._weld_plan(progress)
        return self.welding

    def _weld_plan(self, progress: WeldProgress | None) -> WeldPlan | None:
        if self.framed is None:
            return None
        return weld_plan(self.piece, self.job, self.framed, self.shop, progress)
