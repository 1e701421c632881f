from __future__ import annotations

import numpy as np
import pytest

from fitwright.making.timber import Layout, timber_work
from fitwright.making.timber.layout import fits_two, offset, shared
from tests.unit.sheets.packet.jobs import of_text, stand


@pytest.fixture(scope="module")
def layout() -> Layout:
    """The boot stand's shelf: three slats of 95 x 20 on two battens of 45 x 20, no screws named."""
    work = timber_work(stand().piece, stand().job).of("shelf")
    assert work is not None
    assert work.layout is not None
    return work.layout


def test_two_screws_at_each_crossing(layout: Layout) -> None:
    assert (layout.crossings, layout.count) == (6, 12)


def test_the_screw_grips_and_does_not_come_through(layout: Layout) -> None:
    # battens and slats of 20: 40 less 1/8 in is 36.8, and half of a slat past the batten is 30
    assert layout.screw.label == "4 x 35"
    assert layout.bite == pytest.approx(15.0)
    assert layout.cover == pytest.approx(5.0)


def test_screws_lie_within_boards_and_battens(layout: Layout) -> None:
    # slats of 95 with gaps of 22.5, battens from 60 and from 415, each 45 wide
    for along, across in layout.points:
        assert any(low + layout.edge - 1e-6 <= along <= low + 45 - layout.edge + 1e-6 for low in (60.0, 415.0))
        assert any(low + layout.edge - 1e-6 <= across <= low + 95 - layout.edge + 1e-6 for low in (0.0, 117.5, 235.0))
    assert layout.edge >= 2.5 * layout.screw.diameter
    assert layout.end >= 5.0 * layout.screw.diameter


def test_the_layout_is_the_same_turned_half_round(layout: Layout) -> None:
    turned = np.array([520.0, 330.0]) - layout.points
    assert sorted(map(tuple, turned.round(6).tolist())) == sorted(map(tuple, layout.points.round(6).tolist()))


def test_rows_for_the_drill_press_are_the_points(layout: Layout) -> None:
    holes = {(fence + 60.0, place) for fence, places in layout.rows for place in places}
    own = {(a, b) for a, b in layout.points.round(6).tolist() if a < 200}
    assert {(round(a, 6), round(b, 6)) for a, b in holes} == own


def test_offset_keeps_from_edges() -> None:
    # a batten of 20 leaves nothing beside 2.5 x 4
    assert offset(95.0, 20.0, 4.0).tolist() == [0.0, 23.75]
    assert fits_two(offset(95.0, 20.0, 4.0), 4.0)
    assert not fits_two(offset(25.0, 20.0, 4.0), 4.0)


@pytest.mark.parametrize(
    ("given", "counts"),
    [(0, [2, 2, 2]), (6, [1, 1, 1]), (8, [1, 2, 1]), (10, [2, 1, 2]), (12, [2, 2, 2]), (3, [1, 1, 1])],
)
def test_given_screws_are_shared_evenly(given: int, counts: list[int]) -> None:
    assert shared(given, 3, 2, True) == counts


def test_too_few_screws_are_a_finding() -> None:
    text = """
job: {name: Shelf, unit: mm}
stock: {slat: board 20 x 95 oak, batten: board 20 x 45 oak}
parts:
  shelf:
    slats: slat
    from: [0, 0, 0]
    to: [520, 330, 0]
    along: x
    gap: 20
    battens: {stock: batten, count: 2, inset: 60}
  screw: {screw: {size: 4 x 35, length: 35, diameter: 4}, at: [260, 165, 0], count: 4}
"""
    work = of_text(text).timber_work
    found = next(finding for finding in work.findings if finding.check == "screws for the crossings")
    assert (found.verdict.value, found.value, found.limit) == ("fails", 4.0, 6.0)
