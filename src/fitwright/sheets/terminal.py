"""Findings and progress in a terminal, readable without colour."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace

from fitwright.findings import Finding, Verdict, by_urgency
from fitwright.making.bending import BendSheet
from fitwright.making.cutting import CuttingPlan
from fitwright.sheets.wording import TURN_RAD, amount, turned
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
    console.print(f"{bars}, cost {plan.cost} ({proven}), waste {100 * plan.waste_fraction:.1f} %")
