"""What the trades hand to the plan: their results in its plain words."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from fitwright.job.model import Job
from fitwright.making.bench import BenchPlan
from fitwright.making.bending import BendSheet
from fitwright.making.bending.turning import UNTURNED, turned
from fitwright.making.coping import CopeSheet, title_of
from fitwright.making.cutting import CutGroup
from fitwright.making.decking import decks_of, panel_title
from fitwright.making.finishing import Coat, Consumable, FinishWork
from fitwright.making.plan import (
    SET_IN,
    BendLine,
    Bent,
    CheckLine,
    CoatGiven,
    Coped,
    FinishGiven,
    Fitted,
    Given,
    Line,
    PanelsGiven,
    SawSetting,
    SetUp,
    TrimLine,
    Welded,
)
from fitwright.making.timber import TimberWork
from fitwright.making.welding import WeldPlan
from fitwright.piece.drawn import support
from fitwright.piece.model import Mark, Member, Piece
from fitwright.piece.sawn import one_cut
from fitwright.stock import Stock
from fitwright.units import INCH, Style

# more than this wants two people: load constant of the NIOSH lifting equation, publication 94-110 (from memory)
HEAVY_KG = 23.0
GALVANISED = ("galvan", "zinc")
WOOD = ("lumber", "board")
AXES = ("width", "depth", "height")
LITRES_A_QUART = 231.0 * INCH**3 / 4e6
FEET = ("foot", "caster")
PARALLEL = 0.99
NOT_IN_LINE_MM = 50.0


@dataclass(frozen=True, eq=False)
class Trades:
    """The results of the trades for one job; welding and bench are None where they are not worked out.

    blocks: for the bench, by stop setting. frame: width, depth, height of the members alone, without what is put on.
    trials: bends tried first, by die and stock.
    """

    piece: Piece
    job: Job
    bends: Mapping[str, BendSheet]
    made: Mapping[str, Member]
    marks: Sequence[Mark]
    groups: Sequence[CutGroup]
    stocks: Mapping[str, Stock]
    copes: Sequence[CopeSheet]
    welding: WeldPlan | None
    bench: Sequence[BenchPlan]
    timber: TimberWork
    finish: FinishWork
    blocks: Sequence[CutGroup] = ()
    frame: tuple[float, ...] = ()
    trials: Mapping[tuple[str, str], int] = field(default_factory=dict)


def given_of(trades: Trades, buy: Iterable[tuple[str, str, int]]) -> Given:
    """Everything that the plan is made of; buy: what, size in words, how many."""
    size = trades.piece.envelope.size
    return Given(
        buy=(*(Line(*one) for one in buy), *_tins(trades.finish, trades.job.style)),
        saw=tuple(_saw(trades)),
        blocks=tuple(SawSetting(g.stock, g.setting_mm, "square", g.marks, g.quantity, True) for g in trades.blocks),
        bent=tuple(_bent(trades)),
        coped=tuple(_coped(trades)),
        set_ups=tuple(_set_up(one, trades) for one in trades.bench),
        welded=_welded(trades.welding, trades.job.style),
        panels=tuple(_panels(trades)),
        decks=tuple(decks_of(trades.piece, trades.welding, trades.job.style)),
        finish=_finish(trades.finish, trades.job.style),
        fitted=tuple(_fitted(trades.piece)),
        true=frozenset(_true(trades)),
        care=trades.job.brief.rules.care,
        mass=trades.piece.mass,
        sizes=tuple((name, float(size[k])) for k, name in enumerate(AXES)),
        frame=tuple(zip(AXES, trades.frame, strict=False)),
        feet=sum(item.kind in FEET and item.placed for item in trades.piece.hardware),
        gaps=tuple(_gaps(trades.job)),
        trials=trades.trials,
    )


def _gaps(job: Job) -> Iterator[tuple[str, float | None]]:
    """The sides on which something stands beside the piece, and the gap wanted there."""
    clear = job.space.clear
    for side in ("left", "right", "behind", "above"):
        key = {"behind": "back", "above": "top"}.get(side, side)
        if key in clear or side in clear:
            yield side, clear.get(key, clear.get(side))


def _tins(finish: FinishWork, style: Style) -> Iterator[Line]:
    for product in finish.tins:
        for count, name, _ in product.tins:
            yield Line(product.product, name, count)
    for one in finish.consumables:
        what, count = used_up(one, style)
        yield Line(what, "", count)


def used_up(one: Consumable, style: Style) -> tuple[str, int]:
    """Something used up as the shop counts it: what, and how many; a fluid by its volume, once."""
    name, _, unit = one.what.partition(", ")
    return (f"{name}, {small_volume(one.count / 10, style)}", 1) if unit == "decilitres" else (one.what, one.count)


def _saw(trades: Trades) -> Iterator[SawSetting]:
    for group in trades.groups:
        timber = trades.stocks[group.stock].material.is_timber
        yield SawSetting(group.stock, group.setting_mm, group.ends_in_words(), group.marks, group.quantity, timber)


def _bent(trades: Trades) -> Iterator[Bent]:
    counts = {mark.mark: mark.quantity for mark in trades.marks}
    names = {mark.mark: mark.names for mark in trades.marks}
    for mark, sheet in trades.bends.items():
        part = trades.made[mark].part
        yield Bent(
            mark,
            part,
            sheet.stock,
            counts[mark],
            sheet.blank,
            tuple(_bend_lines(sheet, trades.job.style)),
            tuple(_trim_lines(sheet)),
            f"Bend sheet: {part}",
            names[mark],
            open_spread(trades.made[mark]),
        )


def _bend_lines(sheet: BendSheet, style: Style) -> Iterator[BendLine]:
    for s in sheet.steps:
        drawn = len(sheet.steps) + 1 - s.number if sheet.backwards else s.number
        turn = turned(s.turned, style)
        yield BendLine(s.number, s.mark, "" if turn == UNTURNED else turn, s.command_angle, s.angle, s.die, drawn)


def _trim_lines(sheet: BendSheet) -> Iterator[TrimLine]:
    for t in sheet.trims:
        leg = 1 if (t.end == "start") is not sheet.backwards else len(sheet.steps) + 1
        yield TrimLine(t.end, t.allowance, t.measured, t.place, leg)


def open_spread(member: Member) -> float | None:
    """Outside to outside between the two open ends of a bent member whose legs are parallel [mm]; else None."""
    path = member.path
    if path.closed or not path.bent:
        return None
    first, last = member.body.outward(0), member.body.outward(1)
    if abs(float(first @ last)) < PARALLEL:
        return None
    apart = member.body.point_at(1) - member.body.point_at(0)
    across = apart - (apart @ first) * first
    distance = float(np.linalg.norm(across))
    if distance < NOT_IN_LINE_MM:
        return None
    way = across / distance
    return distance + sum(support(member.stock.section, member.body.frame_at(end), way) for end in (0, 1))


def _coped(trades: Trades) -> Iterator[Coped]:
    for sheet in trades.copes:
        for use in sheet.uses:
            own = use.template
            sawn = one_cut(trades.made[own.mark], own.end)
            if sawn is not None and not sawn.compound and own.mark not in trades.bends:
                continue  # the saw has cut it
            yield Coped(own.mark, own.end_word, own.meets, use.quantity, title_of(sheet, trades.made))


def _set_up(one: BenchPlan, trades: Trades) -> SetUp:
    return SetUp(
        one.name,
        one.steps,
        tuple(_check_lines(one)),
        any(block.stock.startswith(WOOD) for block in one.blocks),
        one.subassembly.same_as,
        _tacks(one, trades),
        f"Bench: {one.name}",
    )


def _tacks(one: BenchPlan, trades: Trades) -> int:
    """How many tacks a set-up takes: those of its joints that no earlier one has tacked."""
    if trades.welding is None:
        return 0
    earlier = [set(plan.subassembly.members) for plan in trades.bench if plan.name in one.subassembly.of]
    groups = [set(one.subassembly.members), *earlier]
    held = [
        {w.number for w in trades.welding.welds if {w.bead.seam.first, w.bead.seam.second} <= own} for own in groups
    ]
    welds = held[0].difference(*held[1:])
    return sum(tack.weld in welds for tack in trades.welding.tacks)


def _check_lines(plan: BenchPlan) -> Iterator[CheckLine]:
    """The check numbers, with what the job file's readings call them."""
    diagonals = 0
    for check in plan.checks:
        diagonals += check.kind == "diagonal"
        words = {
            "diagonal": f"diagonal {diagonals}",
            "width": check.name.partition(",")[0],
            "height": "height above the bench",
        }
        yield CheckLine(check.name, check.length, check.tolerance, f"{words[check.kind]} of {plan.name}")


def _welded(plan: WeldPlan | None, style: Style) -> Welded | None:
    if plan is None or not plan.welds:
        return None
    alike = Counter(
        f"{weld.kind.value}, leg {style.fine().length(weld.leg)}, about {weld.current:.0f} A" for weld in plan.welds
    )
    return Welded(
        tuple(alike.items()), len(plan.tacks), len(plan.steps), plan.used.arc_time, _before(plan), plan.words,
        "Weld order",
    )  # fmt: skip


def _before(plan: WeldPlan) -> tuple[str, ...]:
    """What has to be done before the welds close what they close."""
    return tuple(one.words for one in plan.cautions if one.when == "closed")


def _panels(trades: Trades) -> Iterator[PanelsGiven]:
    for work in trades.timber.panels:
        panel = trades.piece.panels_by_part[work.part][0]
        joints = len(panel.boards) - 1 if work.kind == "solid" else 0
        screws = work.layout.count if work.layout else 0
        yield PanelsGiven(
            work.part,
            work.panels,
            len(panel.boards) * work.panels,
            joints * work.panels,
            screws * work.panels,
            work.layout.screw.label if work.layout else "",
            work.spacer.thickness if work.spacer else 0.0,
            work.order,
            panel_title(panel),
            tuple(
                (one.name, None) for one in trades.piece.panels if one.part == work.part and one.removable is not None
            ),
        )


def _finish(work: FinishWork, style: Style) -> FinishGiven:
    grinding, sanding = work.grinding, work.sanding
    return FinishGiven(
        flush=tuple((one.what, one.count, one.length) for one in grinding.flush) if grinding else (),
        flush_grits=grinding.flush_grits if grinding else (),
        metal_grits=grinding.all_grits if grinding else (),
        timber_grits=sanding.all_grits if sanding else (),
        metal=work.metal_m2,
        timber=work.timber_m2,
        cleaning=work.cleaning,
        coats=tuple(_coat(coat, style) for coat in work.coats),
        sent=work.sent_out.name if work.sent_out else "",
        sent_days=work.sent_out.out if work.sent_out else 0,
        dew=f"At {temperature(work.air.temperature, style)} and {work.air.humidity:.0f} % the steel must be warmer "
        f"than {temperature(work.dew_point + 3.0, style)}: the finish sheet has the table.",
        sheet="Finish",
    )


def temperature(celsius: float, style: Style) -> str:
    """A temperature as the shop reads it.

    >>> temperature(20.0, Style.inch()), temperature(20.0, Style.metric())
    ('68 °F', '20 °C')
    """
    degrees, unit = (celsius * 9 / 5 + 32, "°F") if style.unit == "inch" else (celsius, "°C")
    return f"{round(degrees)} {unit}"


def _coat(coat: Coat, style: Style) -> CoatGiven:
    return CoatGiven(
        coat.metal,
        coat.product.name,
        coat.product.role,
        coat.number,
        coat.area_m2,
        volume(coat.litres, style),
        film(coat.wet, style) if coat.wet is not None else "",
        coat.recoat,
        coat.handle,
        coat.hard,
        coat.product.rags,
    )


def volume(litres: float, style: Style) -> str:
    """A quantity of paint: quarts or litres.

    >>> volume(0.9463529, Style.inch()), volume(0.25, Style.metric())
    ('1.00 quart', '0.25 l')
    """
    return f"{litres / LITRES_A_QUART:.2f} quart" if style.unit == "inch" else f"{litres:.2f} l"


def small_volume(litres: float, style: Style) -> str:
    """What is used up of a fluid: fluid ounces, rounded up, or tenths of a litre.

    >>> small_volume(0.4, Style.inch()), small_volume(0.4, Style.metric())
    ('14 fl oz', '0.4 l')
    """
    return f"{math.ceil(litres / LITRES_A_QUART * 32 - 1e-9)} fl oz" if style.unit == "inch" else f"{litres:.1f} l"


def film(micron: float, style: Style) -> str:
    """A film: thousandths of an inch (mils) or micron.

    >>> film(25.4, Style.inch()), film(104.65, Style.metric())
    ('1.0 mils', '105 µm')
    """
    return f"{micron / INCH:.1f} mils" if style.unit == "inch" else f"{micron:.0f} µm"


def _fitted(piece: Piece) -> Iterator[Fitted]:
    """What is put on: inserts are set in the metal; without them the stems of feet and casters want a thread."""
    counted: dict[tuple[str, str], int] = {}
    for item in piece.hardware:
        counted[item.label, item.kind] = counted.get((item.label, item.kind), 0) + item.each
    threads = {item.label: str(item.properties.get("thread", "")) for item in piece.hardware}
    inserted = any(_is_insert(label, kind) for label, kind in counted)
    for (label, kind), count in counted.items():
        tapped = kind in ("foot", "caster") and threads[label] and not inserted
        needs = SET_IN if _is_insert(label, kind) else f"tap {threads[label]}" if tapped else ""
        yield Fitted(label, kind, count, needs)


def _is_insert(label: str, kind: str) -> bool:
    return kind == "fitting" and "insert" in label.lower()


def _true(trades: Trades) -> Iterator[str]:
    piece, job = trades.piece, trades.job
    if any(member.stock.material.kind == "stainless" for member in piece.members):
        yield "stainless"
    dipped = trades.finish.sent_out is not None and "galvan" in trades.finish.sent_out.name
    said = [m.stock.label for m in piece.members]  # zinc that is there before welding; a dip comes after
    said += [] if dipped else [*job.finish.values(), job.notes]
    if any(word in one.lower() for one in said for word in GALVANISED):
        yield "galvanised"
    if dipped:
        yield "dipped"
    if any(block.stock.startswith(WOOD) for plan in trades.bench for block in plan.blocks):
        yield "blocks"
    if any(coat.product.rags for coat in trades.finish.coats):
        yield "rags"
    if piece.mass > HEAVY_KG:
        yield "heavy"
    if sum(member.mass for member in piece.members) > HEAVY_KG:
        yield "heavy frame"
    if any(item.kind == "anchor" for item in piece.hardware):
        yield "anchored"


__all__ = ["Trades", "film", "given_of", "temperature", "volume"]
