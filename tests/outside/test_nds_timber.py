"""Timber against the NDS (2015 and 2018 editions) and clear-wood beams.

Lag withdrawal: Table 12.2A, as in a city's permit record. Nail and screw withdrawal: equations of 12.2, worked by hand.
Creep: 3.5.2, with the range of the American Wood Council's notes. Beam on two rests: 5 w L^4 / 384 E I; beam on three:
Roark's Formulas, 7th ed., Table 8.1 (reactions 3/8, 10/8, 3/8 of w L).
"""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.checks.board_bending import bend
from fitwright.checks.timber_strength import creep_factor, lasting_sag
from fitwright.checks.withdrawal import PER_INCH, lag_withdrawal, nail_withdrawal, screw_withdrawal
from fitwright.stock import find_material
from fitwright.stock.materials import WOODS
from fitwright.units import INCH, PSI

LAGS = (0.25, 0.3125, 0.375, 0.4375, 0.5)  # in
TABLE_12_2A = {  # specific gravity: lb/in for each lag
    0.67: (349, 413, 473, 531, 587),
    0.58: (281, 332, 381, 428, 473),
    0.55: (260, 307, 352, 395, 437),
    0.51: (232, 274, 314, 353, 390),
    0.50: (225, 266, 305, 342, 378),
    0.47: (205, 242, 278, 312, 345),
    0.42: (173, 205, 235, 264, 291),
    0.36: (137, 163, 186, 209, 231),
    0.35: (132, 156, 179, 200, 222),
}


@pytest.mark.parametrize("gravity", TABLE_12_2A)
def test_lag_withdrawal(gravity: float) -> None:
    found = [lag_withdrawal(gravity, d * INCH) / PER_INCH for d in LAGS]
    assert found == pytest.approx(TABLE_12_2A[gravity], abs=0.75)


def test_nail_and_screw_withdrawal() -> None:
    assert nail_withdrawal(0.50, 0.131 * INCH) / PER_INCH == pytest.approx(31.96, rel=1e-3)
    assert nail_withdrawal(0.42, 0.131 * INCH) / PER_INCH == pytest.approx(20.67, rel=1e-3)
    assert screw_withdrawal(0.42, 0.164 * INCH) / PER_INCH == pytest.approx(82.4, rel=1e-3)
    assert screw_withdrawal(0.50, 0.190 * INCH) / PER_INCH == pytest.approx(135.4, rel=1e-3)


def test_creep() -> None:
    pine = find_material("white pine", WOODS)
    assert lasting_sag(0.060, 0.040, creep_factor(pine, damp=False)) == pytest.approx(0.130)
    assert lasting_sag(0.060, 0.040, creep_factor(pine, damp=True)) == pytest.approx(0.160)


def test_one_by_six_flat_on_two_rests() -> None:
    """1 lb/in over 36 in, 3/4 by 5 1/2, E 1.24 Mpsi: 0.0912 in, 162 lb in, 314 psi."""
    second_moment = 5.5 * 0.75**3 / 12
    stiffness = 1.24e6 * PSI * second_moment * INCH**4
    shape = bend(36 * INCH, np.array([0.0, 36 * INCH]), PER_INCH, stiffness)
    assert shape.sag / INCH == pytest.approx(0.09121, rel=1e-3)
    assert shape.moment / (PER_INCH * INCH**2) == pytest.approx(162, rel=1e-6)
    assert 6 * shape.moment / (5.5 * 0.75**2 * INCH**3) / PSI == pytest.approx(314.2, rel=1e-3)


def test_board_on_three_rests() -> None:
    shape = bend(2000.0, np.array([0.0, 1000.0, 2000.0]), 0.5, 1e9)
    assert shape.reactions == pytest.approx([187.5, 625.0, 187.5], rel=1e-6)
    assert shape.moment == pytest.approx(0.5 * 1000**2 / 8, rel=1e-6)
    assert shape.sag == pytest.approx(0.5 * 1000**4 / (185 * 1e9), rel=2e-3)
