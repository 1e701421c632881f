"""Screw threads: the coarse and fine inch series and metric ones, their limits of size and their areas."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from math import pi, sqrt

from fitwright.checks.tables import rows
from fitwright.errors import FitwrightError
from fitwright.units import INCH

ACCEPTED = "1/4-20, #10-24, 3/8-16 or M8 (M8x1.25)"
COARSE = {"M3": 0.5, "M4": 0.7, "M5": 0.8, "M6": 1.0, "M8": 1.25, "M10": 1.5, "M12": 1.75, "M16": 2.0, "M20": 2.5}
COARSEST, FINEST = 4, 80  # threads per inch, ASME B1.1
INCH_THREAD = re.compile(r"(#\d+|\d+/\d+|\d+ \d+/\d+|\d+)\s*-\s*(\d+)(?![\d/])")
METRIC_THREAD = re.compile(r"\bM\s?(\d+(?:\.\d+)?)(?:\s*[x×]\s*(\d+(?:\.\d+)?))?", re.I)


class ThreadError(FitwrightError, ValueError):
    """A thread that is not known; the message lists the spellings that work."""


@dataclass(frozen=True)
class Thread:
    """A 60-degree thread: major diameter and pitch [mm]."""

    name: str
    major: float
    pitch: float
    metric: bool

    @property
    def per_inch(self) -> float:
        """Threads per inch."""
        return INCH / self.pitch

    @property
    def stress_area(self) -> float:
        """Tensile stress area [mm2].

        Source: inch pi/4 (D - 0.9743 / n)^2, ASME B1.1; metric pi/4 (d - 0.9382 P)^2, ISO 898-1.
        """
        return pi / 4 * (self.major - (0.9382 if self.metric else 0.9743) * self.pitch) ** 2


@dataclass(frozen=True)
class Limits:
    """Limits of size of a class 2A or 6g screw in a 2B or 6H hole [mm]."""

    minor_hole_max: float
    pitch_screw_min: float
    pitch_hole_max: float
    major_screw_min: float


def parse_thread(text: str) -> Thread:
    """The thread that a text names, such as `3/8-16`, `#10-24`, `M8` or `M8x1.25`.

    Raises ThreadError, listing the spellings that work.

    >>> parse_thread("1/4-20").pitch
    1.27
    """
    found = find_thread(text)
    if found is None:
        raise ThreadError(f"{text!r} is not a thread that is known here: write {ACCEPTED}")
    return found


def find_thread(text: str) -> Thread | None:
    """The first thread named in a longer text, such as `1/4-20 x 1` or `levelling foot M8`; None when there is none."""
    if (found := INCH_THREAD.search(text)) and COARSEST <= int(found[2]) <= FINEST:
        return Thread(f"{found[1]}-{found[2]}", inch_size(found[1]) * INCH, INCH / float(found[2]), metric=False)
    if found := METRIC_THREAD.search(text):
        size = f"M{float(found[1]):g}"
        pitch = float(found[2]) if found[2] and float(found[2]) < float(found[1]) / 3 else COARSE.get(size, 0.0)
        return Thread(f"{size}x{pitch:g}", float(found[1]), pitch, metric=True) if pitch else None
    return None


def inch_size(text: str) -> float:
    """The diameter [in] of a screw size: `#8` is 0.060 + 0.013 x 8, fractions as they stand.

    Source: ASME B18.6.3 and B18.6.1, numbered sizes.

    >>> round(inch_size("#8"), 3)
    0.164
    """
    if text.startswith("#"):
        return 0.060 + 0.013 * int(text[1:])
    return sum(_part(word) for word in text.split())


def _part(word: str) -> float:
    above, _, below = word.partition("/")
    return float(above) / float(below or 1)


def limits(thread: Thread) -> Limits:
    """The limits of size that strip strength is reckoned with.

    Holds for standard lengths of engagement; from 1/4 in and M3 up within a rounding of the published tables.
    Source: ASME B1.1 classes 2A and 2B, ISO 965-1 classes 6g and 6H; their formulas, from memory.
    """
    return _iso(thread) if thread.metric else _unified(thread)


def _unified(thread: Thread) -> Limits:
    d, p = thread.major / INCH, thread.pitch / INCH
    tolerance = 0.0015 * d ** (1 / 3) + 0.0015 * sqrt(d) + 0.015 * p ** (2 / 3)
    allowance = 0.3 * tolerance
    pitch = d - 0.649519 * p
    fine = 0.05 * p ** (2 / 3) + 0.03 * p / d - 0.002
    minor = (0.25 * p - 0.4 * p**2) if d >= 0.25 else min(0.394 * p, max(fine, 0.25 * p - 0.4 * p**2))
    return Limits(
        round(d - 1.082532 * p + minor, 3) * INCH,
        (pitch - allowance - tolerance) * INCH,
        (pitch + 1.3 * tolerance) * INCH,
        (d - allowance - 0.06 * p ** (2 / 3)) * INCH,
    )


def _iso(thread: Thread) -> Limits:
    d, p = thread.major, thread.pitch
    step = _iso_step(d)
    tolerance = 0.09 * p**0.4 * step**0.1
    shift = (15 + 11 * p) / 1000
    minor = (230 * p**0.7 if p >= 1 else 433 * p - 190 * p**1.22) / 1000
    major = (180 * p ** (2 / 3) - 3.15 / sqrt(p)) / 1000
    pitch = d - 0.649519 * p
    return Limits(d - 1.082532 * p + minor, pitch - shift - tolerance, pitch + 1.32 * tolerance, d - shift - major)


def _iso_step(diameter: float) -> float:
    """Geometric mean of the step of diameters in which one lies [mm]. Source: ISO 965-1."""
    bounds = (0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0)
    for low, high in pairwise(bounds):
        if diameter <= high:
            return sqrt(low * high)
    return diameter


def percent_thread(thread: Thread, drill: float) -> float:
    """Share of the full thread that a drill [mm] leaves [%]. Source: 100 (D - drill) / (1.299 P), common to tap charts.

    >>> round(percent_thread(parse_thread("3/8-16"), 0.3125 * 25.4), 1)
    77.0
    """
    return 100 * (thread.major - drill) / (1.299038 * thread.pitch)


def tap_drill(thread: Thread, thin: bool = False) -> tuple[str, float] | None:
    """The drill to tap after, its name and diameter [mm]; thin: for about 50 %; None if not listed."""
    for row in _tap_rows():
        if row["thread"] == thread.name:
            column = "drill_50" if thin else "drill_75"
            scale = 1.0 if thread.metric else INCH
            return row[column], float(row[f"{column}_diameter"]) * scale
    return None


def clearance_hole(thread: Thread, fit: str = "normal") -> str | None:
    """The clearance hole as its drill is called, close, normal or loose; None when the size is not in the table."""
    size = thread.name.partition("x" if thread.metric else "-")[0]
    found = next((row for row in rows("clearance_holes") if row["size"] == size), None)
    if found is None:
        return None
    return f"{found[fit]} mm" if thread.metric else found[fit]


@cache
def _tap_rows() -> tuple[dict[str, str], ...]:
    return rows("tap_drills")
