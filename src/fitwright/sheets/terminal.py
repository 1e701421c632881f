"""Findings and progress in a terminal, readable without colour."""

from __future__ import annotations

import signal
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from types import FrameType

from fitwright.findings import Finding, Verdict, by_urgency
from fitwright.making.bending import BendSheet
from fitwright.making.bending.turning import TURN_RAD, turned
from fitwright.making.cutting import CuttingPlan
from fitwright.making.welding import WeldPlan
from fitwright.mechanics.variation import VirtualBuilds
from fitwright.sheets.wording import amount, demand, percent
from fitwright.units import Style, Unit

Progress = Callable[[str, float], None]

SIGNS = {
    Verdict.FAILS: "✗ fails",
    Verdict.NEEDS_INPUT: "? needs input",
    Verdict.TIGHT: "! tight",
    Verdict.HOLDS: "✓ holds",
}
COLOURS = {Verdict.FAILS: "bold red", Verdict.NEEDS_INPUT: "bold", Verdict.TIGHT: "bold yellow", Verdict.HOLDS: "green"}


def print_findings(findings: Sequence[Finding], style: Style) -> None:
    """Print findings as a table, worst first, lengths in the job's own unit."""
    from rich.console import Console
    from rich.table import Table
    from rich.text import Text

    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0))
    for heading in ("verdict", "what", "check", "value", "limit", "what to do"):
        table.add_column(heading, justify="right" if heading in ("value", "limit") else "left", overflow="fold")
    for finding in by_urgency(list(findings)):
        table.add_row(
            Text(SIGNS[finding.verdict], style=COLOURS[finding.verdict]),
            f"{finding.area}: {finding.subject}",
            finding.check,
            amount(finding.value, finding.unit, style),
            amount(finding.limit, finding.unit, style),
            finding.advice,
        )
    console = Console(width=None if sys.stdout.isatty() else 160)
    console.print(table)
    console.print(summary(findings))


def summary(findings: Sequence[Finding]) -> str:
    """How many of each verdict, in one line."""
    counts = {verdict: sum(f.verdict is verdict for f in findings) for verdict in Verdict}
    return ", ".join(f"{count} {verdict.value}" for verdict, count in counts.items() if count) or "no findings"


@contextmanager
def steps_shown() -> Iterator[Progress]:
    """A progress bar on standard error: call what it yields with the name of the step and the fraction done."""
    from rich.console import Console
    from rich.progress import BarColumn, TextColumn, TimeElapsedColumn
    from rich.progress import Progress as Bars

    console = Console(stderr=True)
    with Bars(TextColumn("{task.description:<28}"), BarColumn(), TimeElapsedColumn(), console=console) as bars:
        task = bars.add_task("packet", total=1.0)

        def show(step: str, done: float) -> None:
            bars.update(task, description=step, completed=done)

        yield show


@contextmanager
def stopped_by_hand() -> Iterator[Callable[[], bool]]:
    """Ctrl-C asks to stop with what there is so far: call what it yields to know. A second one breaks off."""
    asked = False

    def ask(_number: int, _frame: FrameType | None) -> None:
        nonlocal asked
        asked = True
        signal.signal(signal.SIGINT, before)

    before = signal.signal(signal.SIGINT, ask)
    try:
        yield lambda: asked
    finally:
        signal.signal(signal.SIGINT, before)


def style_of(unit: Unit) -> Style:
    """The usual style of a unit."""
    return Style.inch() if unit == "inch" else replace(Style.metric(), unit=unit)


def print_bends(sheet: BendSheet, style: Style) -> None:
    """Print a bend sheet as a table in order of work."""
    from rich.console import Console
    from rich.table import Table

    table = Table(box=None, pad_edge=False, padding=(0, 3, 0, 0))
    for heading in ("bend", "mark", "turn to", "bend to", "for", "radius", "straight before", "die"):
        table.add_column(heading, justify="left" if heading == "die" else "right")
    for step in sheet.steps:
        table.add_row(
            str(step.number),
            style.length(step.mark),
            turned(step.turned, style),
            style.angle(step.command_angle),
            style.angle(step.angle),
            style.length(step.radius),
            style.length(step.straight_before),
            step.die or "none in the shop",
        )
    console = Console(width=None if sys.stdout.isatty() else 160)
    console.print(f"blank {style.length(sheet.blank)}, marks measured from its {sheet.started_from} end")
    console.print(table)
    if any(abs(step.rotation) > TURN_RAD for step in sheet.steps):
        console.print(
            "turn to: from where the tube lay for bend 1, seen from its unbent end looking toward the start: "
            "↻ clockwise, ↺ the other way"
        )
    for note in sheet.notes:
        console.print(f"note: {note}")


def print_plan(plan: CuttingPlan, style: Style) -> None:
    """Print a cutting plan, bar by bar, with its cost and what is proven of it."""
    from rich.console import Console
    from rich.table import Table

    table = Table(box=None, pad_edge=False, padding=(0, 3, 0, 0))
    for heading in ("bar", "length", "cuts", "left over"):
        table.add_column(heading, justify="left" if heading == "cuts" else "right", overflow="fold")
    for number, bar in enumerate(plan.bars, 1):
        cuts = ", ".join(f"{cut.mark} {style.length(cut.length_mm)}".strip() for cut in bar.cuts)
        table.add_row(str(number), style.length(bar.bar.length), cuts, style.length(bar.remnant))
    console = Console(width=None if sys.stdout.isatty() else 160)
    console.print(table)
    proven = "proven least" if plan.proven else f"at least {plan.bound} is needed; not proven best"
    bars = "1 bar" if len(plan.bars) == 1 else f"{len(plan.bars)} bars"
    console.print(f"{bars}, cost {plan.cost} ({proven}), left over {100 * plan.waste_fraction:.1f} %")


def print_chances(builds: VirtualBuilds, style: Style) -> None:
    """Print every demand with its chance and what decides it, then what to do differently."""
    from rich.console import Console
    from rich.table import Table

    console = Console(width=None if sys.stdout.isatty() else 160)
    table = Table(box=None, pad_edge=False, padding=(0, 3, 0, 0))
    for heading in ("what", "chance", "wanted", "comes out at", "decided by"):
        table.add_column(heading, justify="right" if heading in ("chance", "wanted") else "left", overflow="fold")
    for chance in builds.chances:
        decided = ", ".join(f"{share.words} {share.share:.0%}" for share in chance.deciders)
        typical = f"{style.length(chance.typical)}, give or take {style.length(chance.spread)}"
        table.add_row(demand(chance), percent(chance.value), f"{chance.wanted:.0%}", typical, decided)
    console.print(table)
    names = list(dict.fromkeys(chance.name for chance in builds.chances))
    other = Table(box=None, pad_edge=False, padding=(0, 3, 0, 0))
    for heading in ("done differently", *names):
        other.add_column(heading, justify="left" if heading == "done differently" else "right", overflow="fold")
    for change in builds.changes:
        other.add_row(
            change.words, *(percent(change.chances[name]) if name in change.chances else "" for name in names)
        )
    if builds.changes:
        console.print()
        console.print(other)
    console.print(f"{builds.builds:,} virtual builds")


def print_welds(plan: WeldPlan, style: Style) -> None:
    """Print the runs in the order proposed, what moves, and what is used up."""
    from rich.console import Console
    from rich.table import Table

    console = Console(width=None if sys.stdout.isatty() else 160)
    table = Table(box=None, pad_edge=False, padding=(0, 3, 0, 0))
    for heading in ("run", "weld", "joint", "side", "kind", "leg", "length"):
        table.add_column(heading, justify="right" if heading in ("run", "weld", "leg", "length") else "left")
    welds = {weld.number: weld for weld in plan.welds}
    for step in plan.steps:
        weld = welds[step.weld]
        table.add_row(
            str(step.number),
            str(step.weld),
            weld.name,
            step.side,
            weld.kind.value,
            style.length(weld.leg),
            style.length(step.length),
        )
    console.print(table)
    said = (*plan.order_words, *plan.words)
    for words in said:
        console.print(words)
    minutes = plan.used.arc_time / 60
    console.print(f"filler {style.weight(plan.used.filler)}, gas {plan.used.gas:.0f} l, arc burning {minutes:.1f} min")
    for words in plan.limits:
        console.print(f"note: {words}")
