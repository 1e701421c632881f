"""readings: what was measured on the real parts, each held against the words that can be measured."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from datetime import date

from fitwright.job.mistakes import excerpt, nearest
from fitwright.job.readings import EXAMPLES, Of, Quantity, Reading, likeliest, parse_of, parts_named
from fitwright.job.resolve.scope import Scope, offered
from fitwright.job.shape.readings import ReadingShape
from fitwright.job.written import Written
from fitwright.units import AngleError, parse_angle

MOST_DEGREES = 400.0
MARK = re.compile(r"[A-Za-z]{1,2}\d+(?:/\d+)?")
FILM = re.compile(r"(?P<number>[\d.]+)\s*(?P<unit>µm|um|micron|microns|mil|mils|mm)", re.IGNORECASE)
FILM_MM = {"µm": 1e-3, "um": 1e-3, "micron": 1e-3, "microns": 1e-3, "mil": 0.0254, "mils": 0.0254, "mm": 1.0}
MOST_FILM_MM = 5.0


def resolve_readings(shapes: Sequence[ReadingShape], scope: Scope) -> tuple[Reading, ...]:
    """The readings section."""
    found = (_reading(shape, scope) for shape in shapes)
    return tuple(reading for reading in found if reading is not None)


def _reading(shape: ReadingShape, scope: Scope) -> Reading | None:
    of = _of(shape.of, scope)
    if of is None:
        return None
    value = _value(shape.value, of, scope)
    within = None if shape.within is None else _within(shape.within, of, scope)
    return Reading(
        of,
        value,
        within,
        _day(shape.when, scope),
        shape.step.text if shape.step else "",
        shape.note.text if shape.note else "",
        shape.of.place.line,
    )


def _of(written: Written, scope: Scope) -> Of | None:
    of = parse_of(written.text)
    if of is None:
        scope.wrong_at(
            written, f"{excerpt(written.text)} is not something that is read", EXAMPLES, likeliest(written.text)
        )
        return None
    for name in parts_named(of):
        _check_part(name, written, scope)
    return of


def _check_part(name: str, written: Written, scope: Scope) -> None:
    """A mark is known only once the piece is built; the name of a part is known now."""
    if MARK.fullmatch(name):
        return
    if any(name == part or name.startswith((f"{part} ", f"{part}/")) for part in scope.parts):
        return
    what = f"{excerpt(name)} is neither the name of a part nor a mark such as A1"
    scope.wrong_at(written, what, offered(scope.parts), nearest(re.sub(r" \d+$", "", name), scope.parts))


def _value(written: Written, of: Of, scope: Scope) -> float:
    if of.angle:
        return _angle(written, scope)
    if of.quantity is Quantity.PAINT:
        return _film(written, scope)
    least = -math.inf if of.quantity in (Quantity.TWIST, Quantity.FOOT_HEIGHT) else 0.0
    return scope.length(written, least=max(least, -1e5))


def _within(written: Written, of: Of, scope: Scope) -> float:
    value = _value(written, of, scope)
    if value <= 0:
        scope.wrong_at(written, f"{excerpt(written.text)}: more than 0 belongs here")
    return value


def _angle(written: Written, scope: Scope) -> float:
    try:
        value = parse_angle(written.text)
    except AngleError as error:
        scope.wrong_at(written, str(error))
        return math.nan
    if not abs(value) <= math.radians(MOST_DEGREES):
        scope.wrong_at(written, f"{excerpt(written.text)} is {math.degrees(value):g}°; at most {MOST_DEGREES:g}°")
        return math.nan
    return value


def _film(written: Written, scope: Scope) -> float:
    match = FILM.fullmatch(written.text.strip())
    try:
        value = float(match["number"]) * FILM_MM[match["unit"].lower()] if match else math.nan
    except ValueError:
        value = math.nan
    if not 0 <= value <= MOST_FILM_MM:
        scope.wrong_at(written, f"{excerpt(written.text)} is not a thickness of paint: write 80 µm or 3 mil")
        return math.nan
    return value


def _day(written: Written | None, scope: Scope) -> date | None:
    if written is None:
        return None
    try:
        return date.fromisoformat(written.text.strip())
    except ValueError:
        scope.wrong_at(written, f"{excerpt(written.text)} is not a date: write year-month-day, as 2026-03-14")
        return None
