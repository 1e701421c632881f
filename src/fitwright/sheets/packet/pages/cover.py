"""The cover: what the job is, what stands in its way, what else is in the set."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from fitwright.assess import Assessment
from fitwright.findings import Finding, Verdict, by_urgency
from fitwright.sheets.drawing import Drawing
from fitwright.sheets.drawing.model import View
from fitwright.sheets.packet.cautioning import OWN, Caution
from fitwright.sheets.packet.model import Json, Page
from fitwright.sheets.packet.pictures import alone
from fitwright.sheets.packet.tables import ColumnTold, breakable, table
from fitwright.sheets.terminal import SIGNS, summary
from fitwright.sheets.wording import amount
from fitwright.units import Style

CHECKS = "Checks"
WIDE, HIGH, LOW = 92.0, 92.0, 44.0  # room for the picture, lower the more there is to say under it [mm]
A_FINDING = 9.0  # what one takes of the page [mm]
LONGEST_UNIT = 3
MOST_ADVICE = 150  # letters of advice on the cover
ROOM_FOR_ADVICE = 8  # findings; of more than that, the tight ones are told what to do about on the sheet of checks
SAID = ("currency",)  # units that `amount` does not write


def cover_page(assessment: Assessment, whole: Drawing, cautions: Sequence[Caution]) -> Page:
    """What is urgent in full; what holds is told as a number and has a page of its own."""
    job = assessment.job
    findings = by_urgency(list(assessment.all_findings))
    urgent = [found for found in findings if found.verdict is not Verdict.HOLDS]
    held = len(findings) - len(urgent)
    content = {
        "job": breakable(job.name),
        "facts": [[name, breakable(value)] for name, value in _facts(assessment) if value],
        "summary": summary(findings),
        "findings": urgent_table(_told_on_cover(urgent), job.style),
        "more": _held(held, len(findings), _is_crowded(urgent)),
        "cautions": [_named(caution) for caution in cautions] or ["none of the usual ones applies"],
    }
    return Page(
        "cover", "Cover", content, {"piece": alone(_isometric(whole), (WIDE, max(LOW, HIGH - A_FINDING * len(urgent))))}
    )


def _told_on_cover(urgent: Sequence[Finding]) -> list[Finding]:
    """What is urgent, with what to do about it as far as there is room: always where something fails."""
    if not _is_crowded(urgent):
        return [replace(found, advice=shortened(found.advice)) for found in urgent]
    return [
        replace(found, advice="" if found.verdict is Verdict.TIGHT else shortened(found.advice)) for found in urgent
    ]


def _is_crowded(urgent: Sequence[Finding]) -> bool:
    return len(urgent) > ROOM_FOR_ADVICE


def _held(held: int, total: int, crowded: bool) -> str | None:
    holds = f"{'All ' if held == total else ''}{held} {'check holds' if held == 1 else 'checks hold'}"
    if crowded:
        return f"{holds}. They, and what to do about what is tight: see “{CHECKS}”."
    return f"{holds}: see “{CHECKS}”." if held else None


def _named(caution: Caution) -> str:
    return breakable(caution.text if caution.heading == OWN else caution.heading)


def checks_page(assessment: Assessment) -> Page | None:
    """Every check that holds, with its numbers and its rule's source; first the others, where the cover is short."""
    style = assessment.job.style
    findings = by_urgency(list(assessment.all_findings))
    held = [found for found in findings if found.verdict is Verdict.HOLDS]
    urgent = [found for found in findings if found.verdict is not Verdict.HOLDS]
    if not held:
        return None
    columns: list[ColumnTold] = [
        ("what", "text", 2.4), ("check, and the basis of its rule", "text", 5), ("value", "number", None),
        ("limit", "number", None),
    ]  # fmt: skip
    rows = [
        (
            f"{worst.area}: {', '.join(subjects)}",
            (_with_word(worst), worst.basis),
            _without_word(amount(worst.value, worst.unit, style), worst.unit),
            _without_word(amount(worst.limit, worst.unit, style), worst.unit),
        )
        for worst, subjects in _alike(held)
    ]
    first = "First what does not simply hold, and what to do about it. " if _is_crowded(urgent) else ""
    intro = f"{first}Where one line of what holds stands for several parts, its value is the one nearest to the limit."
    tables = [urgent_table(urgent, style)] if first else []
    return Page("listing", CHECKS, {"intro": [intro], "tables": [*tables, table(columns, rows)], "small": True})


def _with_word(found: Finding) -> str:
    """A check, with its unit where that is a whole word and so does not stand with the numbers."""
    return f"{found.check} [{found.unit}]" if len(found.unit) > LONGEST_UNIT and found.unit not in SAID else found.check


def _without_word(told: str, unit: str) -> str:
    """A value whose unit is a whole word leaves it to the check beside it."""
    return told.removesuffix(unit).strip() if len(unit) > LONGEST_UNIT else told


def _alike(findings: Sequence[Finding]) -> list[tuple[Finding, list[str]]]:
    """Findings of one check against one limit together: the one with the least margin, and all the subjects."""
    groups: dict[tuple[object, ...], list[Finding]] = {}
    for found in findings:
        limit = None if found.limit is None else round(found.limit, 6)
        groups.setdefault((found.area, found.check, found.basis, limit, found.unit), []).append(found)
    return [
        (min(group, key=lambda one: one.margin if one.margin is not None else 0.0), [one.subject for one in group])
        for group in groups.values()
    ]


def shortened(advice: str) -> str:
    """Advice for the cover: its first clauses, where it is long; the whole of it is in the list of findings.

    >>> shortened("tack it longer; " + "and so on and on, " * 10)
    'tack it longer; more in findings.csv'
    >>> shortened("set the feet further apart, or lay a weight in it, or hold the top to the wall " + "very " * 20)
    'set the feet further apart, or lay a weight in it; more in findings.csv'
    """
    if len(advice) <= MOST_ADVICE:
        return advice
    whole = advice[:MOST_ADVICE]
    for end in ("; ", ", or ", ", ", " "):
        if end in whole:
            whole = whole.rpartition(end)[0]
            break
    return f"{whole}; more in findings.csv"


def urgent_table(findings: Sequence[Finding], style: Style) -> Json:
    """Findings with what to do about each."""
    columns: list[ColumnTold] = [
        ("verdict", "verdict", None), ("what, and what to do", "text", 4), ("value", "number", None),
        ("limit", "number", None),
    ]  # fmt: skip
    rows = [
        (
            verdict_of(found),
            _what(found),
            amount(found.value, found.unit, style),
            amount(found.limit, found.unit, style),
        )
        for found in findings
    ]
    return table(columns, rows)


def verdict_of(found: Finding) -> Json:
    """The sign and the word."""
    sign, word = SIGNS[found.verdict].split(" ", 1)
    return {"sign": sign, "word": word}


def _what(found: Finding) -> str | tuple[str, str]:
    said = f"{found.area}, {found.subject}: {found.check}"
    return (said, found.advice) if found.advice else said


def _facts(assessment: Assessment) -> list[tuple[str, str]]:
    job, style = assessment.job, assessment.job.style
    width, depth, height = (style.length(float(side)) for side in assessment.piece.envelope.size)
    swivels = any(item.kind == "caster" for item in assessment.piece.hardware)
    return [
        ("client", job.client),
        ("due", job.due.isoformat() if job.due else ""),
        ("for", job.brief.use),
        ("width", width),
        ("depth", depth),
        ("height", height),
        ("", "over all, casters turned any way" if swivels else ""),
        ("weight", style.weight(assessment.piece.mass)),
        ("finish", "; ".join(f"{what}: {how}" for what, how in job.finish.items())),
        ("notes", job.notes),
    ]


def _isometric(whole: Drawing) -> View:
    return next(view for view in whole.views if view.name == "isometric")
