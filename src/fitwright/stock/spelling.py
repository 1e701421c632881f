"""From a maker's words, such as `round tube 1 1/8 x 14 ga`, to stock."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction

from fitwright.stock.angles import Angle
from fitwright.stock.bought import Stock
from fitwright.stock.gauges import gauge_of, sheet_gauge, tube_gauge
from fitwright.stock.materials import METALS, WOODS, find_material
from fitwright.stock.mistakes import StockError
from fitwright.stock.reading import Size, Words, gauge_number, inch_words, mm_words, sizes_in, take_apart
from fitwright.stock.rectangles import Flat, Lumber, RectTube
from fitwright.stock.rounds import RoundBar, RoundTube
from fitwright.stock.section import Section
from fitwright.stock.sheet_goods import SheetGoods
from fitwright.stock.sizes import design_wall, dressed, panel_thickness, pipe_size, surfaced
from fitwright.stock.tables import inches, rows
from fitwright.units import INCH

LONGEST_SIDE_MM = 2000.0


@dataclass(frozen=True)
class _Made:
    """A section with the words for its sizes, and the material taken when none is said."""

    section: Section
    words: str
    grade: str


def parse_stock(text: str, key: str = "", grade: str | None = None, unit: str = "mm") -> Stock:
    """Stock from a maker's words; key: its short name in the job.

    grade: words for the material where `text` has none; unit: of bare numbers (inch, mm, cm), unless a fraction is
    among them, which means inches. Raises StockError with what is accepted and the nearest right word.

    >>> parse_stock("round tube 1.125 x 14 gauge", unit="inch").label
    'round tube 1 1/8 x 14 ga'
    >>> parse_stock("angle 30 x 30 x 3").label
    'angle 30 x 30 x 3 mm'
    """
    words = take_apart(text)
    said = words.rest if words.shape != "pipe" else _after_schedule(words.rest)
    asked = said or grade or ""
    made = _MAKERS[words.shape](words, unit, asked)
    material = find_material(asked or made.grade, _kinds(words.shape), made.grade)
    _not_absurd(words, made.section)
    usual = material.name == made.grade and material.is_metal
    return Stock(key, made.section, material, made.words if usual else f"{made.words} {material.name}")


def _kinds(shape: str) -> tuple[str, ...]:
    if shape in ("lumber", "board"):
        return WOODS
    return ("plywood",) if shape == "plywood" else METALS


def _round_tube(words: Words, unit: str, asked: str) -> _Made:
    sizes = sizes_in(words, unit)
    if len(sizes) == 3:
        return _rect_tube(words, unit, asked)
    od, wall = _count(words, sizes, 2)
    section = RoundTube(_mm(od), _wall(wall))
    return _Made(section, f"round tube {_tube_words(sizes)}", _tube_grade(sizes))


def _rect_tube(words: Words, unit: str, asked: str) -> _Made:
    sizes = sizes_in(words, unit)
    if len(sizes) == 2 and words.shape == "square tube":
        sizes = (sizes[0], *sizes)
    first, second, wall = _count(words, sizes, 3)
    width, height = sorted((_mm(first), _mm(second)), reverse=True)
    if words.shape == "square tube" and width != height:
        raise StockError(f"{words.text!r} is not square: write rectangular tube for sides that differ")
    t = _wall(wall)
    section = RectTube(width, height, t, corner_radius(t, wall.unit == "mm"))
    wider_first = (first, second, wall) if _mm(first) >= _mm(second) else (second, first, wall)
    shown = (first, wall) if width == height and first.unit == "inch" else wider_first
    return _Made(section, f"{section.shape} {_tube_words(shown)}", _tube_grade(sizes))


def corner_radius(wall: float, metric: bool) -> float:
    """Outside corner radius [mm] of square and rectangular tube of a wall [mm], where the maker states none.

    Metric: twice the wall up to 6 mm, 2.5 times up to 10, 3 times above. Inch: the middle of the range allowed for
    the wall. Holds for cold-formed welded tube with sides up to 100 mm. Source: EN 10219-2, annex B (from memory);
    ASTM A513, table of corner radii.

    >>> corner_radius(2.0, metric=True)
    4.0
    """
    allowed = [row for row in rows("tube_corners") if wall <= float(row["wall_up_to"]) * INCH + 1e-6]
    if metric or not allowed:
        return wall * (2.0 if wall <= 6.0 else 2.5 if wall <= 10.0 else 3.0)
    return float(inches(allowed[0]["least"]) + inches(allowed[0]["most"])) / 2 * INCH


def _hss(words: Words, unit: str, asked: str) -> _Made:
    sizes = sizes_in(words, unit)
    wall = _wall(sizes[-1]) if sizes else 0.0
    strength = design_wall(wall)
    if len(sizes) == 2:
        return _Made(RoundTube(_mm(sizes[0]), wall, strength), f"hss {_join(sizes)}", "mild steel A500")
    first, second, _ = _count(words, sizes, 3)
    width, height = sorted((_mm(first), _mm(second)), reverse=True)
    section = RectTube(width, height, wall, 2 * wall, strength)  # AISC Manual: outside radius of twice the wall
    ordered = sizes if _mm(first) >= _mm(second) else (second, first, sizes[2])
    return _Made(section, f"hss {_join(ordered)}", "mild steel A500")


def _pipe(words: Words, unit: str, asked: str) -> _Made:
    schedule = re.match(r"(?:sch(?:edule)?\.?\s*)?(\d+s?|std|xs)\b", words.rest)
    dn = re.match(r"dn\s*(\d+)\b", words.rest)
    if dn:
        schedule = re.match(r"\s*(?:sch(?:edule)?\.?\s*)?(\d+s?|std|xs)\b", words.rest[dn.end() :])
    if not schedule or not (dn or len(words.sizes) == 1):
        raise StockError(f"{words.text!r} is not a pipe: write it as in {words.spelling}")
    section = pipe_size(f"dn {dn[1]}" if dn else words.sizes[0][0], schedule[1])
    return _Made(section, f"pipe {section.nps} sch {section.schedule}", "mild steel A53")


def _after_schedule(rest: str) -> str:
    return re.sub(r"^(?:dn\s*\d+\s*)?(?:sch(?:edule)?\.?\s*)?(?:\d+s?|std|xs)\b", "", rest).strip(" ,")


def _angle(words: Words, unit: str, asked: str) -> _Made:
    sizes = sizes_in(words, unit)
    if len(sizes) == 2:
        sizes = (sizes[0], *sizes)
    first, second, thick = _count(words, sizes, 3)
    a, b = sorted((_mm(first), _mm(second)), reverse=True)
    root = _root_radius(a, first.unit)
    t = _mm(thick)
    section = Angle(a, b, t, root, min(root / 2, t))
    ordered = (first, second, thick) if _mm(first) >= _mm(second) else (second, first, thick)
    return _Made(section, f"angle {_join(ordered)}", _bar_grade(sizes))


def _root_radius(leg: float, system: str) -> float:
    scale = INCH if system == "inch" else 1.0
    known = [row for row in rows("angle_roots") if row["system"] == system]
    row = next((row for row in known if leg <= float(row["leg_up_to"]) * scale + 1e-6), known[-1])
    return float(row["root_radius"]) * scale


def _flat(words: Words, unit: str, asked: str) -> _Made:
    sizes = _count(words, sizes_in(words, unit), 2)
    ordered = tuple(sorted(sizes, key=_mm, reverse=True))
    section = Flat(_mm(ordered[0]), _mm(ordered[1]))
    shown = ordered[:1] if section.shape == "square bar" else ordered
    return _Made(section, f"{section.shape} {_join(shown)}", _bar_grade(sizes))


def _square_bar(words: Words, unit: str, asked: str) -> _Made:
    sizes = _count(words, sizes_in(words, unit), 1)
    side = _mm(sizes[0])
    return _Made(Flat(side, side), f"square bar {_join(sizes)}", _bar_grade(sizes))


def _round_bar(words: Words, unit: str, asked: str) -> _Made:
    sizes = _count(words, sizes_in(words, unit), 1)
    return _Made(RoundBar(_mm(sizes[0])), f"round bar {_join(sizes)}", _bar_grade(sizes))


def _lumber(words: Words, unit: str, asked: str) -> _Made:
    if any(said not in (None, *("in", "inch", "inches", '"')) for _, said in words.sizes):
        return _board(words, unit, asked)
    if len(words.sizes) != 2:
        raise StockError(f"{words.text!r} needs a nominal thickness and width: write it as in {words.spelling}")
    first, second = sorted((number for number, _ in words.sizes), key=_nominal)
    thickness, width = dressed(_nominal(first), _nominal(second))
    section = Lumber(max(width, thickness), min(width, thickness), f"{first}x{second}")
    return _Made(section, f"lumber {section.nominal}", "spruce-pine-fir")


def _nominal(text: str) -> Fraction:
    try:
        return inches(text.replace("-", " "))
    except (ValueError, ZeroDivisionError):
        raise StockError(f"{text!r} is not a nominal lumber size: write it as in lumber 1x4") from None


def _board(words: Words, unit: str, asked: str) -> _Made:
    quarters = re.fullmatch(r"(\d+)/4", words.sizes[0][0]) if words.sizes else None
    if quarters and int(quarters[1]) >= 4 and words.sizes[0][1] is None:
        return _quarter_board(words, unit, quarters[0])
    sizes = tuple(sorted(_count(words, sizes_in(words, unit), 2), key=_mm))
    section = Lumber(_mm(sizes[1]), _mm(sizes[0]))
    return _Made(section, f"board {_join(sizes)}", "eastern white pine")


def _quarter_board(words: Words, unit: str, quarters: str) -> _Made:
    sizes = sizes_in(replace(words, sizes=words.sizes[1:]), unit)
    (width,) = _count(words, sizes, 1)
    section = Lumber(_mm(width), surfaced(quarters), quarters)
    return _Made(section, f"board {quarters} x {_join(sizes)}", "northern red oak")


def _plywood(words: Words, unit: str, asked: str) -> _Made:
    sizes = _count(words, sizes_in(words, unit), 1)
    size = sizes[0]
    actual = panel_thickness(_nominal(size.text)) if size.unit == "inch" and "/" in size.text else None
    section = SheetGoods(actual or _mm(size), "plywood", inch_words(_mm(size)) if actual else "")
    return _Made(section, f"plywood {_join(sizes)}", "birch plywood")


def _sheet(words: Words, unit: str, asked: str) -> _Made:
    sizes = _count(words, sizes_in(words, unit), 1)
    size = sizes[0]
    kind = "sheet" if words.shape == "sheet" else "plate"
    default = ("sheet steel A1011" if kind == "sheet" else "mild steel A36") if size.unit != "mm" else "mild steel S235"
    material = find_material(asked or default, METALS, default)
    table = "galvanised" if "galvanised" in material.name else material.kind
    if size.unit == "ga":
        return _Made(SheetGoods(sheet_gauge(gauge_number(size), table)), f"{kind} {size.text} ga", default)
    number = gauge_of(_mm(size), table) if size.unit == "inch" and "/" not in size.text else None
    return _Made(SheetGoods(_mm(size)), f"{kind} {f'{number} ga' if number else _join(sizes)}", default)


_MAKERS: dict[str, Callable[[Words, str, str], _Made]] = {
    "round tube": _round_tube,
    "square tube": _rect_tube,
    "rectangular tube": _rect_tube,
    "hss": _hss,
    "pipe": _pipe,
    "angle": _angle,
    "flat": _flat,
    "round bar": _round_bar,
    "square bar": _square_bar,
    "lumber": _lumber,
    "board": _board,
    "plywood": _plywood,
    "sheet": _sheet,
    "plate": _sheet,
}


def _count(words: Words, sizes: tuple[Size, ...], wanted: int) -> tuple[Size, ...]:
    if len(sizes) != wanted:
        raise StockError(
            f"{words.text!r} has {len(sizes)} sizes and {words.shape} needs {wanted}: write it as in {words.spelling}"
        )
    return sizes


def _mm(size: Size) -> float:
    if size.mm is None:
        raise StockError(f"{size.text} ga is a thickness of tube or sheet, not a size across: give it in in or mm")
    return size.mm


def _wall(size: Size) -> float:
    return tube_gauge(gauge_number(size)) if size.unit == "ga" else _mm(size)


def _tube_words(sizes: tuple[Size, ...]) -> str:
    """As `_join`, with the wall of inch tube by its gauge where it has one."""
    *across, wall = sizes
    number = gauge_of(_wall(wall), "tube") if wall.unit == "inch" and "/" not in wall.text else None
    return _join((*across, Size(str(number), "ga", None)) if number else sizes)


def _join(sizes: tuple[Size, ...]) -> str:
    """The sizes in words that read the same in any job: `1 1/8 x 14 ga`, `2 x 1 in`, `40 x 40 x 2 mm`."""
    units = {size.unit for size in sizes if size.unit != "ga"}
    last = max((k for k, size in enumerate(sizes) if size.unit != "ga"), default=-1)
    texts = [_size_words(size) for size in sizes]
    bare = units == {"inch"} and any("/" in text for text in texts)
    for k, size in enumerate(sizes):
        if size.unit != "ga" and not bare and (k == last or len(units) > 1):
            texts[k] += " mm" if size.unit == "mm" else " in"
    return " x ".join(texts)


def _size_words(size: Size) -> str:
    if size.unit == "ga":
        return f"{size.text} ga"
    return inch_words(_mm(size)) if size.unit == "inch" else mm_words(_mm(size))


def _tube_grade(sizes: tuple[Size, ...]) -> str:
    return "mild steel S235" if sizes[0].unit == "mm" else "mild steel A513"


def _bar_grade(sizes: tuple[Size, ...]) -> str:
    return "mild steel S235" if sizes[0].unit == "mm" else "mild steel A36"


def _not_absurd(words: Words, section: Section) -> None:
    if max(section.dimensions.values()) > LONGEST_SIDE_MM:
        raise StockError(f"{words.text!r} is more than {LONGEST_SIDE_MM:g} mm across: check its unit")
