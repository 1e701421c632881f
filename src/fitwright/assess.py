"""Everything that follows from a job and a shop, computed once and only when asked for."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from fitwright.checks import static_findings
from fitwright.checks.fit_chance import fit_chance_findings
from fitwright.checks.frame_findings import frame_findings, frame_results
from fitwright.checks.frame_results import FrameResults
from fitwright.findings import Finding, by_urgency
from fitwright.job.model import Job
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
from fitwright.making.welding import WeldPlan, weld_plan
from fitwright.mechanics import Mechanism
from fitwright.mechanics.framing import Framed, NotFramed, framed
from fitwright.mechanics.variation import (
    Making,
    Variation,
    VirtualBuilds,
    estimate,
    usual_limits,
    usual_making,
    variation,
)
from fitwright.piece import Member, Piece, build
from fitwright.piece.mesh import Mesh, meshes
from fitwright.piece.model import Mark
from fitwright.place import Fit, fit, space_findings
from fitwright.pricing import Bought, buying_list
from fitwright.shop import Shop
from fitwright.stock import Stock

PLAN_SECONDS = 10.0
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
        """Every piece for the saw, one entry a mark: members (bent ones as blanks), then boards but no sheets."""
        return (*(self._sawn_member(mark) for mark in self.member_marks), *self._sawn_boards())

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
        """The piece made many times over in a quick estimate: the chances of it coming out right."""
        return None if self.making is None else estimate(self.making)

    @cached_property
    def welding(self) -> WeldPlan | None:
        """Every weld, its order and how it pulls; the search for the order takes seconds on a large piece."""
        return None if self.framed is None else weld_plan(self.piece, self.job, self.framed, self.shop)

    @cached_property
    def all_findings(self) -> tuple[Finding, ...]:
        """The findings with those that take longer: whether it comes out right, and how welding pulls it."""
        chances = [] if self.builds is None else fit_chance_findings(self.builds, self.job.style)
        pulls = () if self.welding is None else self.welding.findings
        return tuple(by_urgency([*self.findings, *chances, *pulls]))

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """Every finding that is quick to have, worst first."""
        found = [*space_findings(self.job, self.piece, self.fit), *static_findings(self.job, self.piece)]
        found += frame_findings(self.piece, self.job, self.framed)
        for mark, sheet in self.bend_sheets.items():
            found += bend_findings(sheet, self.made[mark].stock, self.shop, self.job.style, self.job.brief.rules.tight)
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
