"""Movement across the grain against the Wood Handbook, FPL-GTR-190, Table 13-5, and worked examples that use it.

12 in flat-sawn from 6 to 12 %: computed in inches from the printed coefficients. 8 in red alder over 6 points and 5 in
mesquite over 3: a magazine's and a flooring trade page's worked examples.
"""

from __future__ import annotations

import pytest

from fitwright.checks.moisture import width_change
from fitwright.stock import find_material
from fitwright.stock.materials import WOODS


@pytest.mark.parametrize(
    ("coefficient", "inches"),
    [
        (0.00353, 0.2542),  # sugar maple
        (0.00165, 0.1188),  # the same quartersawn
        (0.00369, 0.2657),  # red oak
        (0.00248, 0.1786),  # black cherry
        (0.00256, 0.1843),  # red alder
        (0.00274, 0.1973),  # white ash, black walnut
        (0.00431, 0.3103),  # American beech
        (0.00338, 0.2434),  # yellow birch
    ],
)
def test_twelve_inches_from_6_to_12_percent(coefficient: float, inches: float) -> None:
    assert width_change(12.0, coefficient, 6.0) == pytest.approx(inches, abs=1e-4)


@pytest.mark.parametrize(
    ("species", "inches"),
    [("sugar maple", 0.254), ("northern red oak", 0.266), ("black cherry", 0.179), ("American beech", 0.310)],
)
def test_species_as_shipped(species: str, inches: float) -> None:
    coefficient = find_material(species, WOODS).c_tangential
    assert coefficient is not None
    assert width_change(12.0, coefficient, 6.0) == pytest.approx(inches, abs=1e-3)


def test_worked_examples() -> None:
    assert width_change(8.0, 0.0026, 6.0) == pytest.approx(0.1248, abs=5e-4)
    assert width_change(5.0, 0.00129, 3.0) == pytest.approx(0.019, abs=5e-4)
