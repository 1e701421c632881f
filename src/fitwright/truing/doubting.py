"""Readings that no error of the shop explains: each is questioned, with the likeliest slip, instead of believed."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from fitwright.job.readings import Quantity, Reading
from fitwright.mechanics.model import Floats
from fitwright.truing.estimate import Estimate, estimate, unread
from fitwright.truing.functional import Functional
from fitwright.truing.prior import Prior
from fitwright.units import INCH, Style

QUESTIONED = 4.0
"""Deviations beyond which a reading is questioned: a good one strays so far once in 16,000 (normal distribution)."""
AGREES = 3.0
STRAY_FROM, STRAY_ROUNDS, STRAY_LEAST, STRAY_MOST, MEDIAN = 6, 3, 1.15, 3.0, 0.6745
PLAUSIBLE = 2.0


@dataclass(frozen=True)
class Doubt:
    """A reading that is not believed: its place in the list, what the rest makes of it, and the likeliest slip.

    expected, doubt: what it should be near, with one deviation [mm, rad]. deviations: how many it is off by.
    """

    number: int
    expected: float
    doubt: float
    deviations: float
    slip: str


def sifted(
    prior: Prior,
    functionals: Sequence[Functional],
    readings: Sequence[Reading],
    precision: Floats,
    confirmed: Sequence[bool],
    style: Style,
) -> tuple[Estimate, tuple[Doubt, ...]]:
    """The estimate from the readings that can be believed, and those that cannot, one taken out at a time.

    confirmed: readings that were taken twice with one result; they are believed, and the errors behind them allowed to
    be as large as that takes.
    """
    prior = _allowing(prior, functionals, readings, precision, confirmed)
    prior = _strayed(prior, functionals, readings, precision)
    believed = list(range(len(readings)))
    doubts: list[Doubt] = []
    while believed:
        found = _estimate(prior, functionals, readings, precision, believed)
        off = np.where([confirmed[i] for i in believed], 0.0, np.abs(found.standing))
        worst = int(np.argmax(off))
        if off[worst] <= QUESTIONED:
            return found, tuple(doubts)
        number = believed.pop(worst)
        expected, spread = float(found.by_others[worst]), float(found.doubt[worst])
        slip = slip_of(readings[number], expected, spread, style)
        doubts.append(Doubt(number, expected, spread, float(off[worst]), slip))
    return unread(prior), tuple(doubts)


def _estimate(
    prior: Prior, functionals: Sequence[Functional], readings: Sequence[Reading], precision: Floats, which: list[int]
) -> Estimate:
    values = np.array([readings[i].value for i in which])
    return estimate(prior, [functionals[i] for i in which], values, precision[which])


def _strayed(prior: Prior, functionals: Sequence[Functional], readings: Sequence[Reading], precision: Floats) -> Prior:
    """The prior widened where readings as a whole stray more than it has them: it is the piece then and not the tape.

    By the median of what each is off by the others, which a few wrong ones do not move.
    Source: median of a standard normal number's size, 0.6745.
    """
    for _ in range(STRAY_ROUNDS if len(readings) >= STRAY_FROM else 0):
        found = _estimate(prior, functionals, readings, precision, list(range(len(readings))))
        times = float(np.median(np.abs(found.standing))) / MEDIAN
        if times <= STRAY_LEAST:
            break
        prior = replace(prior, spreads=prior.spreads * min(times, STRAY_MOST))
    return prior


def _allowing(
    prior: Prior,
    functionals: Sequence[Functional],
    readings: Sequence[Reading],
    precision: Floats,
    confirmed: Sequence[bool],
) -> Prior:
    """The prior with room for what was read twice: the spreads that reach it grow until it is two deviations off."""
    spreads = prior.spreads.copy()
    for f, reading, within, sure in zip(functionals, readings, precision, confirmed, strict=True):
        if sure and not f.unknown:
            row = f.row @ prior.mix
            usual = math.hypot(float(np.linalg.norm(row * spreads)), float(within))
            times = abs(reading.value - f.drawn) / (PLAUSIBLE * usual)
            if times > 1:
                spreads = np.where(np.abs(row) > 0, times * spreads, spreads)
    return replace(prior, spreads=spreads)


def slip_of(reading: Reading, expected: float, spread: float, style: Style) -> str:
    """The likeliest way in which a reading went wrong, in words; that it be taken again where none fits.

    Common practice: what goes wrong with a tape and with a pencil.
    """
    fits = [
        (abs(value - expected) / max(spread, 1e-9), rank, words)
        for rank, (value, words) in enumerate(_slips(reading, style))
        if abs(value - expected) <= AGREES * spread
    ]
    if not fits:
        return "no usual slip explains it: read it again, and enter it a second time if it is so"
    return min(fits, key=lambda fit: (round(fit[0] / AGREES), fit[1]))[2]


def _slips(reading: Reading, style: Style) -> Iterator[tuple[float, str]]:
    """What the reading would be without a slip, and the slip."""
    if reading.of.angle:
        yield from _angle_slips(reading.value)
        return
    for mm, words in _tape_slips(style):
        yield reading.value + mm, f"{words} too little was read or entered"
        yield reading.value - mm, f"{words} too much was read or entered"
    yield from _written_slips(reading.value, style)
    if reading.of.quantity in (Quantity.FOOT_HEIGHT, Quantity.TWIST):
        yield -reading.value, "up was entered for down"


def _tape_slips(style: Style) -> Iterator[tuple[float, str]]:
    if style.unit == "inch":
        yield INCH, "an inch (the tape held at its 1 in mark, or the inch misread):"
        yield INCH / 2, "half an inch:"
        yield 12 * INCH, "a foot:"
        yield 10 * INCH, "ten inches:"
    else:
        yield 10.0, "10 mm (the centimetre misread):"
        yield 100.0, "100 mm (the tape held at its 100 mm mark):"
        yield 5.0, "5 mm:"
    yield 1000.0, "a metre:"


def _written_slips(mm: float, style: Style) -> Iterator[tuple[float, str]]:
    """Digits changed over, a point lost, the other unit."""
    yield mm * INCH, "inches were entered as millimetres"
    yield mm / INCH, "millimetres were entered as inches"
    yield mm * 10, "centimetres for millimetres, or a digit lost"
    yield mm / 10, "a digit too many, or millimetres for centimetres"
    if style.unit != "inch":
        digits = f"{mm:.1f}"
        for i in range(len(digits) - 1):
            if digits[i] != digits[i + 1] and digits[i].isdigit() and digits[i + 1].isdigit():
                swapped = digits[:i] + digits[i + 1] + digits[i] + digits[i + 2 :]
                yield float(swapped), f"two digits changed over: {swapped}"


def _angle_slips(rad: float) -> Iterator[tuple[float, str]]:
    turns: tuple[tuple[Callable[[float], float], str], ...] = (
        (lambda a: math.pi - a, "the angle between the legs was entered, not the angle turned"),
        (lambda a: a + math.radians(10), "ten degrees too little was entered"),
        (lambda a: a - math.radians(10), "ten degrees too much was entered"),
        (lambda a: a * 10, "the point stands one place too far left"),
        (lambda a: a / 10, "the point stands one place too far right"),
    )
    for turn, words in turns:
        yield turn(rad), words
