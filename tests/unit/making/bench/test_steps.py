from __future__ import annotations

import pytest

from fitwright.making.bench.model import Block
from fitwright.making.bench.steps import _block
from fitwright.units import Style
from tests.unit.making.bench.samples import built, planned


@pytest.mark.parametrize(("style", "told"), [(Style.metric(), "253.3 mm"), (Style.inch(), '9 31/32+"')])
def test_a_block_is_as_long_in_the_order_of_placing_as_on_the_cutting_sheet(style: Style, told: str) -> None:
    """850 mm in three less a ledge is 253.33: the cutting sheet has tenths, so a half here would contradict it."""
    block = Block("S2", 850 / 3 - 30, 2, "pine", False, "sets B1 along A1")
    assert style.fine().length(block.length) in _block(block, style)
    assert _block(block, style) == f"Block S2: 2 pieces of {told}, pine: sets B1 along A1."


def test_fewer_blocks_than_places_are_moved_on() -> None:
    block = Block("S2", 200.0, 2, "pine", False, "sets B1 along A1")
    assert _block(block, Style.metric(), moved=True).endswith("sets B1 along A1; moved on from one to the next.")


SLEEVED = """
job: {name: Rail, unit: mm}
stock: {tube: round tube 42.4 x 2.6, sleeve: round tube 36 x 2}
parts:
  rail: {stock: tube, path: [[0, 0, 500], [700, 0, 500]], ends: {start: free, finish: auto}}
  rest: {stock: tube, path: [[700, 0, 500], [1200, 0, 500]], ends: {start: auto, finish: free}}
joints:
  - {between: [rail, rest], how: butt, sleeve: sleeve, length: 120}
"""


def test_a_sleeve_goes_in_when_its_tubes_are_laid() -> None:
    (plan,) = planned(SLEEVED)
    _, piece = built(SLEEVED)
    mark = piece.mark_of[next(m.name for m in piece.members if m.sleeve_of is not None)]
    assert sum(f"sleeve {mark} half in each end of its butt" in step for step in plan.steps) == 1
