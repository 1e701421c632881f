"""Cutting sheets: for each stock the stop settings, then the bars to cut them from."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from itertools import groupby

from fitwright.assess import Assessment
from fitwright.making.cutting import KEPT, CutGroup, CuttingPlan, PlannedBar, PlannedCut
from fitwright.sheets.drawing import BarRow, Drawing, bars_drawing
from fitwright.sheets.packet.model import Json, Page
from fitwright.sheets.packet.pictures import texts_fit, without_texts_beside
from fitwright.sheets.packet.tables import ColumnTold, table
from fitwright.sheets.wording import fine
from fitwright.units import Style

WIDTH = 180.0  # of the bars on paper [mm]
BLOCKS = "Blocks for the bench"
FROM_DROPS = "From what the parts leave over: nothing has to be bought for them."
TOO_LITTLE = "What the parts leave over does not reach: the rest is on the buying list."
NO_PLAN = "No bar is long enough for the longest piece, so there is no plan: see the findings."
Numbered = tuple[int, CutGroup]
BOXES_A_LINE = 10
HALF_A_PAGE = 90.0  # what is left of it by headings and words [mm]


def cutting_pages(assessment: Assessment) -> Iterator[Page]:
    """One page for each stock that is sawn, in the order of the cut list."""
    groups: dict[str, list[Numbered]] = defaultdict(list)
    for number, group in enumerate(assessment.cut_groups, 1):
        groups[group.stock].append((number, group))
    for number, (label, numbered) in enumerate(groups.items()):
        yield _page(assessment, label, numbered, first=number == 0)
    yield from _blocks_pages(assessment, len(assessment.cut_groups))


def _blocks_pages(assessment: Assessment, before: int) -> Iterator[Page]:
    """The blocks for the bench, stock by stock; their settings are numbered on from those of the parts."""
    blocks, style = assessment.blocks, assessment.job.style
    for place, (label, stock) in enumerate(blocks.stocks.items()):
        numbered = [(before + n, group) for n, group in enumerate(blocks.groups, 1) if group.stock == label]
        saw, plan = assessment.shop.saw_for(stock), blocks.plans.get(label)
        content: Json = {
            "saw": f"kerf {fine(style).length(saw.kerf)}",
            "how": f"From {label}. {_how(saw.name, saw.longest_stop, style)}",
            "settings": _settings(numbered, saw.longest_stop, style.fine()),
            "plan": [NO_PLAN if plan is None else TOO_LITTLE if plan.buy else FROM_DROPS],
            "bars": [],
        }
        pictures: dict[str, Drawing] = {}
        if plan is not None:
            pictures, content["bars"] = _bars(plan, style)
        title = BLOCKS if place == 0 else f"{BLOCKS}: {label}"  # the step names the first
        yield Page("cutting", title, content, pictures, joins=_short(numbered, pictures))


def _short(numbered: Sequence[Numbered], bars: Mapping[str, Drawing]) -> bool:
    """Whether half a page holds it."""
    lines = sum(1 + group.quantity // BOXES_A_LINE for _, group in numbered)
    return 8.0 * lines + sum(bar.paper.height for bar in bars.values()) < HALF_A_PAGE


def _page(assessment: Assessment, label: str, numbered: Sequence[Numbered], first: bool) -> Page:
    style = assessment.job.style
    saw = assessment.shop.saw_for(assessment.stocks[label])
    content: Json = {
        "saw": f"kerf {fine(style).length(saw.kerf)}",
        "how": _how(saw.name, saw.longest_stop, style),
        "settings": _settings(numbered, saw.longest_stop, style),
    }
    pictures: dict[str, Drawing] = {}
    content.update(plan=[NO_PLAN], bars=[])
    plan = assessment.cutting_plans.get(label)
    if plan is not None:
        pictures, content["bars"] = _bars(plan, style)
        content["plan"] = list(_plan_in_words(plan, assessment.shop.currency, style))
    return Page("cutting", f"Cutting: {label}", content, pictures, joins=_short(numbered, pictures) and not first)


def _how(saw: str, longest_stop: float | None, style: Style) -> str:
    reach = "" if longest_stop is None else f", its stop reaches {style.length(longest_stop)}"
    return (
        f"On the {saw}{reach}. Longest first: set the stop once for each line, cut all of it, "
        "tick each piece and write its mark on it."
    )


def _settings(numbered: Sequence[Numbered], reach: float | None, style: Style) -> Json:
    columns: list[ColumnTold] = [
        ("no.", "text", None), ("stop at", "number", None), ("ends", "text", 3.4), ("mark", "mark", 2),
        ("cut", "number", None), ("done", "boxes", 5),
    ]  # fmt: skip
    rows = [
        (
            str(number),
            style.length(group.setting_mm),
            _told(group, reach),
            " ".join(group.marks),
            str(group.quantity),
            group.quantity,
        )
        for number, group in numbered
    ]
    return table(columns, rows)


def _told(group: CutGroup, reach: float | None) -> str | tuple[str, str]:
    """The ends, and that a length is beyond the stop."""
    ends = group.ends_in_words(both="both")
    return ends if reach is None or group.setting_mm <= reach else (ends, "beyond the stop: measure")


def _bars(plan: CuttingPlan, style: Style) -> tuple[dict[str, Drawing], list[Json]]:
    """Each way of cutting a bar as a picture, all to one scale, with how often it is cut.

    Where the texts beside short cuts have no room, the cuts are told in words instead.
    """
    longest = max(bar.bar.length for bar in plan.bars)
    pictures: dict[str, Drawing] = {}
    told: list[Json] = []
    for alike, run in groupby(plan.bars, key=lambda bar: (bar.bar, bar.cuts)):
        bars = list(run)
        name = f"bar-{len(told) + 1}"
        drawing = bars_drawing([_row(bars[0])], style, WIDTH * alike[0].length / longest)
        fits = texts_fit(drawing)
        pictures[name] = drawing if fits else without_texts_beside(drawing)
        words = None if fits else _in_words(bars[0], style)
        told.append({"picture": name, "label": _named(bars, style), "bars": len(bars), "cuts": words})
    return pictures, told


def _in_words(bar: PlannedBar, style: Style) -> str:
    runs = [(cut, len(list(run))) for cut, run in groupby(bar.cuts)]
    told = [f"{count} × {_cut(cut, style)}" if count > 1 else _cut(cut, style) for cut, count in runs]
    return f"In this order: {', '.join(told)}."


def _cut(cut: PlannedCut, style: Style) -> str:
    return f"{cut.mark} {style.bare(cut.length_mm)}"


def _plan_in_words(plan: CuttingPlan, currency: str, style: Style) -> Iterator[str]:
    cost, bound = plan.cost, plan.bound
    if plan.proven:
        yield f"Bars for {cost:.2f} {currency}: proven to be the least cost."
    else:
        over = (cost - bound) / bound * 100 if bound else Decimal(0)
        yield f"Bars for {cost:.2f} {currency}; no plan costs less than {bound:.2f}: at most {over:.1f} % too much."
    yield (
        f"Left over, hatched: {100 * plan.waste_fraction:.1f} % of all bars, bought or from the rack. "
        f"What is left from {style.length(KEPT)} on goes back on the rack."
    )


def _named(bars: Sequence[PlannedBar], style: Style) -> str:
    where = ("offcut" if bars[0].bar.offcut else "bar") + ("s" if len(bars) > 1 else "")
    return f"{len(bars)} {where} of {style.length(bars[0].bar.length)}"


def _row(bar: PlannedBar) -> BarRow:
    """Without its label, which the page writes: a short bar has no room for it."""
    return BarRow("", bar.bar.length, tuple((cut.mark, cut.length_mm) for cut in bar.cuts), bar.remnant)
