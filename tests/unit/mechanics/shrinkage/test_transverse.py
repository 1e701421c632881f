from __future__ import annotations

import pytest

from fitwright.mechanics.shrinkage import ShrinkageError, angular_change, restrained_share, transverse_shrinkage


def test_shrinkage_goes_with_the_section() -> None:
    assert transverse_shrinkage(8.0, 2.0) == pytest.approx(2 * transverse_shrinkage(4.0, 2.0))


def test_stainless_shrinks_by_its_larger_expansion() -> None:
    assert transverse_shrinkage(4.0, 2.0, "stainless") / transverse_shrinkage(4.0, 2.0) == pytest.approx(17 / 12)


def test_restraint_takes_shrinkage_away_and_never_turns_it_round() -> None:
    shares = [restrained_share(k) for k in (0.0, 1.0, 10.0, 100.0, 1e4, 1e9)]
    assert shares == sorted(shares, reverse=True)
    assert 0 < shares[-1] < 0.01
    assert restrained_share(-5.0) == 1.0


def test_turning_is_capped_on_thin_wall() -> None:
    assert angular_change(0.1, 3.0, 2.0) == pytest.approx(0.05)
    assert angular_change(10.0, 6.0, 20.0) < 0.02


@pytest.mark.parametrize(("area", "thickness"), [(0.0, 2.0), (4.0, 0.0), (-1.0, 2.0)])
def test_no_section_or_wall_is_refused(area: float, thickness: float) -> None:
    with pytest.raises(ShrinkageError):
        transverse_shrinkage(area, thickness)
    with pytest.raises(ShrinkageError):
        angular_change(0.1, area, thickness)
