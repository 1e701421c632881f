"""The templates of a whole piece, those that are the same only once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from fitwright.making.coping.model import CopeSheet, Seam, Template, Use
from fitwright.making.coping.template import STEP_MM, has_template, template_of
from fitwright.piece.model import CutKind, Mark, Member, Piece

SAME_MM = 0.05
COMPARED = 400
METALS = frozenset({"steel", "stainless", "aluminium"})


def title_of(sheet: CopeSheet, made: Mapping[str, Member]) -> str:
    """What a template's sheet is called, and what a step that uses it points to."""
    template = sheet.template
    word = "Cope" if template.kind is CutKind.COPE else "Mitre"
    return f"{word} template: {made[template.mark].part}, {template.end_word}"


def cope_sheets(
    piece: Piece, made: Mapping[str, Member], marks: tuple[Mark, ...], step: float = STEP_MM
) -> tuple[CopeSheet, ...]:
    """A sheet for each distinct template of the metal members, with every end that it serves.

    made: one member for each mark; marks: how many of each; step: see `template_of`. Timber is left to the saw.
    """
    groups: list[list[Use]] = []
    for mark in marks:
        member = made[mark.mark]
        if member.stock.material.kind not in METALS:
            continue
        for end in (0, 1):
            if has_template(member, end):
                _sorted_in(groups, Use(template_of(member, end, piece, step), mark.quantity))
    return tuple(CopeSheet(group[0].template, tuple(group)) for group in groups)


def _sorted_in(groups: list[list[Use]], use: Use) -> None:
    for turned in (False, True):
        for group in groups:
            if same(group[0].template, use.template, turned):
                group.append(replace(use, turned=turned))
                return
    groups.append([use])


def same(first: Template, second: Template, turned: bool = False) -> bool:
    """Whether one piece of paper serves two ends: one stock, and all lines within 0.05 mm of one another.

    turned: with the paper half way round; only a round tube whose ends share a line can take it so.
    """
    labels = [[line.label for line in one.lines] for one in (first, second)]
    if first.stock != second.stock or first.side != second.side or labels[0] != labels[1]:
        return False
    if turned and not (first.seam is second.seam is Seam.SHARED and first.side is None):
        return False
    x = np.linspace(0.0, first.girth, COMPARED)
    there = (x + first.girth / 2) % first.girth if turned else x
    lines = ((first.square, second.square), (first.bevelled, second.bevelled))
    apart = max(float(np.abs(first.at(x, one) - second.at(there, other)).max()) for one, other in lines)
    folds = max((abs(a.at - b.at) for a, b in zip(first.lines, second.lines, strict=True)), default=0.0)
    return max(apart, folds) < SAME_MM
