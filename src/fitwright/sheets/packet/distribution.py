"""The picture of how something comes out in many builds, against the limits it is held to: black and white."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from fitwright.mechanics.variation import Chance
from fitwright.sheets.drawing import Drawing, LineKind, Sketch, lettering
from fitwright.sheets.drawing.model import SMALL_TEXT, Anchor
from fitwright.sheets.drawing.scales import Scale
from fitwright.units import INCH, Style

TRUE_SIZE = Scale(Fraction(1))
NEAR = 2.0  # a limit farther off than this many widths of what occurs is told, not drawn
HATCHED = 1.3
TICK, LABEL_GAP, ROW = 1.5, 1.2, 4.2
MOST_TICKS = 6
INCH_STEPS = tuple(INCH * step for step in (1 / 64, 1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2, 4, 8, 16))
METRIC_STEPS = tuple(step * 10.0**power for power in range(-1, 4) for step in (1, 2, 5))
LEAST_SPAN_MM = 1.0


@dataclass(frozen=True)
class Limit:
    """A limit on the picture: where [mm], whether the value is to be above it, and what it is called."""

    at: float
    above: bool
    name: str


@dataclass(frozen=True)
class _Axis:
    """From low to high [mm] over a width [mm of paper]."""

    low: float
    high: float
    width: float

    def at(self, value: float) -> float:
        """Place of a value on the paper, kept within the axis [mm]."""
        share = (value - self.low) / (self.high - self.low)
        return min(max(share, 0.0), 1.0) * self.width

    def shows(self, value: float) -> bool:
        """Whether a value lies on it."""
        return self.low <= value <= self.high


def limits_of(chances: Sequence[Chance]) -> tuple[Limit, ...]:
    """The limits of all demands on one number."""
    found = []
    for chance in chances:
        low, high = chance.histogram.low, chance.histogram.high
        found += [Limit(low, True, chance.name)] if low is not None else []
        found += [Limit(high, False, chance.name)] if high is not None else []
    return tuple(found)


def distribution_picture(
    chance: Chance, limits: Sequence[Limit], style: Style, size: tuple[float, float] = (84.0, 48.0)
) -> Drawing:
    """How often each value comes out, as a skyline over a scale in the job's unit; what misses a limit is hatched.

    limits: the first decides what is hatched; style: fine enough for what is shown; size: of the skyline [mm of paper].
    """
    axis = _axis(chance, limits, size[0])
    sketch = Sketch(style)
    _skyline(sketch, chance, axis, limits, size[1])
    sketch.line((0.0, 0.0), (size[0], 0.0), LineKind.VISIBLE)
    for value in _ticks(axis, style):
        sketch.line((axis.at(value), 0.0), (axis.at(value), -TICK), LineKind.THIN)
        sketch.text(style.bare(value), (axis.at(value), -TICK - LABEL_GAP - SMALL_TEXT / 2), SMALL_TEXT)
    for row, limit in enumerate(sorted(limits, key=lambda one: (not axis.shows(one.at), one.at))):
        _limit(sketch, limit, axis, style, size[1], row)
    return sketch.drawing(scale=TRUE_SIZE)


def _axis(chance: Chance, limits: Sequence[Limit], width: float) -> _Axis:
    edges = chance.histogram.edges
    low, high = float(edges[0]), float(edges[-1])
    middle, half = (low + high) / 2, max(high - low, LEAST_SPAN_MM) / 2
    low, high = middle - half, middle + half
    near = [one.at for one in limits if abs(one.at - middle) <= half * (1 + 2 * NEAR)]
    edge = 0.06 * half
    return _Axis(min([low, *near]) - edge, max([high, *near]) + edge, width)


def _skyline(sketch: Sketch, chance: Chance, axis: _Axis, limits: Sequence[Limit], height: float) -> None:
    picture = chance.histogram
    tallest = max(int(picture.counts.max()), 1)
    outline = [(axis.at(float(picture.edges[0])), 0.0)]
    bars = zip(picture.edges[:-1].tolist(), picture.edges[1:].tolist(), picture.counts.tolist(), strict=True)
    for start, end, count in bars:
        top = height * count / tallest
        outline += [(axis.at(start), top), (axis.at(end), top)]
        for first, last in _missing(start, end, limits[:1]) if top > 0 else ():
            left, right = axis.at(first), axis.at(last)
            sketch.hatch([(left, 0.0), (right, 0.0), (right, top), (left, top)], HATCHED)
    sketch.polyline([*outline, (axis.at(float(picture.edges[-1])), 0.0)])


def _missing(start: float, end: float, limits: Sequence[Limit]) -> Iterator[tuple[float, float]]:
    """What of a bar lies on the wrong side of a limit."""
    for limit in limits:
        first, last = (start, min(end, limit.at)) if limit.above else (max(start, limit.at), end)
        if first < last:
            yield first, last


def _limit(sketch: Sketch, limit: Limit, axis: _Axis, style: Style, height: float, row: int) -> None:
    """A thick line, its words over it; words alone where it lies beyond the picture."""
    words = f"{limit.name}: {'at least' if limit.above else 'at most'} {style.length(limit.at)}"
    if not axis.shows(limit.at):
        words += ", far to the left" if limit.at < axis.low else ", far to the right"
    at = axis.at(limit.at)
    if axis.shows(limit.at):
        sketch.line((at, -TICK), (at, height + LABEL_GAP), LineKind.FRAME)
    place, anchor = _beside(at, lettering.width(words, SMALL_TEXT) / 2, axis.width)
    sketch.text(words, (place, height + 2 * LABEL_GAP + ROW * row + SMALL_TEXT / 2), SMALL_TEXT, anchor)


def _beside(at: float, half: float, width: float) -> tuple[float, Anchor]:
    """Words in the middle over a place where they stay on the picture, else from or to its edge."""
    if at < half:
        return 0.0, "start"
    return (width, "end") if at > width - half else (at, "middle")


def _ticks(axis: _Axis, style: Style) -> Iterator[float]:
    steps = INCH_STEPS if style.unit == "inch" else METRIC_STEPS
    span = axis.high - axis.low
    step = next((one for one in steps if span / one <= MOST_TICKS), steps[-1])
    number = int(axis.low // step) + 1
    while number * step <= axis.high:
        yield number * step
        number += 1
