"""Price against stiffness against weight: each way of making it a spot, and those that none beats marked.

Colour is never the only signal: what is beaten by none is filled and has its number, what fails is a cross.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from html import escape
from typing import Literal

from fitwright.pricing.exploring.front import FAILS, aims, best_few, not_beaten
from fitwright.pricing.exploring.trying import Tried
from fitwright.sheets.exploring.axes import Axis, axis_for
from fitwright.sheets.quote.weighing import gives, priced
from fitwright.units import Style

SMALLEST, LARGEST = 5.0, 14.0
FONT = "DejaVu Sans Mono, monospace"
LETTER = 0.61
"""Width of a letter of that font, of its size."""
INK, MARKED, FAINT = "#111", "#1d4e89", "#777"
LINE = 16.0
LEFT, RIGHT, TOP = 62.0, 16.0, 44.0
BOTTOM = 42.0 + 5 * LINE
FINGER = 22.0
"""Radius of what can be tapped round a spot."""

Box = tuple[float, float, float, float]
Sign = Literal["marked", "beaten", "fails"]
LAST: tuple[Sign, ...] = ("beaten", "fails", "marked")
"""In which order they are drawn, the last on top."""


@dataclass(frozen=True)
class Frame:
    """How large the picture is, the size of its letters, whether all spots have their number, and where they lead."""

    wide: float = 720.0
    high: float = 560.0
    all_numbers: bool = False
    link: Callable[[int], str] | None = None
    title: str = ""


@dataclass(frozen=True)
class Spot:
    """One way of making it, where it is drawn: middle, radius, sign, why it is one of the best, and words for it."""

    number: int
    x: float
    y: float
    radius: float
    sign: Sign
    best: str
    words: str


@dataclass(frozen=True)
class Layout:
    """The spots and the axes that they stand between; none where nothing could be worked out."""

    spots: tuple[Spot, ...]
    across: Axis | None
    up: Axis | None


def spots_of(rows: Sequence[Tried], style: Style, frame: Frame) -> Layout:
    """Where each way is drawn; those that could not be worked out, or lack a price, are not."""
    drawn = [(row, aim) for row in rows if row.figures is not None and (aim := aims(row.figures)) is not None]
    if not drawn:
        return Layout((), None, None)
    across = axis_for([net for _, (net, _, _) in drawn], LEFT, frame.wide - RIGHT, most=int(frame.wide / 110))
    up = axis_for([100 * give for _, (_, give, _) in drawn], frame.high - BOTTOM, TOP)
    masses = [mass for _, (_, _, mass) in drawn]
    front, best = not_beaten(rows), best_few(rows)
    spots = [
        Spot(
            row.point.number,
            across.at(net),
            up.at(100 * give),
            _radius(mass, min(masses), max(masses)),
            _sign(row, front),
            best.get(row.point.number, ""),
            _words(row, style),
        )
        for row, (net, give, mass) in drawn
    ]
    return Layout(tuple(sorted(spots, key=lambda spot: LAST.index(spot.sign))), across, up)


def _sign(row: Tried, front: frozenset[int]) -> Sign:
    if row.figures is not None and row.figures.verdict == FAILS:
        return "fails"
    return "marked" if row.point.number in front else "beaten"


def _words(row: Tried, style: Style) -> str:
    figures = row.figures
    assert figures is not None
    told = f"{row.point.words}: {priced(figures.net)}, {gives(figures)} of the movement allowed"
    return f"{row.point.number}: {told}, {style.weight(figures.mass)}"


def _radius(mass: float, least: float, most: float) -> float:
    """The heavier, the larger."""
    return SMALLEST if most <= least else SMALLEST + (LARGEST - SMALLEST) * (mass - least) / (most - least)


USUAL = Frame()


def explored_svg(rows: Sequence[Tried], style: Style, currency: str, frame: Frame = USUAL) -> str:
    """The picture as SVG; one whose spots lead somewhere is left to the eye and the finger: its table says the same."""
    layout = spots_of(rows, style, frame)
    body = list(_body(layout, rows, style, currency, frame))
    seen = 'aria-hidden="true"' if frame.link else f'role="img" aria-label="{escape(frame.title)}"'
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {frame.wide:g} {frame.high:g}" '
        f'width="{frame.wide:g}" height="{frame.high:g}" font-family="{FONT}" font-size="12" fill="{INK}" {seen}>'
        f'<rect width="{frame.wide:g}" height="{frame.high:g}" fill="#fff"/>{"".join(body)}</svg>'
    )


def _body(layout: Layout, rows: Sequence[Tried], style: Style, currency: str, frame: Frame) -> Iterator[str]:
    yield _text(10, 20, frame.title, size=14, bold=True)
    if layout.across is None or layout.up is None:
        yield _text(10, frame.high / 2, "nothing could be worked out: see the table")
        return
    yield from _scales(layout.across, layout.up, currency, frame)
    for spot in layout.spots:
        yield _linked(spot, frame)
    yield from _labels(layout.spots, frame)
    yield from _legend(rows, style, frame)


def _scales(across: Axis, up: Axis, currency: str, frame: Frame) -> Iterator[str]:
    foot, end = frame.high - BOTTOM, frame.wide - RIGHT
    for tick in across.ticks:
        x = across.at(tick)
        yield f'<line x1="{x:.1f}" y1="{TOP}" x2="{x:.1f}" y2="{foot}" stroke="#ddd"/>'
        yield _text(x, foot + 16, f"{tick:,.0f}".replace(",", " "), anchor="middle")
    for tick in up.ticks:
        y = up.at(tick)
        yield f'<line x1="{LEFT}" y1="{y:.1f}" x2="{end}" y2="{y:.1f}" stroke="#ddd"/>'
        yield _text(LEFT - 6, y + 4, f"{tick:g} %", anchor="end")
    yield f'<path d="M{LEFT} {TOP}V{foot}H{end}" fill="none" stroke="{INK}"/>'
    yield _text(end, foot + 34, f"price before tax, {currency} →", anchor="end")
    yield _text(10, TOP - 8, "↑ of the movement allowed: lower is stiffer", size=11)


def _linked(spot: Spot, frame: Frame) -> str:
    drawn = f"<title>{escape(spot.words)}</title>{_drawn(spot.sign, spot.x, spot.y, spot.radius)}"
    if frame.link is None:
        return f"<g>{drawn}</g>"
    finger = f'<circle cx="{spot.x:.1f}" cy="{spot.y:.1f}" r="{FINGER:g}" fill="#fff" fill-opacity="0"/>'
    return f'<a href="{escape(frame.link(spot.number))}" tabindex="-1">{drawn}{finger}</a>'


def _drawn(sign: Sign, x: float, y: float, r: float) -> str:
    if sign == "fails":
        d = f"M{x - r:.1f} {y - r:.1f}L{x + r:.1f} {y + r:.1f}M{x - r:.1f} {y + r:.1f}L{x + r:.1f} {y - r:.1f}"
        return f'<path d="{d}" stroke="{FAINT}" stroke-width="1.6" fill="none"/>'
    fill = MARKED if sign == "marked" else "#fff"
    return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{r:.1f}" fill="{fill}" stroke="{INK}"/>'


def _labels(spots: Sequence[Spot], frame: Frame) -> Iterator[str]:
    """Numbers beside the spots, each where it stands on no other and on no spot, if there is such a place."""
    taken = [(one.x - one.radius, one.y - one.radius, one.x + one.radius, one.y + one.radius) for one in spots]
    for spot in sorted(spots, key=lambda one: (LAST.index(one.sign), one.x), reverse=True):
        if spot.sign != "marked" and not frame.all_numbers:
            continue
        told = f"{spot.number}" if frame.all_numbers else f"{spot.number} {spot.best}".strip()
        wide = LETTER * 12 * len(told)
        free = [box for box in _places(spot, wide) if _inside(box, frame)]
        box = next((one for one in free if not any(_meet(one, other) for other in taken)), free[0] if free else None)
        if box is not None:
            taken.append(box)
            yield _text(box[0], box[3] - 2, told, bold=spot.sign == "marked")


def _places(spot: Spot, wide: float) -> Iterator[Box]:
    """Boxes for a label: beside its spot, above and below it, then further and further off."""
    for step in range(5):
        off = spot.radius + 3 + step * (LINE - 4)
        middle, tall = spot.x - wide / 2, LINE - 4
        yield (spot.x + off, spot.y - tall / 2, spot.x + off + wide, spot.y + tall / 2)
        yield (middle, spot.y - off - tall, middle + wide, spot.y - off)
        yield (middle, spot.y + off, middle + wide, spot.y + off + tall)
        yield (spot.x - off - wide, spot.y - tall / 2, spot.x - off, spot.y + tall / 2)


def _inside(box: Box, frame: Frame) -> bool:
    return box[0] > 2 and box[1] > TOP - LINE and box[2] < frame.wide - 2 and box[3] < frame.high - BOTTOM + 2


def _meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _legend(rows: Sequence[Tried], style: Style, frame: Frame) -> Iterator[str]:
    known = [row.figures.mass for row in rows if row.figures is not None]
    left_out = sum(row.figures is None or aims(row.figures) is None for row in rows)
    y = frame.high - BOTTOM + 42 + LINE
    signs: tuple[tuple[Sign, str], ...] = (
        ("marked", "beaten by none: as cheap, stiff and light"),
        ("beaten", "beaten by another"),
        ("fails", "a check fails"),
    )
    for sign, words in signs:
        yield _drawn(sign, 18, y - 4, 5)
        yield _text(32, y, words, size=11)
        y += LINE
    heavy = f"the larger, the heavier: {style.weight(min(known))} to {style.weight(max(known))}"
    yield _text(10, y, heavy, size=11)
    if left_out:
        yield _text(10, y + LINE, f"{left_out} not drawn: see the table", size=11)


def _text(x: float, y: float, said: str, anchor: str = "start", size: float = 12, bold: bool = False) -> str:
    weight = ' font-weight="bold"' if bold else ""
    return f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" font-size="{size:g}"{weight}>{escape(said)}</text>'
