"""job and brief: unit and printed step, date, loads, rules."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from fitwright.job.mistakes import Mistake, excerpt, nearest
from fitwright.job.model import Brief, Loads, RollsOver, Rules
from fitwright.job.resolve.scope import Scope, offered
from fitwright.job.shape.head import BriefShape, HeadShape, PushShape, RollsOverShape, RulesShape
from fitwright.job.written import Written
from fitwright.units import INCH, Style, Unit

UNITS_MM: dict[str, float] = {"inch": INCH, "mm": 1.0, "cm": 10.0}
UNIT_WORDS: dict[str, Unit] = {"inch": "inch", "mm": "mm", "cm": "cm"}

INCH_STEPS = {"1/16": Fraction(1, 16), "1/32": Fraction(1, 32), "1/64": Fraction(1, 64)}
METRIC_STEPS = {"0.5": Fraction(1, 2), "1/2": Fraction(1, 2), "0.1": Fraction(1, 10), "1/10": Fraction(1, 10)}
CLEAR_TIGHT_MM = {"inch": INCH / 8, "mm": 3.0, "cm": 3.0}
"""A gap nearer than this to the one wanted is tight. Source: common practice."""

SAG = re.compile(r"(?:[Ll]|span)\s*/\s*(.+)")


@dataclass(frozen=True)
class Head:
    """The job section worked out."""

    name: str
    client: str
    style: Style
    due: date | None
    notes: str


def resolve_head(head: HeadShape) -> tuple[Head, list[Mistake]]:
    """The job section and its mistakes; it comes before dims, for it says the unit."""
    mistakes: list[Mistake] = []
    unit = UNIT_WORDS[head.unit]
    style = Style(unit, _step(head, unit, mistakes))
    return Head(head.name.text, _text(head.client), style, _date(head.due, mistakes), _text(head.notes)), mistakes


def resolve_brief(brief: BriefShape | None, scope: Scope) -> Brief:
    """The brief section; with nothing written, the rules are still the usual ones in the job's unit."""
    brief = brief or BriefShape()
    return Brief(
        use=_text(brief.use),
        loads=_loads(brief, scope),
        rules=_rules(brief.rules or RulesShape(), scope),
        budget=scope.money(brief.budget) if brief.budget else None,
        cautions=_cautions(brief.cautions),
        rolls_over=_rolls_over(brief.rolls_over or RollsOverShape(), scope),
    )


def _rolls_over(said: RollsOverShape, scope: Scope) -> RollsOver:
    return RollsOver(scope.optional_length(said.threshold), scope.optional_length(said.gap))


def _text(written: Written | None) -> str:
    return written.text if written else ""


def _wrong(written: Written, what: str, accepted: tuple[str, ...] = ()) -> Mistake:
    return Mistake(written.place.line, written.place.column, written.where, what, accepted)


def _step(head: HeadShape, unit: str, mistakes: list[Mistake]) -> Fraction:
    steps = INCH_STEPS if unit == "inch" else METRIC_STEPS
    if head.fraction is None:
        return next(iter(steps.values()))
    said = re.sub(r"\s*(in|inch|mm|\")$", "", head.fraction.text.strip())
    if said not in steps:
        of = "of an inch" if unit == "inch" else "of a mm"
        mistakes.append(_wrong(head.fraction, f"{excerpt(said)} {of} is not a step that is printed", tuple(steps)))
    return steps.get(said, next(iter(steps.values())))


def _date(written: Written | None, mistakes: list[Mistake]) -> date | None:
    if written is None:
        return None
    try:
        return date.fromisoformat(written.text.strip())
    except ValueError:
        mistakes.append(_wrong(written, f"{excerpt(written.text)} is not a date: write year-month-day, as 2026-03-14"))
        return None


def _cautions(cautions: Written | list[Written] | None) -> tuple[str, ...]:
    if cautions is None:
        return ()
    return tuple(word.text for word in (cautions if isinstance(cautions, list) else [cautions]))


def _loads(brief: BriefShape, scope: Scope) -> Loads:
    on: dict[str, float] = {}
    push: PushShape | None = None
    for name, load in brief.loads.items():
        if isinstance(load, PushShape):
            push = load
            _check_push(name, load, scope)
        elif name == "push":
            scope.wrong_at(load, "a push needs its height too: {force: 20 lb, height: 40}")
        else:
            _check_part(name, load, scope)
            on[name] = scope.load(load)
    if push is None:
        return Loads(on)
    return Loads(on, scope.load(push.force), scope.length(push.height, above=0.0))


def _check_push(name: str, load: PushShape, scope: Scope) -> None:
    if name != "push":
        what = f"force and height belong to push; the load on {excerpt(name)} is one value, as 40 lb"
        scope.wrong_at(load.force, what)


def _check_part(name: str, load: Written, scope: Scope) -> None:
    if name not in scope.parts:
        what = f"{excerpt(name)} is not the name of a part"
        scope.wrong_at(load, what, offered(scope.parts), nearest(name, scope.parts))


def _rules(rules: RulesShape, scope: Scope) -> Rules:
    usual = Rules()
    return Rules(
        safety=scope.number(rules.safety, least=1, most=20) if rules.safety else usual.safety,
        tight=scope.share(rules.tight) if rules.tight else usual.tight,
        sag=_sag(rules.sag, scope) if rules.sag else usual.sag,
        clear_tight=scope.length_or(rules.clear_tight, CLEAR_TIGHT_MM[scope.style.unit], least=0.0),
        chance=scope.share(rules.chance) if rules.chance else usual.chance,
        rock=scope.optional_length(rules.rock),
        care=tuple(rules.care),
    )


def _sag(written: Written, scope: Scope) -> float:
    """The N of span / N."""
    said = SAG.fullmatch(written.text.strip())
    bare = Written(said[1] if said else written.text, written.where, written.place, written.quoted)
    return scope.number(bare, least=10, most=10_000)
