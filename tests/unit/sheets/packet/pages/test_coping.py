"""Templates on paper. The printed page is rasterised with poppler's pdftoppm (https://poppler.freedesktop.org)."""

from __future__ import annotations

import shutil
import subprocess
from dataclasses import dataclass
from datetime import date
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

from fitwright.assess import Assessment, assess
from fitwright.job import parse_job
from fitwright.making.coping import Template
from fitwright.sheets.drawing import A4, LETTER, LineKind, Paper, to_dxf, to_svg
from fitwright.sheets.packet.contents import head_of
from fitwright.sheets.packet.model import Page
from fitwright.sheets.packet.pages.coping import cope_pages
from fitwright.sheets.packet.typesetting import typeset
from fitwright.sheets.template_drawing import BAND, OVERLAP, quarter_turned, ruler_drawing, template_drawing, tiled
from fitwright.shop import default_shop
from fitwright.units import Style
from tests.unit.sheets.packet.printing import DARK, DPI, MM, Grey, read, ruler_row, runs, ticks

Floats = NDArray[np.float64]
DAY = date(2026, 1, 1)
WITHIN_MM = 0.1
PEN_MM = 0.35  # of the lines of the outline

JOB = """
job: {name: Rack, unit: %s}
stock: {t: round tube 32 x 2 mm, s: round tube 25 x 2 mm, big: round tube 76.1 x 3 mm}
parts:
  post: {stock: t, path: [[0 mm, 0, 0], [0 mm, 0, 900 mm]], ends: free, repeat: {x: [0, 400 mm]}}
  rail: {stock: s, path: [[0, 0, 300 mm], [400 mm, 0, 500 mm]]}
%s
"""
STEEP = """
  run: {stock: big, path: [[-300 mm, 500 mm, 0], [900 mm, 500 mm, 0]], ends: free}
  steep: {stock: big, path: [[0, 500 mm, 0], [800 mm, 500 mm, 210 mm]], ends: [auto, free]}
"""


@cache
def _rack(unit: str = "mm", more: str = "") -> Assessment:
    return assess(parse_job(JOB % (unit, more)), default_shop("inch" if unit == "inch" else "mm"))


def _pages(assessment: Assessment, paper: Paper = A4) -> list[Page]:
    return list(cope_pages(assessment, paper))


@dataclass(frozen=True)
class Print:
    """A printed page in grey, with what is known of the template on it."""

    grey: Grey
    template: Template


@pytest.fixture(scope="module", params=["inch", "mm"])
def printed(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Print:
    if shutil.which("pdftoppm") is None:
        pytest.skip("pdftoppm of poppler is not installed")
    rack, paper = _rack(request.param), LETTER if request.param == "inch" else A4
    folder = tmp_path_factory.mktemp("printed")
    (folder / "page.pdf").write_bytes(typeset(head_of(rack, paper, DAY), _pages(rack, paper)[:1], DAY))
    subprocess.run(["pdftoppm", "-r", str(DPI), "-gray", "-singlefile", "page.pdf", "page"], cwd=folder, check=True)
    return Print(read(folder / "page.pgm"), rack.cope_templates[0].template)


def _longest(grey: Grey) -> tuple[int, Floats]:
    """The row with the longest dark run, and that run [mm]."""
    best, at = np.zeros(2), 0
    for row in np.flatnonzero((grey < DARK).sum(axis=1) > 40 / MM):
        found = runs(grey[row])
        run = found[np.argmax(found[:, 1] - found[:, 0])]
        if run[1] - run[0] > best[1] - best[0] + MM / 2:
            best, at = run, int(row)
    return at, best


def test_printed_rulers_are_to_scale(printed: Print) -> None:
    row = ruler_row(printed.grey)
    millimetres = ticks(printed.grey[row - round(2.0 / MM)], 151)
    assert np.abs(millimetres - millimetres[0] - np.arange(151)).max() < WITHIN_MM
    sixteenths = ticks(printed.grey[row + round(2.0 / MM)], 97)
    assert np.abs(sixteenths - sixteenths[0] - np.arange(97) * 25.4 / 16).max() < WITHIN_MM


def test_printed_upright_ruler_is_to_scale(printed: Print) -> None:
    row = ruler_row(printed.grey)
    part = printed.grey[row - round(24 / MM) : row + round(14 / MM)]
    columns = np.flatnonzero([(runs(part[:, k]) @ [-1, 1]).max(initial=0) > 29 for k in range(part.shape[1])])
    line = int(np.median(columns))
    for away, step, count in ((-2.0, 1.0, 31), (2.0, 25.4 / 16, 17)):
        up = runs(part[:, line + round(away / MM)]).mean(axis=1)[::-1][:count]
        assert np.abs(up[0] - up - np.arange(count) * step).max() < WITHIN_MM


def _below(printed: Print) -> tuple[Grey, int, Floats]:
    """The page under the rulers, the row of the template's base line in it, and from where to where that reaches."""
    start = ruler_row(printed.grey) + round(14 / MM)
    part = printed.grey[start : -round(25 / MM)]
    row, base = _longest(part)
    return part, row, base


def test_printed_template_is_as_wide_as_the_tube_is_round(printed: Print) -> None:
    _, _, base = _below(printed)
    assert base[1] - base[0] - PEN_MM == pytest.approx(np.pi * 25, abs=WITHIN_MM)


def test_printed_line_is_as_high_as_computed(printed: Print) -> None:
    part, row, base = _below(printed)
    template = printed.template
    middle = runs(part[:, round((base.mean() + 3.1) / MM)])
    foot = float(middle[np.argmin(np.abs(middle.mean(axis=1) - row * MM))].mean())
    checked = 0
    for x in np.linspace(2.0, template.girth - 2.0, 41):
        square, bevelled = (float(template.at(np.array([x]), line)[0]) for line in (template.square, template.bevelled))
        near_a_line = min(abs(x - line.at) for line in template.lines) < 1
        if near_a_line or square < BAND + 2 or bevelled - square < 1:
            continue
        column = runs(part[:, round((base[0] + PEN_MM / 2 + x) / MM)])
        heights = foot - column.mean(axis=1)
        assert np.abs(heights - square).min() < WITHIN_MM
        checked += 1
    assert checked >= 8


def test_a_page_says_what_the_template_serves_and_where_it_goes() -> None:
    (page,) = _pages(_rack())
    template = _rack().cope_templates[0].template
    assert page.content["mark"] == template.mark == "B1"
    rows = page.content["uses"]["rows"]
    # the rail slopes: the finish takes the same paper, half way round from the scribed line
    assert [row[:3] for row in rows] == [["B1", "start", "A1"], ["B1", "finish, turned", "A1"]]
    assert rows[0][3] == f"{template.placement.distance:.1f} mm"
    told = " ".join(page.content["how"])
    assert "the seams of both ends lie on it" in told
    assert "half way round" in told
    assert f"{template.gap:.1f} mm" in told


def test_large_templates_are_printed_in_tiles_that_fit() -> None:
    assessment = _rack("mm", STEEP)
    page = next(page for page in _pages(assessment, LETTER) if "steep" in page.title)
    tiles = page.content["tiles"]
    assert len(tiles) > 1
    assert all("crosses" in tile["said"] for tile in tiles)
    pdf = typeset(head_of(assessment, LETTER, DAY), [page], DAY)
    import io

    from pypdf import PdfReader

    # the words, and a page for each tile
    assert len(PdfReader(io.BytesIO(pdf)).pages) == len(tiles) + 1


def test_tiles_cover_the_drawing_and_carry_matching_crosses() -> None:
    sheet = next(s for s in _rack("mm", STEEP).cope_templates if s.template.girth > 200)
    drawing = template_drawing(sheet, Style.metric())
    found = tiled(drawing, (100.0, 120.0))
    paper = found.drawing.paper
    covered = np.zeros((int(paper.height), int(paper.width)), dtype=bool)
    for tile in found.tiles:
        assert tile.width <= 100
        assert tile.height <= 120
        covered[int(tile.y) : int(tile.y + tile.height) + 1, int(tile.x) : int(tile.x + tile.width) + 1] = True
    assert covered.all()
    view = found.drawing.views[0]
    letters = [note for note in view.notes if note.bold and len(note.text) == 1]
    joints = sum(tile.column > 0 for tile in found.tiles) + sum(tile.row > 0 for tile in found.tiles)
    assert len(letters) == 2 * joints
    assert len({note.text for note in letters}) == len(letters)
    for note in letters:
        at = np.array(note.at) + np.array(view.origin)
        shown = sum(
            tile.x < at[0] < tile.x + tile.width and tile.y < at[1] < tile.y + tile.height for tile in found.tiles
        )
        assert shown >= 2
    assert OVERLAP >= 2 * 3.0


def test_a_template_is_turned_where_that_saves_paper() -> None:
    sheet = _rack().cope_templates[0]
    drawing = template_drawing(sheet, Style.metric())
    width, height = drawing.paper.width, drawing.paper.height
    found = tiled(drawing, (height + 1, width + 1))
    assert len(found.tiles) == 1
    assert (found.drawing.paper.width, found.drawing.paper.height) == pytest.approx((height, width))
    points = np.vstack(
        [s.points + np.array(quarter_turned(drawing).views[0].origin) for s in found.drawing.views[0].strokes]
    )
    assert points.min() > 0
    assert (points.max(axis=0) < [height, width]).all()


def test_drawings_are_at_true_size(tmp_path: Path) -> None:
    import ezdxf
    from ezdxf import bbox

    sheet = _rack().cope_templates[0]
    drawing = template_drawing(sheet, Style.metric())
    to_dxf(drawing, tmp_path / "cope.dxf")
    space = ezdxf.readfile(tmp_path / "cope.dxf").modelspace()  # type: ignore[attr-defined]
    box = bbox.extents(space.query("LWPOLYLINE"))
    assert box.size.x == pytest.approx(25 * np.pi, abs=1e-6)
    assert box.size.y == pytest.approx(sheet.template.height, abs=1e-6)
    assert f'width="{25 * np.pi + 3:.2f}'[:-1] in to_svg(drawing)
    kinds = {stroke.kind for stroke in drawing.views[0].strokes}
    assert {LineKind.VISIBLE, LineKind.HIDDEN, LineKind.CENTRE} <= kinds


def test_rulers_stay_on_their_picture() -> None:
    drawing = ruler_drawing(180.0)
    points = np.vstack([stroke.points for stroke in drawing.views[0].strokes])
    assert points.min() > 0
    assert (points.max(axis=0) < [drawing.paper.width, drawing.paper.height]).all()
