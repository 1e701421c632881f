"""Drawings: hidden edges of a piece of some 50 bodies in each view, and whole sheets.

Run: `python bench/drawing.py`
"""

from __future__ import annotations

import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from fitwright.sheets.drawing import LETTER, BarRow, TitleBlock, arrangement, bars_drawing, member_view, to_dxf, to_svg
from fitwright.sheets.drawing.directions import FRONT, ISOMETRIC, RIGHT, TOP
from fitwright.sheets.drawing.hidden import look, visible
from fitwright.sheets.drawing.lines import tidy
from fitwright.sheets.drawing.solids import gather
from fitwright.units import Style
from tests.unit.sheets.drawing.shapes import rack


def best_ms(work: Callable[[], object], times: int = 7) -> float:
    spent = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        spent.append(time.perf_counter() - start)
    return min(spent) * 1000


def views(shelves: int, slats: int) -> None:
    bodies = rack(shelves=shelves, slats=slats)
    solids = gather(bodies)
    print(f"{len(bodies)} bodies, {len(solids.faces)} faces; gathering them {best_ms(lambda: gather(bodies)):.1f} ms")
    for direction in (FRONT, RIGHT, TOP, ISOMETRIC):
        spent = best_ms(lambda direction=direction: tidy(visible(look(solids, direction)).points))  # type: ignore[misc]
        print(f"  {direction.name}: {spent:.1f} ms")


def sheets() -> None:
    style, bodies = Style.inch(), rack()
    drawing = arrangement(bodies, style, (), LETTER, TitleBlock("Rack"))
    print(f"arrangement {best_ms(lambda: arrangement(bodies, style, (), LETTER, TitleBlock('Rack'))):.1f} ms")
    print(f"its SVG {best_ms(lambda: to_svg(drawing)):.1f} ms")
    with tempfile.TemporaryDirectory() as folder:
        print(f"its DXF {best_ms(lambda: to_dxf(drawing, Path(folder) / 'a.dxf', style)):.1f} ms")
    hoop = [(0.0, 0.0), (0.0, 1730.0), (771.0, 1730.0), (771.0, 0.0)]
    print(f"bent member {best_ms(lambda: member_view(hoop, [102, 102], 28.6, style)):.1f} ms")
    bars = [BarRow(f"Bar {i}", 6096, (("A1", 3700.0), ("B1", 1016.0), ("C1", 700.0)), 670) for i in range(12)]
    print(f"12 bars {best_ms(lambda: bars_drawing(bars, style)):.1f} ms")


if __name__ == "__main__":
    views(4, 7)
    views(8, 12)
    sheets()
