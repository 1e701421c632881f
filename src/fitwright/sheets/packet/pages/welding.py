"""Welding: which weld where, in which order, and how far it pulls the piece."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from fitwright.assess import Assessment
from fitwright.making.welding import Weld, WeldPlan, WeldStep
from fitwright.mechanics.shrinkage import Movement, WeldKind
from fitwright.piece import Piece
from fitwright.sheets.drawing import Drawing
from fitwright.sheets.drawing.model import View
from fitwright.sheets.packet.cautioning import Caution
from fitwright.sheets.packet.model import Json, Page
from fitwright.sheets.packet.tables import ColumnTold, table
from fitwright.sheets.packet.weldmap import weld_map
from fitwright.sheets.wording import fine
from fitwright.units import INCH, Style

TITLE, ORDER_TITLE = "Welding", "Weld order"
ROOM = (180.0, 88.0)  # for a map, more where its numbers need it [mm]
A_NUMBER, OVER_NUMBERS = 8.0, 12.0  # that two numbers beside the map take of its height [mm]
MOST_ON_A_MAP = 40
# of the usual cautions, those that are wanted beside the arc
AT_THE_ARC = ("Fire watch", "Welding fume", "Hexavalent chromium", "Zinc fume", "Solvents and the arc", "Eyes and ears")
GAP_MM = 0.4  # less is not worth a word
ALL_ROUND = 0.98
LARGEST = 4
FEW, MANY, DOWN = 3, 4, 30  # runs beside one another, and below one another before a new block begins
SHORT = 8  # letters of a side that leave room for many
LITRES_A_CUBIC_FOOT = (12 * INCH / 100) ** 3


def welding_pages(assessment: Assessment, whole: Drawing, cautions: Sequence[Caution]) -> Iterator[Page]:
    """The weld map with sizes and movement, and the order to tick off; nothing for a piece without welds.

    cautions: all that the job needs; those about the arc are told here in full.
    """
    plan = assessment.welding
    if plan is None or not plan.welds:
        return
    isometric = next(view for view in whole.views if view.name == "isometric")
    yield _map_page(assessment, plan, maps_of(plan, isometric))
    yield _order_page(plan, assessment.job.style, [one for one in cautions if one.heading in AT_THE_ARC])


def maps_of(plan: WeldPlan, isometric: View) -> dict[str, Drawing]:
    """One map, or several where there are more welds than one has room to number."""
    count = -(-len(plan.map_points) // MOST_ON_A_MAP)
    each = -(-len(plan.map_points) // count)
    height = max(ROOM[1], A_NUMBER * (-(-each // 2)) + OVER_NUMBERS)
    return {
        f"map{k}": weld_map(plan.map_points[k * each : (k + 1) * each], isometric, (ROOM[0], height))
        for k in range(count)
    }


def _map_page(assessment: Assessment, plan: WeldPlan, maps: dict[str, Drawing]) -> Page:
    style = assessment.job.style
    content: Json = {
        "caption": "At each place the number of the weld, then its runs in the order of welding.",
        "maps": list(maps),
        "welds": welds_table(plan, assessment.piece, style),
        "movement": _movement(plan, style),
        "order": [f"{words[0].upper()}{words[1:]}." for words in plan.order_words],
        "limits": " ".join(plan.limits),
    }
    return Page("welding", TITLE, content, maps)


def _order_page(plan: WeldPlan, style: Style, cautions: Sequence[Caution]) -> Page:
    content: Json = {
        "tacks": list(tack_rounds(plan, style)),
        "runs": run_blocks(plan.steps),
        "used": _used(plan, style),
        "own": [_about(caution.words, caution.welds) for caution in plan.cautions],
        "cautions": [{"heading": one.heading, "text": one.text} for one in cautions],
    }
    return Page("weldorder", ORDER_TITLE, content)


def _about(words: str, welds: Sequence[int]) -> str:
    return f"{words} (Welds {in_words(welds)}.)" if welds else words


def welds_table(plan: WeldPlan, piece: Piece, style: Style) -> Json:
    """One line for all welds that are alike."""
    columns: list[ColumnTold] = [
        ("welds", "text", 0.7), ("joint", "mark", None), ("kind", "text", None), ("leg", "number", None),
        ("length", "number", None), ("tacks", "number", None), ("remark", "text", 2),
    ]  # fmt: skip
    alike: dict[tuple[str, ...], list[int]] = {}
    for weld in plan.welds:
        alike.setdefault(_told(weld, plan, piece, style), []).append(weld.number)
    return table(columns, [(in_words(numbers), *told) for told, numbers in alike.items()])


def _told(weld: Weld, plan: WeldPlan, piece: Piece, style: Style) -> tuple[str, ...]:
    tacks = sum(tack.weld == weld.number for tack in plan.tacks)
    marks = [piece.mark_of.get(name, name) for name in (weld.first, weld.second)]
    joint = " ".join(sorted(marks) if weld.kind is WeldKind.BUTT else marks)
    remark = "; ".join(_remarks(weld, style))
    leg = fine(style).length(weld.leg)
    return joint, weld.kind.value, leg, style.length(weld.length), str(tacks), remark


def _remarks(weld: Weld, style: Style) -> Iterator[str]:
    exact = fine(style)
    if weld.length < ALL_ROUND * weld.around:
        yield "only where they touch"
    if weld.gap > GAP_MM:
        yield f"gap of {exact.length(weld.gap)} on average to fill"
    if weld.kind is WeldKind.FILLET and weld.most > weld.leg:
        yield f"leg {exact.length(weld.most)} at most"
    yield f"about {weld.current:.0f} A, {weld.voltage:.0f} V"


def in_words(numbers: Sequence[int]) -> str:
    """Numbers, those that follow one another as a range.

    >>> in_words([1, 2, 3, 5, 8, 9])
    '1 to 3, 5, 8, 9'
    """
    said = []
    for _, group in groupby(enumerate(sorted(numbers)), key=lambda pair: pair[1] - pair[0]):
        run = [number for _, number in group]
        said += [f"{run[0]} to {run[-1]}"] if len(run) > 2 else [str(number) for number in run]
    return ", ".join(said)


def _movement(plan: WeldPlan, style: Style) -> Json:
    """The largest movements in the order proposed, beside what the order of the list makes of them."""
    columns: list[ColumnTold] = [
        ("once the clamps are off", "text", 2.6), ("joint by joint, as listed", "text", 1.6),
        ("in the order proposed", "text", 1.6),
    ]  # fmt: skip
    rows = []
    for group in plan.pull.groups:
        listed = {_of(movement): movement for movement in group.listed.movements}
        for movement in group.proposed.largest(LARGEST):
            told = listed.get(_of(movement))
            rows.append((movement.measure.subject, "" if told is None else without_subject(told, style),
                         without_subject(movement, style)))  # fmt: skip
    return table(columns, rows)


def _of(movement: Movement) -> tuple[str, str, str]:
    return movement.measure.kind, movement.measure.subject, movement.measure.more


def without_subject(movement: Movement, style: Style) -> str:
    """What a measure does, in words."""
    return movement.words(style).removeprefix(movement.measure.subject).strip()


def _used(plan: WeldPlan, style: Style) -> str:
    """Filler, gas and time."""
    used = plan.used
    gas = f"{used.gas / LITRES_A_CUBIC_FOOT:.1f} cubic feet" if style.unit == "inch" else f"{used.gas:.0f} litres"
    minutes, seconds = divmod(round(used.arc_time), 60)
    return (
        f"It takes about {style.weight(used.filler)} of filler, {gas} of gas and {minutes} min {seconds:02d} s with "
        "the arc burning; tacks and what is wasted come on top."
    )


def tack_rounds(plan: WeldPlan, style: Style) -> Iterator[Json]:
    """Tacks in order, one on every joint before any has two: the weld of each, and the side it is on."""
    rounds: list[list[str]] = []
    had: dict[int, int] = {}
    for tack in plan.tacks:
        turn = had.get(tack.weld, 0)
        had[tack.weld] = turn + 1
        if turn == len(rounds):
            rounds.append([])
        rounds[turn].append(f"{tack.weld}\u00a0{_side(tack.side)}")
    length = fine(style).length(max(tack.length for tack in plan.tacks)) if plan.tacks else ""
    for number, said in enumerate(rounds, 1):
        yield {"head": f"Round {number}, each {length} long" if number == 1 else f"Round {number}", "said": said}


def _side(side: str) -> str:
    return side.removesuffix(" side").replace(" ", "\u00a0")


def run_blocks(steps: Sequence[WeldStep]) -> Json:
    """Runs to tick off: how many stand beside one another, and blocks whose cells are read down each column.

    Each cell has the number, weld and side of a run.
    """
    across = MANY if max((len(_side(step.side)) for step in steps), default=0) <= SHORT else FEW
    blocks = []
    for start in range(0, len(steps), across * DOWN):
        some = steps[start : start + across * DOWN]
        rows = -(-len(some) // across)
        cells = [some[column * rows + row : column * rows + row + 1] for row in range(rows) for column in range(across)]
        blocks.append([_run(cell[0]) if cell else None for cell in cells])
    return {"across": across, "blocks": blocks}


def _run(run: WeldStep) -> list[str]:
    return [str(run.number), f"weld {run.weld}", _side(run.side)]
