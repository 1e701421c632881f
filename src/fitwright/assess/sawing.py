"""What is cut from what."""

from __future__ import annotations

import math
from collections.abc import Mapping
from functools import cached_property

from fitwright.assess.preparing import Prepared
from fitwright.findings import Finding
from fitwright.making.bench import blocks_to_cut
from fitwright.making.blocks_sawn import DROP, BlocksSawn, blocks_sawn
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
    turn_finding,
    waste_finding,
)
from fitwright.making.cutting.taking import bars_used
from fitwright.making.ways import end_trim
from fitwright.piece.model import Mark, Member
from fitwright.piece.sawn import leaning_alike, one_cut
from fitwright.shop.records.rack import BarUsed
from fitwright.stock import Stock

PLAN_SECONDS = 10.0
SPARE = "spare"  # the mark of boards that are cut because of knots and end checks


def swing(member: Member, end: int) -> float:
    """How far the saw is swung from square for an end of a straight member [rad].

    None at all where the saw only cuts to length and the end is then cut to its template; timber has no templates.
    """
    cut = one_cut(member, end)
    to_template = cut is None or cut.compound
    return 0.0 if to_template and not member.stock.material.is_timber else member.ends[end].angle


class Sawn(Prepared):
    """Everything for the saw: pieces, plans, blocks, bars."""

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
                trim = self._end_trim(label)
                plans[label] = plan_cuts(self._cuts(label), self._bars(label), saw.kerf, trim, PLAN_SECONDS)
        return plans

    @cached_property
    def blocks(self) -> BlocksSawn:
        """How the blocks for the bench are cut, from what the parts leave over first; takes what the bench takes."""
        trims = {label: self._end_trim(label) for label in self.stocks}
        return blocks_sawn(blocks_to_cut(self.bench), self.cutting_plans, trims, self.shop)

    @cached_property
    def bars_used(self) -> tuple[BarUsed, ...]:
        """Every bar that parts and blocks are cut from, with what is left of it; takes what the bench takes."""
        heats = self.learnt.heats if self.learnt else {}
        return bars_used(self.cutting_plans, self.blocks.plans, heats, DROP)

    def _sawn_member(self, mark: Mark) -> SawnPiece:
        member, sheet = self.made[mark.mark], self.bend_sheets.get(mark.mark)
        label = member.stock.label
        if sheet is not None:
            return SawnPiece(mark.mark, label, sheet.blank, 0.0, 0.0, mark.quantity)
        start, finish = (math.degrees(swing(member, end)) for end in (0, 1))
        finish *= -1 if start and leaning_alike(member) else 1
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

    def _end_trim(self, label: str) -> float:
        stock, working = self.stocks[label], self.shop.working
        return end_trim(self.shop.saw_for(stock), working, timber=stock.material.is_timber)

    def _longest_fits(self, label: str) -> bool:
        room = max(bar.length for bar in self._bars(label)) - self._end_trim(label)
        return max(cut.length_mm for cut in self._cuts(label)) <= room

    def _cutting_findings(self) -> list[Finding]:
        found = []
        for label, stock in self.stocks.items():
            trim = self._end_trim(label)
            found.append(longest_finding(label, self._cuts(label), self._bars(label), trim, self.job.style))
            cut = [piece for piece in self.sawn if piece.stock == label]
            found += turn_finding(label, cut, math.degrees(self.shop.saw_for(stock).turns_to))
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
