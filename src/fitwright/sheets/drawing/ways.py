"""The ways in which a dimension or mark of a sketch can be placed, the best liked first."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, cos, hypot, pi, sin

from fitwright.sheets.drawing import lettering
from fitwright.sheets.drawing.dimensions import TEXT_OFF
from fitwright.sheets.drawing.ink import upright
from fitwright.sheets.drawing.model import (
    DIMENSION_TEXT,
    AngleDimension,
    DrawingError,
    LinearDimension,
    PartMark,
    Point,
    RadiusDimension,
)

SHARES = (0.5, 0.3, 0.7, 0.1, 0.9)
LEANS = (0.0, 0.4, -0.4, 0.8, -0.8, 1.2, -1.2, pi, 2.6, -2.6)
ARROWS_INSIDE = 8.0  # the shortest dimension line that holds both its arrows [mm]


@dataclass(frozen=True)
class AlongWish:
    """A length along the line from start to end, `off` mm of paper to the left of it (right where negative)."""

    start: Point
    end: Point
    off: float
    text: str

    def ways(self, factor: float) -> list[LinearDimension]:
        """The wished distance, further out, then the other side."""
        way = 1.0 if self.off >= 0 else -1.0
        offs = [self.off + way * more for more in (0.0, 5.0, 10.0, 16.0)]
        return [self._at(off, factor) for off in (*offs, *(-off for off in offs[:3]))]

    def _at(self, off: float, factor: float) -> LinearDimension:
        value = hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])
        if value <= 0:
            raise DrawingError(f"a length from {self.start} to itself has no direction")
        unit = ((self.end[0] - self.start[0]) / value, (self.end[1] - self.start[1]) / value)
        half, drawn = _half(self.text), value * factor
        inside = drawn >= 2 * half + 2
        base = moved(self.start, (-unit[1], unit[0]), off / factor)
        angle = upright(atan2(unit[1], unit[0]))
        along = drawn / 2 if inside else drawn + 4 + half
        text_at = moved(moved(base, unit, along / factor), (-sin(angle), cos(angle)), TEXT_OFF / factor)
        outward = not inside or drawn < ARROWS_INSIDE
        return LinearDimension(self.start, self.end, unit, base, value, self.text, text_at, outward)


@dataclass(frozen=True)
class RadiusWish:
    """A radius with its arrow on the arc at an angle [rad] from the centre."""

    centre: Point
    radius: float
    at_angle: float
    text: str

    def ways(self, factor: float) -> list[RadiusDimension]:
        """The text beyond the arc, straight out or leaning, then inside it."""
        return [self._at(reach, lean, factor) for reach in (8.0, 14.0, 20.0, -8.0) for lean in LEANS[:7]]

    def _at(self, reach: float, lean: float, factor: float) -> RadiusDimension:
        out = self.at_angle + lean + (pi if reach < 0 else 0.0)
        tip = moved(self.centre, (cos(self.at_angle), sin(self.at_angle)), self.radius)
        return RadiusDimension(
            self.centre, self.radius, self.at_angle, self.text, _landed(tip, abs(reach), out, self.text, factor)
        )


@dataclass(frozen=True)
class AngleWish:
    """An angle from start counterclockwise to end [rad], on an arc `off` mm of paper from its vertex."""

    vertex: Point
    start: float
    end: float
    off: float
    text: str

    def ways(self, factor: float) -> list[AngleDimension]:
        """The text beyond the middle of the arc, or nearer to one of its ends; arcs near the wished size."""
        return [self._at(self.off + more, share, factor) for share in SHARES for more in (0.0, 5.0, -5.0, 10.0, 15.0)]

    def _at(self, off: float, share: float, factor: float) -> AngleDimension:
        at = self.start + share * (self.end - self.start)
        clear = off + 2 + abs(cos(at)) * _half(self.text) + abs(sin(at)) * DIMENSION_TEXT / 2
        text_at = moved(self.vertex, (cos(at), sin(at)), clear / factor)
        return AngleDimension(self.vertex, self.start, self.end, off / factor, self.text, text_at)


@dataclass(frozen=True)
class MarkWish:
    """A mark whose leader leaves its part in a direction [rad]; reaches: how long it may be, best first [mm]."""

    text: str
    anchor: Point
    way: float
    reaches: tuple[float, ...] = (10.0, 16.0, 22.0)

    def ways(self, factor: float) -> list[PartMark]:
        """The wished direction, then others; short leaders before long ones."""
        return [
            PartMark(self.text, self.anchor, _landed(self.anchor, reach, self.way + lean, self.text, factor))
            for reach in self.reaches
            for lean in LEANS
        ]


Wish = AlongWish | RadiusWish | AngleWish | MarkWish


def _landed(tip: Point, reach: float, way: float, text: str, factor: float) -> Point:
    """Middle of a text whose leader runs from a tip in a direction [rad] for `reach` mm of paper."""
    end = moved(tip, (cos(way), sin(way)), reach / factor)
    half = _half(text) if cos(way) >= 0 else -_half(text)
    return (end[0] + half / factor, end[1] + TEXT_OFF / factor)


def _half(text: str) -> float:
    return lettering.width(text, DIMENSION_TEXT) / 2


def moved(point: Point, way: Point, by: float) -> Point:
    """A point moved along a unit vector."""
    return (point[0] + way[0] * by, point[1] + way[1] * by)
