"""Sizes that are sold under another number than they measure: pipe, dressed lumber, hardwood quarters, plywood."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from fitwright.stock.mistakes import StockError, nearest
from fitwright.stock.rounds import Pipe
from fitwright.stock.tables import inch_mm, inches, rows
from fitwright.units import INCH

ERW_WALL = 0.93  # AISC 360 B4.2: design wall of electric-resistance-welded HSS and pipe, as a part of the nominal
SCHEDULES = {"std": "40", "40s": "40", "xs": "80", "80s": "80"}  # the same walls up to NPS 4; ASME B36.10M


def design_wall(nominal: float) -> float:
    """Wall [mm] that counts for the strength of HSS and pipe, rounded to 0.001 in as AISC tabulates it.

    Holds for ASTM A500 and A53; mechanical tube (A513) uses its real wall. Source: AISC 360-16, B4.2.
    """
    listed = (row["design"] for row in rows("design_walls") if abs(inch_mm(row["nominal"]) - nominal) < 1e-6)
    return inch_mm(next(listed, f"{ERW_WALL * nominal / INCH:.3f}"))


def pipe_size(nps: str, schedule: str = "40") -> Pipe:
    """Pipe by nominal pipe size (`1 1/4`, or `DN 32`) and schedule (40, 80, 160, std, xs).

    Raises StockError for a size or schedule that is not in the table. Source: ASME B36.10M.

    >>> pipe = pipe_size("1", "40")
    >>> round(pipe.od / 25.4, 3), round(pipe.wall / 25.4, 3)
    (1.315, 0.133)
    """
    row = _pipe_row(nps)
    name = SCHEDULES.get(schedule.lower(), schedule)
    wall = row.get(f"sch{name}", "")
    if not wall:
        have = [key[3:] for key, value in row.items() if key.startswith("sch") and value]
        raise StockError(
            f"pipe {row['nps']} has no schedule {schedule!r} here: sch {', '.join(have)}, std and xs are accepted"
        )
    nominal = inch_mm(wall)
    return Pipe(inch_mm(row["od"]), nominal, design_wall(nominal), row["nps"], name)


def _pipe_row(nps: str) -> dict[str, str]:
    size = nps.strip().lower().replace("-", " ")
    dn = size.removeprefix("dn").strip() if size.startswith("dn") else None
    for row in rows("pipe"):
        if row["dn"] == dn or (dn is None and _same(row["nps"], size)):
            return row
    sizes = [row["nps"] for row in rows("pipe")]
    raise StockError(f"{nps!r} is not a nominal pipe size{nearest(size, sizes)} accepted: {', '.join(sizes)}")


def _same(one: str, other: str) -> bool:
    try:
        return inches(one) == inches(other)
    except (ValueError, ZeroDivisionError):
        return False


def dressed(thickness: Fraction, width: Fraction, green: bool = False) -> tuple[float, float]:
    """Actual (thickness, width) [mm] of surfaced softwood of a nominal size [in].

    Raises StockError for a nominal size that the standard does not list.
    Source: American Softwood Lumber Standard PS 20.

    >>> dressed(Fraction(2), Fraction(4))
    (38.1, 88.9)
    """
    board = thickness < 2
    kinds = ("board thickness",) if board else ("dimension thickness", "face width")
    faces = ("face width", "board face width") if board else ("face width",)
    column = "green" if green else "dry"
    return _dressed(kinds, thickness, column), _dressed(faces, width, column)


def _dressed(kinds: tuple[str, ...], nominal: Fraction, column: str) -> float:
    known = {
        inches(row["nominal"]): row[column] for kind in kinds[::-1] for row in rows("lumber") if row["kind"] == kind
    }
    if nominal not in known:
        sizes = ", ".join(str(float(size)).removesuffix(".0") for size in sorted(known))
        raise StockError(
            f"{float(nominal):g} is not a nominal lumber size here: {sizes} in are; for actual sizes write board"
        )
    return inch_mm(known[nominal])


def surfaced(quarters: str) -> float:
    """Thickness [mm] of hardwood surfaced on two sides, by its quarters such as `4/4`.

    Raises StockError for quarters that are not in the table.
    Source: standard surfaced thickness, National Hardwood Lumber Association.

    >>> surfaced("4/4") / 25.4
    0.8125
    """
    known = {row["quarters"]: row["surfaced"] for row in rows("hardwood")}
    if quarters not in known:
        raise StockError(f"{quarters!r} is not a hardwood thickness here: {', '.join(known)} are")
    return inch_mm(known[quarters])


@cache
def panel_thickness(nominal: Fraction) -> float | None:
    """Actual thickness [mm] of plywood of a nominal size [in]; None for a size sold as it is."""
    known = {inches(row["nominal"]): row["actual"] for row in rows("plywood")}
    return inch_mm(known[nominal]) if nominal in known else None
