from __future__ import annotations

import pytest

from fitwright.making.timber import TimberError, spare_boards, yield_of
from fitwright.making.timber.spares import spares_of
from tests.unit.sheets.packet.jobs import stand


def test_a_yield_of_five_sixths_takes_a_fifth_more() -> None:
    assert spare_boards([(500.0, 10)], 5 / 6) == (500.0, 2)


def test_spares_have_the_longest_length() -> None:
    # 2000 + 900 mm at one half: 2900 more, two of 1000 are too few
    assert spare_boards([(1000.0, 2), (300.0, 3)], 0.5) == (1000.0, 3)


def test_clear_stock_takes_none() -> None:
    assert spare_boards([(500.0, 10)], 1.0)[1] == 0
    assert spare_boards([], 0.5) == (0.0, 0)


def test_the_shop_sets_the_yield() -> None:
    assert yield_of("hardwood", {"hardwood": 0.7}) == (0.7, "set by the shop")
    # NHLA, grade FAS: 83 1/3 %
    assert yield_of("hardwood")[0] == pytest.approx(5 / 6, abs=1e-3)


@pytest.mark.parametrize("wrong", [0.0, 0.1, 1.2])
def test_a_yield_that_cannot_be(wrong: float) -> None:
    with pytest.raises(TimberError, match="cannot be planned with"):
        yield_of("softwood", {"softwood": wrong})


def test_spares_go_into_the_cutting_plan() -> None:
    assessment = stand()
    spares = {spare.stock: spare.count for spare in spares_of(assessment.piece)}
    assert spares == {"board 20 x 95 mm northern red oak": 1, "board 20 x 45 mm northern red oak": 1}
    for label, count in spares.items():
        cut = [one.mark for bar in assessment.cutting_plans[label].bars for one in bar.cuts]
        assert cut.count("spare") == count
