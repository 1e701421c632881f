from __future__ import annotations

import math

import numpy as np
import pytest
from numpy.typing import NDArray

from fitwright.assess import Assessment
from fitwright.making.bending import BendSheet, path_of
from fitwright.making.bending.turning import turned
from fitwright.sheets.packet.model import Page
from fitwright.sheets.packet.pages.bending import FLAT, TURNS, bend_pages
from fitwright.units import Style
from tests.unit.sheets.packet.jobs import bent, stand

Floats = NDArray[np.float64]


@pytest.fixture(scope="module")
def parts() -> Assessment:
    """A ring, a loop, a hairpin and two hands."""
    return bent()


def _bent_at_the_machine(rows: list[list[str]], sheet: BendSheet) -> list[float]:
    """The shape that comes out when the printed turns are made at a bender.

    The tube travels along +x, its start ahead at -x; the machine always bends about +z. Corners are followed.
    """
    corners = np.zeros((1, 3))
    at = 0.0
    for row, step, bend in zip(rows, sheet.steps, sheet.table.bends, strict=True):
        back = bend.radius * math.tan(bend.angle / 2)
        corners = corners - np.array([bend.straight_before + back, 0, 0])
        to = 0.0 if row[2] == "0°" else math.radians(float(row[2].strip("↻↺ °"))) * (-1 if row[2][0] == "↻" else 1)
        corners = _about(corners, 0, to - at)  # clockwise for one at +x who looks along -x: left-handed about +x
        at = to
        # seen from the tail, which lies still, the part already made swings back about the corner
        corners = np.vstack([_about(corners, 2, -step.angle), np.zeros(3)]) - np.array([back, 0, 0])
    return _shape(np.vstack([corners, [sheet.table.last_straight, 0, 0]]))


def _about(points: Floats, axis: int, angle: float) -> Floats:
    """Points (n, 3) turned right-handed about a coordinate axis."""
    one, other = (axis + 1) % 3, (axis + 2) % 3
    turn = np.eye(3)
    turn[one, one] = turn[other, other] = math.cos(angle)
    turn[one, other], turn[other, one] = -math.sin(angle), math.sin(angle)
    turned_points: Floats = points @ turn.T
    return turned_points


def _shape(points: Floats) -> list[float]:
    """Distances between corners (n, 3), and the volume they span with its sign: what no movement changes."""
    apart = np.linalg.norm(points[:, None] - points[None], axis=2)
    a, b, c = points[1] - points[0], points[2] - points[0], points[3] - points[0]
    return [*apart[np.triu_indices(len(points), 1)].tolist(), float(np.cross(a, b) @ c)]


def _page(assessment: Assessment, part: str) -> tuple[str, Page]:
    return next((mark, page) for mark, page in bend_pages(assessment) if assessment.made[mark].part == part)


def test_every_bent_mark_has_a_sheet(parts: Assessment) -> None:
    assert [mark for mark, _ in bend_pages(parts)] == list(parts.bend_sheets)


def test_numbers_are_the_sheets_own(parts: Assessment) -> None:
    mark, page = _page(parts, "loop")
    sheet, style = parts.bend_sheets[mark], parts.job.style
    assert page.content["blank"] == style.length(sheet.blank)
    rows = page.content["steps"]["rows"]
    assert [row[1] for row in rows] == [style.length(step.mark) for step in sheet.steps]
    assert [row[2] for row in rows] == [style.angle(step.command_angle) for step in sheet.steps]
    assert [row[3] for row in rows] == ["90.0°"] * 4


def test_flat_parts_are_not_turned_and_others_say_which_way(parts: Assessment) -> None:
    assert FLAT in _page(parts, "loop")[1].content["remarks"]
    hand = _page(parts, "hand")[1]
    assert TURNS in hand.content["remarks"]
    assert [column["head"] for column in hand.content["steps"]["columns"]][2] == "rotate to"


def test_hands_turn_opposite_ways(parts: Assessment) -> None:
    pages = [page for mark, page in bend_pages(parts) if parts.made[mark].part == "hand"]
    one, other = (page.content["steps"]["rows"][1][2] for page in pages)
    assert one[0] + other[0] in ("↻↺", "↺↻")
    assert one[1:] == other[1:]
    assert any("as in a mirror" in note for note in pages[0].content["notes"])
    assert any("as in a mirror" in note for note in pages[1].content["notes"])


def test_who_follows_the_sheet_makes_the_part_and_not_its_mirror_image(parts: Assessment) -> None:
    for mark, page in bend_pages(parts):
        if parts.made[mark].part == "hand":
            sheet = parts.bend_sheets[mark]
            made = _bent_at_the_machine(page.content["steps"]["rows"], sheet)
            assert made == pytest.approx(_shape(path_of(sheet.table).vertices), rel=2e-3)


def test_there_is_a_box_for_each_to_make() -> None:
    assessment = stand()
    _, page = _page(assessment, "hoop")
    assert page.content["quantity"] == 2
    assert "Make 2" in page.content["made"]


def test_walls_are_thinner_outside_and_thicker_inside() -> None:
    _, page = _page(stand(), "hoop")
    (row,) = page.content["walls"]["rows"]
    # constant volume, mid-wall: 2 x 100 / (100 ± 15)
    assert row[:4] == ["100.0 mm", "2.00 mm", f"{200 / 115:.2f} mm", f"{200 / 85:.2f} mm"]


def test_solid_bar_has_no_wall(parts: Assessment) -> None:
    assert _page(parts, "ring")[1].content["walls"] is None


def test_no_die_is_said(parts: Assessment) -> None:
    assert _page(parts, "hairpin")[1].content["steps"]["rows"][0][5] == "none fits"


@pytest.mark.parametrize(
    ("degrees", "said"),
    [(0, "0°"), (90, "↻ 90.0°"), (-90, "↺ 90.0°"), (180, "180.0°"), (-180, "180.0°"), (450, "↻ 90.0°")],
)
def test_turns_go_the_shorter_way(degrees: float, said: str) -> None:
    assert turned(math.radians(degrees), Style.metric()) == said
