"""Readings, and what follows from them."""

from __future__ import annotations

from fitwright.assess import Assessment
from fitwright.report.figures import Json, degrees, number
from fitwright.truing import Changed, Taken, Touch, Truing


def readings_as_json(assessment: Assessment) -> Json | None:
    """Everything that follows from the readings; null without any."""
    truing = assessment.truing
    if truing is None:
        return None
    return {
        "readings": [_reading(one) for one in truing.taken],
        "without_meaning": [
            {"of": str(one.reading.of), "line": one.reading.line, "why": one.why} for one in truing.lost
        ],
        "questioned": _doubts(truing),
        "misfit": number(truing.misfit),
        "misfit_after": number(truing.misfit_after),
        "rock_mm": number(truing.rock),
        "rock_after_mm": number(truing.rock_after),
        "corrections": [_touch(one) for one in truing.touches],
        "changes": [_change(one) for one in assessment.changes],
        "chances": [
            {"name": one.name, "subject": one.subject, "before": number(one.before), "now": number(one.now)}
            for one in truing.chances
        ],
    }


def _value(key: str, value: float, angle: bool) -> Json:
    return {f"{key}_deg": degrees(value)} if angle else {f"{key}_mm": number(value)}


def _reading(one: Taken) -> Json:
    angle = one.reading.of.angle
    return {
        "of": str(one.reading.of),
        **_value("asked", one.drawn, angle),
        **_value("read", one.reading.value, angle),
        **_value("probably", one.now, angle),
        **_value("spread", one.spread, angle),
        "when": one.reading.when.isoformat() if one.reading.when else None,
        "believed": one.believed,
        "word": one.word,
    }


def _doubts(truing: Truing) -> list[Json]:
    found = []
    for doubt in truing.doubts:
        of = truing.taken[doubt.number].reading.of
        expected = _value("expected", doubt.expected, of.angle)
        found.append({"of": str(of), **expected, "deviations": number(doubt.deviations), "likely": doubt.slip})
    return found


def _touch(one: Touch) -> Json:
    angle = one.kind in ("bend", "tack")
    return {
        "kind": one.kind,
        "subject": one.subject,
        "words": one.words,
        "needed": one.needed,
        **_value("amount", one.amount, angle),
        **_value("springs_back", one.beyond, angle),
        "force_n": number(one.force),
        "effects": [
            {"what": e.what, "before_mm": number(e.before), "after_mm": number(e.after), "spread_mm": number(e.spread)}
            for e in one.effects
        ],
        "caution": one.caution,
    }


def _change(one: Changed) -> Json:
    old = {} if one.old is None else _value("old", one.old, one.angle)
    return {
        "sheet": one.sheet, "mark": one.mark, "what": one.what, **old, **_value("new", one.new, one.angle),
        "why": one.why,
    }  # fmt: skip
