"""Everything that follows from a job and a shop, computed once and only when asked for."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property

from fitwright.checks import static_findings
from fitwright.checks.fit_chance import fit_chance_findings
from fitwright.checks.frame_findings import frame_findings, frame_results
from fitwright.checks.frame_results import FrameResults
from fitwright.findings import Finding, by_urgency
from fitwright.job.model import Job
from fitwright.making.bench import BenchPlan, bench_plans
from fitwright.making.bench.plan import Progress as BenchProgress
from fitwright.making.bending import BendSheet, bend_findings, bend_sheet_of
from fitwright.making.coping import CopeSheet, cope_sheets
from fitwright.making.cutting import (
    Bar,
    Cut,
    CutGroup,
    CuttingPlan,
    SawnPiece,
    cut_list,
    longest_finding,
    plan_cuts,
    proof_finding,
    sleeve_finding,
    waste_finding,
)
from fitwright.making.finishing import FinishWork, finish_work
from fitwright.making.handing import Trades, given_of
from fitwright.making.plan import Schedule, Step, build_steps, schedule_of
from fitwright.making.timber import TimberWork, timber_work
from fitwright.making.welding import WeldPlan, weld_plan
from fitwright.mechanics import Mechanism
from fitwright.mechanics.framing import Framed, NotFramed, framed
from fitwright.mechanics.shrinkage import Progress as WeldProgress
from fitwright.mechanics.variation import (
    Making,
    Variation,
    VirtualBuilds,
    usual_limits,
    usual_making,
    variation,
    virtual_builds,
)
from fitwright.piece import Member, Piece, build
from fitwright.piece.mesh import Mesh, meshes
from fitwright.piece.model import Mark
from fitwright.place import Fit, fit, space_findings
from fitwright.pricing import Bought, buying_list
from fitwright.shop import Shop
from fitwright.stock import Stock

PLAN_SECONDS = 10.0
PARTS_TO_JOIN = 2  # one part by itself needs no set-up
SPARE = "spare"  # the mark of boards that are cut because of knots and end checks
# virtual builds behind findings and sheets: one standard error of a chance near 95 % is a tenth of a per cent
BUILDS = 50_000
# where the base line of a template may stand: whole numbers of these are quickly measured [mm]
TEMPLATE_STEPS = {"inch": 25.4 / 8, "mm": 5.0, "cm": 5.0}


@dataclass(frozen=True, eq=False)
class Assessment:
    """A job assessed in a shop; every property is computed on first use and kept.

    Raises what `build` raises (PieceError) on first use of anything that needs the piece.
    """

    job: Job
    shop: Shop

    @cached_property
    def piece(self) -> Piece:
        """The parts, placed and trimmed."""
        return build(self.job)

    @cached_property
    def fit(self) -> Fit | None:
        """The piece in its opening; None without a survey."""
        return fit(self.job, self.piece)

    @cached_property
    def meshes(self) -> tuple[Mesh, ...]:
        """Bodies for drawings and for the view in space."""
        return meshes(self.piece)

    @cached_property
    def made(self) -> Mapping[str, Member]:
        """One member for each mark, in order of the marks."""
        by_name = {member.name: member for member in self.piece.members}
        return {mark.mark: by_name[mark.names[0]] for mark in self.member_marks}

    @property
    def member_marks(self) -> tuple[Mark, ...]:
        """The marks of members."""
        return tuple(mark for mark in self.piece.marks if mark.kind == "member")

    @cached_property
    def bend_sheets(self) -> Mapping[str, BendSheet]:
        """The bend sheet of every distinct bent member, by mark."""
        return {
            mark: bend_sheet_of(member, mark, self.shop, self.job.style)
            for mark, member in self.made.items()
            if member.path.bent
        }

    @cached_property
    def cope_templates(self) -> tuple[CopeSheet, ...]:
        """Every distinct template for a coped or mitred end, with the ends it serves."""
        step = TEMPLATE_STEPS[self.job.style.unit]
        return cope_sheets(self.piece, self.made, self.member_marks, step)

    @cached_property
    def sawn(self) -> tuple[SawnPiece, ...]:
        """Every piece for the saw, one entry a mark: members (bent ones as blanks), boards but no sheets, spares."""
        spares = (SawnPiece(SPARE, one.stock, one.length, quantity=one.count) for one in self.timber_work.spares)
        return (*(self._sawn_member(mark) for mark in self.member_marks), *self._sawn_boards(), *spares)

    @cached_property
    def cut_groups(self) -> tuple[CutGroup, ...]:
        """The cut list by stop setting."""
        return cut_list(self.sawn)

    @cached_property
    def stocks(self) -> Mapping[str, Stock]:
        """The stock of every piece for the saw, by label."""
        members = {member.stock.label: member.stock for member in self.piece.members}
        boards = {
            board.stock.label: board.stock
            for panel in self.piece.panels
            for board in panel.boards
            if board.role != "sheet"
        }
        return {**members, **boards}

    @cached_property
    def cutting_plans(self) -> Mapping[str, CuttingPlan]:
        """The cheapest way to cut each stock, by label; a stock with a piece longer than every bar has none."""
        plans = {}
        for label, stock in self.stocks.items():
            if self._longest_fits(label):
                saw = self.shop.saw_for(stock)
                plans[label] = plan_cuts(self._cuts(label), self._bars(label), saw.kerf, saw.end_trim, PLAN_SECONDS)
        return plans

    @cached_property
    def buying(self) -> tuple[Bought, ...]:
        """What to buy."""
        piece = self.piece
        return buying_list(
            self.cutting_plans, self.stocks, piece.panels, piece.hardware, self.shop, self.job.style
        )  # fmt: skip

    @cached_property
    def timber_work(self) -> TimberWork:
        """Screws, spacers, stops, movement and order of work of every panel, and spare boards."""
        return timber_work(self.piece, self.job)

    @cached_property
    def finishing(self) -> FinishWork:
        """Areas, grinding, coats, tins, waits, and whether the air lets one paint."""
        return finish_work(self.piece, self.job)

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
        return variation(self.framed, self.job, making=making, limits=limits)

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
        return bench_plans(self.piece, self.job, self.shop, progress=progress)

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """The whole build in order, each step with its numbers, time and cautions; takes what bench and welds take."""
        trades = Trades(
            self.piece, self.job, self.bend_sheets, self.made, self.member_marks, self.cut_groups, self.stocks,
            self.cope_templates, self.welding, self.bench, self.timber_work, self.finishing,
        )  # fmt: skip
        bought = [(one.what, one.size, one.quantity) for one in self.buying]
        return build_steps(given_of(trades, bought), self.job.style)

    @cached_property
    def schedule(self) -> Schedule:
        """When each step is done by one person, in working days from the first, and the last day to begin on."""
        return self.scheduled()

    def scheduled(self, begin: date | None = None, people: int = 1) -> Schedule:
        """The schedule from a day on, weekends left out; in days without dates when none is given."""
        return schedule_of(self.steps, begin=begin, due=self.job.due, people=people)

    @cached_property
    def all_findings(self) -> tuple[Finding, ...]:
        """The findings with those that take longer: whether it comes out right, how welding pulls it, the
        bench, the finish.

        A set-up that is made like another has that one's findings, and they are told once.
        """
        chances = [] if self.builds is None else fit_chance_findings(self.builds, self.job.style)
        pulls = () if self.welding is None else self.welding.findings
        set_ups = [found for plan in self.bench if not plan.subassembly.same_as for found in plan.findings]
        return tuple(by_urgency([*self.findings, *chances, *pulls, *set_ups, *self.finishing.findings]))

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """Every finding that is quick to have, worst first."""
        found = [*space_findings(self.job, self.piece, self.fit), *static_findings(self.job, self.piece)]
        found += frame_findings(self.piece, self.job, self.framed)
        for mark, sheet in self.bend_sheets.items():
            found += bend_findings(sheet, self.made[mark].stock, self.shop, self.job.style, self.job.brief.rules.tight)
        found += self.timber_work.findings
        return tuple(by_urgency([*found, *self._cutting_findings()]))

    def _sawn_member(self, mark: Mark) -> SawnPiece:
        member, sheet = self.made[mark.mark], self.bend_sheets.get(mark.mark)
        label = member.stock.label
        if sheet is not None:
            return SawnPiece(mark.mark, label, sheet.blank, 0.0, 0.0, mark.quantity)
        start, finish = (math.degrees(cut.angle) for cut in member.ends)
        return SawnPiece(mark.mark, label, member.cut_length, start, finish, mark.quantity)

    def _sawn_boards(self) -> list[SawnPiece]:
        boards = {
            f"{panel.name} {board.role} {k + 1}": board
            for panel in self.piece.panels
            for k, board in enumerate(panel.boards)
            if board.role != "sheet"
        }
        return [
            SawnPiece(
                mark.mark, boards[mark.names[0]].stock.label, boards[mark.names[0]].length, quantity=mark.quantity
            )
            for mark in self.piece.marks
            if mark.kind == "board" and mark.names[0] in boards
        ]

    def _cuts(self, label: str) -> list[Cut]:
        return [Cut(piece.mark, piece.length_mm, piece.quantity) for piece in self.sawn if piece.stock == label]

    def _bars(self, label: str) -> list[Bar]:
        return [
            Bar(bar.label, bar.length, bar.price, bar.on_hand, bar.offcut)
            for bar in self.shop.bars_for(self.stocks[label])
        ]

    def _longest_fits(self, label: str) -> bool:
        room = max(bar.length for bar in self._bars(label)) - self.shop.saw_for(self.stocks[label]).end_trim
        return max(cut.length_mm for cut in self._cuts(label)) <= room

    def _cutting_findings(self) -> list[Finding]:
        found = []
        for label, stock in self.stocks.items():
            trim = self.shop.saw_for(stock).end_trim
            found.append(longest_finding(label, self._cuts(label), self._bars(label), trim, self.job.style))
        for label, plan in self.cutting_plans.items():
            found += [proof_finding(label, plan, self.shop.currency), waste_finding(label, plan, self.job.style)]
        sleeves = {
            (m.stock.label, self.piece.members[m.sleeve_of].stock.label): m
            for m in self.piece.members
            if m.sleeve_of is not None
        }
        for sleeve in sleeves.values():
            assert sleeve.sleeve_of is not None
            found.append(sleeve_finding(sleeve.stock, self.piece.members[sleeve.sleeve_of].stock))
        return found


def assess(job: Job, shop: Shop) -> Assessment:
    """Everything there is to know about making this job in this shop, lazily."""
    return Assessment(job, shop)
