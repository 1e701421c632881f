"""Readings and what follows from them in words, as screen, sheet and terminal show them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from fitwright.assess import Assessment
from fitwright.checks.fit_chance import WORDS
from fitwright.job.readings import Of, Quantity
from fitwright.sheets.wording import FITS, WANTED, fine, percent
from fitwright.truing import ChanceNow, Changed, Effect, Taken, Truing, measured
from fitwright.units import Style

if TYPE_CHECKING:
    from rich.console import Console

GONE = 0.005  # a chance that changes by less is not told
LEAVE = "Leave it: nothing is worth the effort of correcting it."
SHEETS = {
    "cut": "cutting", "bend": "bend sheet", "bench": "bench", "timber": "timber", "feet": "feet",
}  # fmt: skip


@dataclass(frozen=True)
class ReadingTold:
    """One reading: what, what was asked, what was read, by how much it is off, what it probably is, a word on it."""

    what: str
    asked: str
    read: str
    off: str
    now: str
    word: str
    believed: bool


@dataclass(frozen=True)
class TouchTold:
    """One thing to do: its number, what, whether it must be, what it changes, and the caution."""

    number: int
    kind: str
    words: str
    needed: bool
    effects: tuple[str, ...]
    caution: str


@dataclass(frozen=True)
class ChangeTold:
    """One number that changes: its sheet, mark and what it is; old (to be struck through) and new; why."""

    sheet: str
    mark: str
    what: str
    old: str
    new: str
    why: str


@dataclass(frozen=True)
class TruingTold:
    """Everything that is told. lead: how it stands, in a sentence or two; doubts, lost: what is wrong with which."""

    lead: tuple[str, ...]
    readings: tuple[ReadingTold, ...]
    doubts: tuple[str, ...]
    lost: tuple[str, ...]
    touches: tuple[TouchTold, ...]
    changes: tuple[ChangeTold, ...]
    chances: tuple[tuple[str, str, str], ...]
    notes: tuple[str, ...]


NOTES = (
    "What is off is worked out from all readings together, each with how nearly it was read, and from how the shop's "
    "errors usually stray; ± is one deviation. Corrections go by a linear frame: go in small steps, and measure.",
)


def truing_told(assessment: Assessment, truing: Truing, changes: tuple[Changed, ...]) -> TruingTold:
    """What follows from the readings, told; changes: numbers that change, () where they are not worked out."""
    style = assessment.job.style
    return TruingTold(
        lead=_lead(truing, style),
        readings=tuple(_reading(one, style) for one in truing.taken),
        doubts=tuple(_doubt(truing, number, style) for number in range(len(truing.doubts))),
        lost=tuple(f"{one.reading.of}: {one.why.removeprefix(f'{one.reading.of}: ')}" for one in truing.lost),
        touches=_touches(truing, style),
        changes=tuple(change_told(one, style) for one in changes),
        chances=tuple(_chance(one) for one in truing.chances if abs(one.now - one.before) > GONE),
        notes=NOTES,
    )


def _lead(truing: Truing, style: Style) -> tuple[str, ...]:
    if not truing.anything:
        return ("No reading that counts yet.",)
    said = [f"Sizes and squareness use up {truing.misfit:.0%} of what is allowed, as it is."]
    if truing.touches or truing.moved:
        said.append(f"Put right and built on as told here, they will use up {truing.misfit_after:.0%}.")
    if truing.rock > 0.1 or truing.rock_after > 0.1:
        close = fine(style)
        said.append(f"A foot hangs by {close.length(truing.rock)}; then by {close.length(truing.rock_after)}.")
    if not truing.touches:
        said.append(LEAVE)
    return tuple(said)


def _reading(one: Taken, style: Style) -> ReadingTold:
    of = one.reading.of
    differences = _differs_only(of)
    asked = "" if differences or of.quantity.value == "paint thickness" else measured(of, one.drawn, style)
    off = "" if not asked else _off(of, one.off, style)
    now = "" if differences else f"{measured(of, one.now, style)} ± {_spread(of, one.spread, style)}"
    return ReadingTold(str(of), asked, measured(of, one.reading.value, style), off, now, one.word, one.believed)


def _differs_only(of: Of) -> bool:
    """Whether a reading counts beside others alone: from which plane, or where between the walls, nobody knows."""
    beside = of.quantity is Quantity.WALL_GAP and of.place != "above"
    return beside or of.quantity is Quantity.FOOT_HEIGHT


def _off(of: Of, value: float, style: Style) -> str:
    sign = "+" if value > 0 else "−" if value < 0 else ""
    return f"{sign}{measured(of, abs(value), fine(style))}"


def _spread(of: Of, value: float, style: Style) -> str:
    return f"{math.degrees(value):.1f}°" if of.angle else measured(of, value, fine(style))


def _doubt(truing: Truing, number: int, style: Style) -> str:
    doubt = truing.doubts[number]
    of, value = truing.taken[doubt.number].reading.of, truing.taken[doubt.number].reading.value
    near = f"{measured(of, doubt.expected, style)} ± {_spread(of, doubt.doubt, style)}"
    return f"{of} reads {measured(of, value, style)}, where {near} is expected: {doubt.slip}."


def _touches(truing: Truing, style: Style) -> tuple[TouchTold, ...]:
    """In the order of doing; a caution is said where it is first needed."""
    said: set[str] = set()
    found = []
    for number, one in enumerate(truing.touches, 1):
        words = f"{one.words[0].upper()}{one.words[1:]}."
        caution = "" if one.caution in said else one.caution
        said.add(one.caution)
        effects = tuple(_effect(e, style) for e in one.effects)
        found.append(TouchTold(number, one.kind, words, one.needed, effects, caution))
    return tuple(found)


def _effect(one: Effect, style: Style) -> str:
    close = fine(style)
    hangs = one.what.startswith("gap under")
    before, after = (close.length(v) if hangs else _signed(v, close) for v in (one.before, one.after))
    return f"{one.what}: {before} → {after} ± {close.length(one.spread)}"


def _signed(mm: float, style: Style) -> str:
    bare = style.length(abs(mm))
    return f"{'−' if mm < 0 else '+'}{bare}" if any(letter in "123456789" for letter in bare) else bare


def change_told(one: Changed, style: Style) -> ChangeTold:
    """A number that changes, old beside new; small packing is told finer."""
    how = fine(style) if one.sheet == "feet" else style

    def told(value: float | None) -> str:
        return "" if value is None else style.angle(value) if one.angle else how.length(value)

    return ChangeTold(SHEETS[one.sheet], one.mark, one.what, told(one.old), told(one.new), one.why)


def _chance(one: ChanceNow) -> tuple[str, str, str]:
    words = WORDS[one.name]
    named = f"{words}, {one.subject}" if one.name in (FITS, WANTED) else words
    return named, percent(one.before), percent(one.now)


def print_truing(told: TruingTold) -> None:
    """Print it for a terminal."""
    import sys

    from rich.console import Console

    console = Console(width=None if sys.stdout.isatty() else 160, highlight=False)
    for line in told.lead:
        console.print(line, markup=False)
    console.print()
    rows = [(one.what, one.asked, one.read, one.off, one.now, one.word) for one in told.readings]
    _print_table(console, ("reading", "asked", "read", "off", "probably", ""), rows, (1, 2, 3, 4))
    for line in (*_asked_again(told), *_to_do(told)):
        console.print(line, markup=False)
    if told.changes:
        console.print()
        changed = [(one.sheet, one.mark, one.what, one.old, one.new, one.why) for one in told.changes]
        _print_table(console, ("sheet", "mark", "what", "old", "new", "why"), changed, (3, 4))
    for what, before, now in told.chances:
        console.print(f"{what}: {before} before, {now} now", markup=False)


def _asked_again(told: TruingTold) -> Iterator[str]:
    yield from (f"? {line}" for line in (*told.doubts, *told.lost))


def _to_do(told: TruingTold) -> Iterator[str]:
    for one in told.touches:
        yield f"{one.number}. {one.words}{'' if one.needed else ' (within what is allowed: it may be left)'}"
        yield from (f"   {effect}" for effect in one.effects)
        if one.caution:
            yield f"   ! {one.caution}"


def _print_table(console: Console, heads: Sequence[str], rows: Sequence[Sequence[str]], numbers: Sequence[int]) -> None:
    from rich.table import Table

    table = Table(box=None, pad_edge=False, padding=(0, 3, 0, 0))
    for place, head in enumerate(heads):
        table.add_column(head, justify="right" if place in numbers else "left", overflow="fold")
    for row in rows:
        table.add_row(*row)
    console.print(table)
    console.print()
