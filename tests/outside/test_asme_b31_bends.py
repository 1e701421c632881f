"""ASME B31.3, 304.2.1 and ASME B31.1, 102.4.5: wall factors for bends, as in two worked calculation sheets.

R 1270 mm on 273.2 mm pipe, R 76.2 on 60.3, R 114.3 on 88.9; and table 102.4.5 of ASME B31.1.
"""

from __future__ import annotations

import pytest

from fitwright.making.bending.thinning import (
    asme_inner_factor,
    asme_outer_factor,
    thinning_table,
    wall_before_bending,
)

WORKED = [(1270.0, 273.2, 1.060, 0.951), (76.2, 60.3, 1.33, 0.86), (114.3, 88.9, 1.32, 0.86)]


@pytest.mark.parametrize(("radius", "od", "inner", "outer"), WORKED)
def test_intrados_and_extrados_factors(radius: float, od: float, inner: float, outer: float) -> None:
    assert asme_inner_factor(radius, od) == pytest.approx(inner, abs=0.005)
    assert asme_outer_factor(radius, od) == pytest.approx(outer, abs=0.005)


@pytest.mark.parametrize(("diameters", "factor"), [(6, 1.06), (5, 1.08), (4, 1.14), (3, 1.25)])
def test_recommended_wall_before_bending(diameters: float, factor: float) -> None:
    assert wall_before_bending(diameters * 60.3, 60.3) == pytest.approx(factor)


def test_the_table_ends_at_three_diameters() -> None:
    assert wall_before_bending(2.9, 1.0) is None
    assert wall_before_bending(12.0, 1.0) == pytest.approx(1.06)


def test_a_thinning_table_shows_both_models() -> None:
    tight, wide = thinning_table(2.0, 30.0, (90.0, 180.0))
    assert (tight.table, wide.table) == pytest.approx((1.25, 1.06))
    assert tight.thinned > wide.thinned
    assert tight.outer_wall < 2.0 < tight.inner_wall
