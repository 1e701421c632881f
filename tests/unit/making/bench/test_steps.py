from __future__ import annotations

import pytest

from fitwright.making.bench.model import Block
from fitwright.making.bench.steps import _block
from fitwright.units import Style


@pytest.mark.parametrize(("style", "told"), [(Style.metric(), "253.3 mm"), (Style.inch(), '9 31/32+"')])
def test_a_block_is_as_long_in_the_order_of_placing_as_on_the_cutting_sheet(style: Style, told: str) -> None:
    """850 mm in three less a ledge is 253.33: the cutting sheet has tenths, so a half here would contradict it."""
    block = Block("S2", 850 / 3 - 30, 2, "pine", False, "sets B1 along A1")
    assert style.fine().length(block.length) in _block(block, style)
    assert _block(block, style) == f"Block S2: 2 pieces of {told}, pine: sets B1 along A1."
