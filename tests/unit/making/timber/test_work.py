from __future__ import annotations

import pytest

from fitwright.making.timber import screw_for
from fitwright.making.timber.order import drill
from fitwright.making.timber.screws import drills
from fitwright.units import Style
from tests.unit.sheets.packet.jobs import of_text, stand

TOP = """
job: {name: Top, unit: mm}
stock: {top: board 30 x 140 oak}
parts:
  top: {solid: top, from: [0, 0, 700], to: [800, 500, 700], along: x, fastened: screwed}
  bracket: {fitting: slotted bracket, at: [[100, 50, 700], [100, 250, 700], [100, 450, 700]]}
"""


def test_the_spacer_is_the_gap_and_boards_begin_where_they_lie() -> None:
    work = stand().timber_work.of("shelf")
    assert work is not None
    assert work.spacer is not None
    assert work.spacer.thickness == pytest.approx(22.5)
    assert work.spacer.starts == pytest.approx((0.0, 117.5, 235.0))


def test_stops_are_set_once_for_the_batch() -> None:
    work = stand().timber_work.of("shelf")
    assert work is not None
    assert [(stop.length, stop.role, stop.count) for stop in work.stops] == [(520.0, "slat", 3), (330.0, "batten", 2)]


def test_a_solid_top_moves_and_its_fixings_let_it() -> None:
    work = of_text(TOP).timber_work.of("top")
    assert work is not None
    assert work.movement is not None
    # Wood Handbook table 13-5, northern red oak, tangential 0.00369: 500 x 0.00369 x 6 = 11.07
    assert work.movement.change == pytest.approx(11.07, abs=0.01)
    assert [round(fixing.slot, 1) for fixing in work.fixings] == [8.9, 0.0, 8.9]


def test_order_of_work_is_by_operation() -> None:
    work = stand().timber_work.of("shelf")
    assert work is not None
    said = " ".join(work.order)
    assert (
        said.index("Set the stop once to 520.0 mm") < said.index("holes in the battens") < said.index("drive 12 screws")
    )


def test_nothing_grips_in_a_thin_board() -> None:
    assert screw_for(40.0, 4.0, "mm") is None


def test_drills_are_sizes_that_are_sold() -> None:
    # #8 in pine: 0.48 x 4.166 = 2.0 mm, 5/64 in is 1.98; clearance 1.07 x 4.166 = 4.46, 3/16 in is 4.76
    pilot, clearance = drills(4.166, 0.36, "inch")
    assert (drill(pilot, Style.inch()), drill(clearance, Style.inch())) == ('5/64"', '3/16"')
    assert drills(4.0, 0.68, "mm") == (2.0, 4.5)
