"""Springback over the angle bent to, as a picture: trials, what they lead to expect with its band, and physics."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup, escape

from fitwright.making.bending.trialled import Trialled
from fitwright.shop.records import Trial
from fitwright.units import Style

WIDTH, HEIGHT = 720.0, 420.0
LEFT, RIGHT, TOP, BOTTOM = 64.0, 16.0, 16.0, 56.0
ANGLES = (0, 30, 60, 90, 120)
LAST = 135.0
SIGN = 6.0


@dataclass(frozen=True)
class Axes:
    """Where degrees bent to and degrees sprung back are on the picture; springback from `low` to `high`."""

    low: float
    high: float

    def x(self, asked: float) -> float:
        """Across."""
        return LEFT + (WIDTH - LEFT - RIGHT) * asked / LAST

    def y(self, opened: float) -> float:
        """Down."""
        return TOP + (HEIGHT - TOP - BOTTOM) * (self.high - opened) / (self.high - self.low)


def plot_of(found: Trialled, left_out: Sequence[Trial], style: Style) -> Markup:
    """The picture (SVG) with its words; colours are the page's."""
    curve = [(math.degrees(p.asked), *map(math.degrees, (p.mean, p.low, p.high))) for p in found.curve()]
    trials = found.law.trials if found.law else ()
    seen = [math.degrees(one.opened) for one in trials] + [one.asked_deg - one.got_deg for one in left_out]
    axes = _axes([low for *_, low, _ in curve] + seen, [high for *_, high in curve] + seen)
    band = [(x, high) for x, _, _, high in curve] + [(x, low) for x, _, low, _ in reversed(curve)]
    heat = found.law.heat if found.law else ""
    parts = [
        *_grid(axes),
        _line("band", band, axes, close=True),
        _line("physics", [(x, math.degrees(found.by_physics(math.radians(x)))) for x, *_ in curve], axes),
        _line("mean", [(x, mean) for x, mean, _, _ in curve], axes),
        *(_sign(one.heat == heat, math.degrees(one.asked), math.degrees(one.opened), axes) for one in trials),
        *(_cross(one.asked_deg, one.asked_deg - one.got_deg, axes) for one in left_out),
    ]  # fmt: skip
    title = f"Springback of {found.stock.label} on die {found.die.name}: {found.told(style)[0]}"
    head = (
        f'<svg class="springback" viewBox="0 0 {WIDTH:g} {HEIGHT:g}" role="img" aria-labelledby="springback-title">'
        f'<title id="springback-title">{escape(title)}</title>'
    )
    return Markup(head + "".join(parts) + "</svg>")


def _axes(lows: Sequence[float], highs: Sequence[float]) -> Axes:
    low, high = min(0.0, *lows), max(1.0, *highs)
    step = _step(high - low)
    return Axes(math.floor(low / step) * step, math.ceil(high / step) * step)


def _step(span: float) -> float:
    """Degrees from one line to the next: about six lines."""
    return next(step for step in (0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 90.0) if span / step <= 8 or step == 90.0)


def _grid(axes: Axes) -> list[str]:
    step = _step(axes.high - axes.low)
    lines = [axes.low + step * k for k in range(round((axes.high - axes.low) / step) + 1)]
    across = [
        f'<line class="grid" x1="{LEFT:g}" x2="{WIDTH - RIGHT:g}" y1="{axes.y(one):.1f}" y2="{axes.y(one):.1f}"/>'
        f'<text x="{LEFT - 10:g}" y="{axes.y(one) + 5:.1f}" text-anchor="end">{one:g}°</text>'
        for one in lines
    ]
    down = [
        f'<line class="grid" x1="{axes.x(one):.1f}" x2="{axes.x(one):.1f}" y1="{TOP:g}" y2="{HEIGHT - BOTTOM:g}"/>'
        f'<text x="{axes.x(one):.1f}" y="{HEIGHT - BOTTOM + 22:g}" text-anchor="middle">{one}°</text>'
        for one in ANGLES
    ]
    words = f'<text x="{(WIDTH + LEFT) / 2:g}" y="{HEIGHT - 10:g}" text-anchor="middle">angle bent to</text>'
    place = f"translate(16 {HEIGHT / 2 - 20:g}) rotate(-90)"
    turned = f'<text class="beside" transform="{place}" text-anchor="middle">springs back by</text>'
    return [*across, *down, words, turned]


def _line(name: str, points: Sequence[tuple[float, float]], axes: Axes, close: bool = False) -> str:
    inside = [(axes.x(x), axes.y(y)) for x, y in points]
    way = "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in inside) + ("Z" if close else "")
    return f'<path class="{name}" d="{way}"/>'


def _sign(same_heat: bool, asked: float, opened: float, axes: Axes) -> str:
    x, y = axes.x(min(asked, LAST)), axes.y(opened)
    if same_heat:
        return f'<circle class="trial" cx="{x:.1f}" cy="{y:.1f}" r="{SIGN:g}"/>'
    s = SIGN + 1
    return f'<path class="trial other" d="M{x:.1f} {y - s:.1f}l{s:g} {s:g}l-{s:g} {s:g}l-{s:g} -{s:g}z"/>'


def _cross(asked: float, opened: float, axes: Axes) -> str:
    x, y = axes.x(min(asked, LAST)), axes.y(opened)
    s = 2 * SIGN
    return f'<path class="left-out" d="M{x - SIGN:.1f} {y - SIGN:.1f}l{s:g} {s:g}m0 -{s:g}l-{s:g} {s:g}"/>'
