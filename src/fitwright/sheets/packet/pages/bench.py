"""Bench sheets: one for each set-up, and before them the set-ups in order with the blocks that all of them need."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence

from fitwright.assess import Assessment
from fitwright.findings import Verdict
from fitwright.making.bench import BenchPlan, Block, Check, Clamp, Spacer, Stop, blocks_to_cut
from fitwright.sheets.bench_drawing import bench_drawing
from fitwright.sheets.packet.model import Json, Page
from fitwright.sheets.packet.pages.cover import urgent_table
from fitwright.sheets.packet.tables import ColumnTold, table
from fitwright.sheets.wording import fine
from fitwright.units import Style

ROOM = (178.0, 122.0)  # for the drawing [mm]
OFF = "off "  # a block that bears off another part stands in no hole
SQUARE_MM = 0.1  # two diagonals this equal are told to be equal

Step = Callable[[str], None]


def bench_pages(assessment: Assessment, step: Step) -> Iterator[Page]:
    """A sheet for every set-up, in order; step: told the name of each as its drawing is begun."""
    plans, style = assessment.bench, assessment.job.style
    if len(plans) > 1:
        yield _order_page(plans, style)
    for number, plan in enumerate(plans, 1):
        of = f"set-up {number} of {len(plans)}"
        if plan.subassembly.same_as:
            yield _matched_page(plan, of, style)
        else:
            step(plan.name)
            yield _page(plan, of, style)


def _order_page(plans: Sequence[BenchPlan], style: Style) -> Page:
    """Which set-up comes after which, and the blocks, cut once for all of them."""
    columns: list[ColumnTold] = [
        ("", "mark", None), ("set-up", "text", 2), ("takes what was made before", "text", 3), ("done", "boxes", None),
    ]  # fmt: skip
    rows = [(str(number), plan.name, _taken(plan), 1) for number, plan in enumerate(plans, 1)]
    tables = [table(columns, rows)]
    blocks = blocks_to_cut(plans)
    if blocks:
        notes = ["Cut them once and write the letter on each: set-ups use the same blocks again."]
        tables.append({**blocks_table(blocks, style), "title": "Blocks to cut", "notes": notes})
    else:
        tables[0]["notes"] = ["No set-up needs a block: everything bears on pins and stops."]
    return Page("listing", "Bench set-ups", {"tables": tables})


def _taken(plan: BenchPlan) -> str:
    one = plan.subassembly
    return f"made like “{one.same_as}”" if one.same_as else _listed(one.of)


def _page(plan: BenchPlan, of: str, style: Style) -> Page:
    urgent = [found for found in plan.findings if found.verdict is not Verdict.HOLDS]
    content: Json = {
        "of": of,
        "told": _told(plan),
        "tables": list(_tables(plan, style)),
        "steps": list(plan.steps),
        "checks": checks_table(plan.checks, style),
        "reading": _reading(plan.checks),
        "findings": urgent_table(urgent, style) if urgent else None,
    }
    return Page("bench", f"Bench: {plan.name}", content, {"bench": bench_drawing(plan, style, ROOM)})


def _matched_page(plan: BenchPlan, of: str, style: Style) -> Page:
    """The second of two equal ones: what stands on the first one's sheet is not told again."""
    first = plan.subassembly.same_as
    content: Json = {
        "of": of,
        "told": f"Set up once, matched on the first. Drawing, stops and blocks are on the sheet “Bench: {first}”.",
        "tables": [],
        "steps": list(plan.steps),
        "checks": checks_table(plan.checks, style),
        "reading": _reading(plan.checks),
        "findings": None,
    }
    return Page("bench", f"Bench: {plan.name}", content, joins=True)


def _told(plan: BenchPlan) -> str:
    """How it lies, where one counts from, and what it takes from before."""
    counted = "holes" if plan.holes else "lengths"
    one = plan.subassembly
    taken = f" It takes {_listed(one.of)}, made before." if one.of else ""
    up = one.up_words.removesuffix(" up")
    return (
        f"The {up} of the piece faces up, on the {plan.bench}. Count {counted} from the bench's {plan.corner} corner. "
        f"Left, right, front and back are the bench's, as you stand before it.{taken}"
    )


def _listed(names: Sequence[str]) -> str:
    """Names that may have commas of their own.

    >>> _listed(["top", "side, 1", "side, 2"])
    '“top”, “side, 1” and “side, 2”'
    """
    told = [f"“{name}”" for name in names]
    return "".join(told) if len(told) < 2 else f"{', '.join(told[:-1])} and {told[-1]}"


def _tables(plan: BenchPlan, style: Style) -> Iterator[Json]:
    """Stops, blocks, spacers and clamps, those that there are."""
    if plan.stops:
        yield {**_stops(plan.stops, style), "title": "Stops"}
    if plan.blocks:
        yield {**blocks_table(plan.blocks, style), "title": "Blocks"}
    if plan.spacers:
        yield {**_spacers(plan.spacers, style), "title": "What stands, and what sets it along"}
    if plan.clamps:
        yield {**_clamps(plan.clamps), "title": "Clamps"}


def _stops(stops: Sequence[Stop], style: Style) -> Json:
    columns: list[ColumnTold] = [
        ("hole", "mark", None), ("stop", "text", 1.3), ("block", "mark", None), ("part", "mark", None),
        ("touches", "text", 1.8), ("set", "boxes", None),
    ]  # fmt: skip
    return _filled(columns, [_stop(stop, style) for stop in stops])


def _filled(columns: Sequence[ColumnTold], rows: Sequence[tuple[object, ...]]) -> Json:
    """A table without the columns that have nothing in them."""
    kept = [k for k in range(len(columns)) if any(row[k] for row in rows)]
    return table([columns[k] for k in kept], [[row[k] for k in kept] for row in rows])


def _stop(stop: Stop, style: Style) -> tuple[object, ...]:
    place, kind = stop.hole, stop.kind
    if place.startswith(OFF):
        place, kind = "", f"no stop: the block bears {place}"
    elif " " in place:  # on a bench without holes: so far from an edge
        place, kind = "", f"{kind}, {place}"
    told = (kind, f"set its face {fine(style).length(stop.reach)} from the hole") if stop.set_by_hand else kind
    return place, told, stop.block, stop.part, stop.face, 1


def blocks_table(blocks: Sequence[Block], style: Style) -> Json:
    """Blocks by letter, with a box for each to cut; lengths to the finest step, since parts are set by them."""
    columns: list[ColumnTold] = [
        ("block", "mark", None), ("length", "number", None), ("from", "text", 1.5), ("what for", "text", 1.8),
        ("cut", "boxes", 0.9),
    ]  # fmt: skip
    rows = [
        (
            block.letter,
            fine(style).length(block.length),
            block.stock,
            f"{block.why}, upright" if block.upright else block.why,
            block.quantity,
        )
        for block in blocks
    ]
    return table(columns, rows)


def _spacers(spacers: Sequence[Spacer], style: Style) -> Json:
    columns: list[ColumnTold] = [
        ("part", "mark", None), ("on", "mark", None), ("block", "mark", None), ("gap", "number", None),
        ("from", "text", 2), ("set", "boxes", None),
    ]  # fmt: skip
    alike = Counter(_spacer(spacer, style) for spacer in spacers)
    return _filled(columns, [(*told, count) for told, count in alike.items()])


def _spacer(spacer: Spacer, style: Style) -> tuple[object, ...]:
    gap = fine(style).length(spacer.length) if spacer.length else "flush"
    return spacer.part, spacer.on, spacer.block, gap, spacer.source


def _clamps(clamps: Sequence[Clamp]) -> Json:
    """One line for all clamps of a kind on a part."""
    columns: list[ColumnTold] = [
        ("part", "mark", None), ("clamp", "text", 1.2), ("held in", "text", 2.5), ("set", "boxes", 1.2),
    ]  # fmt: skip
    alike: dict[tuple[str, str], list[str]] = {}
    for clamp in clamps:
        alike.setdefault((clamp.part, clamp.kind), []).append(clamp.hole)
    rows = [(part, kind, ", ".join(dict.fromkeys(holes)), len(holes)) for (part, kind), holes in alike.items()]
    return table(columns, rows)


def checks_table(checks: Sequence[Check], style: Style) -> Json:
    """Numbers for the tape, how far off each may be, and a field for what was read."""
    columns: list[ColumnTold] = [
        ("tape over", "text", 2), ("should read", "number", None), ("± at most", "number", None),
        ("read", "field", None), ("good", "boxes", None),
    ]  # fmt: skip
    rows = [(check.name, style.length(check.length), allowed(check.tolerance, style), "", 1) for check in checks]
    return table(columns, rows)


def allowed(tolerance: float, style: Style) -> str:
    """How far off a number may be [mm], rounded down to what is read off a tape, and never to nothing.

    >>> allowed(3.0, Style.inch()), allowed(3.0, Style.metric()), allowed(0.5, Style.inch())
    ('3/32"', '3.0 mm', '1/32"')
    """
    return style.within(tolerance)


def _reading(checks: Sequence[Check]) -> str:
    """What equal diagonals say, and whose tolerances these are."""
    lengths = [check.length for check in checks if check.kind == "diagonal"]
    equal = len(lengths) == 2 and abs(lengths[0] - lengths[1]) < SQUARE_MM
    said = "The two diagonals read the same when it is square. " if equal else ""
    basis = "; ".join(dict.fromkeys(check.basis for check in checks))
    return f"{said}What each may be off: {basis}." if basis else said
