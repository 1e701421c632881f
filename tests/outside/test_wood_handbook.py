"""Species against the Wood Handbook, FPL-GTR-190 (Forest Products Laboratory, 2010).

Table 5-3a (12 % moisture) for the pines and redwood, as printed; inch-pound lists that quote the handbook for the
others; Table 13-5 for the change of width; Table 4-3 for shrinkage from green to oven-dry, as printed.
"""

from __future__ import annotations

import pytest

from fitwright.stock import find_material, wood_density
from fitwright.stock.materials import WOODS

MPSI = 6894.757
SCATTER = 0.05

# species: specific gravity, E [MPa], modulus of rupture [MPa]
STRENGTH = {
    "ponderosa pine": (0.40, 8900, 65),
    "red pine": (0.46, 11200, 76),
    "southern yellow pine": (0.51, 12100, 90),
    "sugar pine": (0.36, 8200, 57),
    "western white pine": (0.35, 10100, 67),
    "redwood": (0.40, 9200, 69),
    "eastern white pine": (0.35, 8500, 59),
    "sugar maple": (0.63, 12600, 109),
    "northern red oak": (0.63, 12500, 99),
}
# species: specific gravity, E [Mpsi]
STIFFNESS = {
    "red alder": (0.41, 1.38),
    "white ash": (0.60, 1.74),
    "basswood": (0.37, 1.46),
    "American beech": (0.64, 1.72),
    "yellow birch": (0.62, 2.01),
    "black cherry": (0.50, 1.49),
    "red maple": (0.54, 1.64),
    "white oak": (0.68, 1.78),
    "black walnut": (0.55, 1.68),
    "yellow-poplar": (0.42, 1.58),
}
# species: radial, tangential, and the change of a flat-sawn foot from 6 to 12 % [in]
CHANGE = {
    "red alder": (0.00151, 0.00256, 0.1843),
    "white ash": (0.00169, 0.00274, 0.1973),
    "basswood": (0.00230, 0.00330, 0.2376),
    "American beech": (0.00190, 0.00431, 0.3103),
    "yellow birch": (0.00256, 0.00338, 0.2434),
    "black cherry": (0.00126, 0.00248, 0.1786),
    "red maple": (0.00137, 0.00289, 0.2081),
    "sugar maple": (0.00165, 0.00353, 0.2542),
    "northern red oak": (0.00158, 0.00369, 0.2657),
    "white oak": (0.00180, 0.00365, 0.2628),
    "black walnut": (0.00190, 0.00274, 0.1973),
}
# species: shrinkage green to oven-dry, radial and tangential [%], and the moisture at which it starts [%]
SHRINKAGE = {
    "red alder": (4.4, 7.3, 30),
    "white ash": (4.9, 7.8, 30),
    "American beech": (5.5, 11.9, 30),
    "black cherry": (3.7, 7.1, 30),
    "black walnut": (5.5, 7.8, 30),
    "yellow-poplar": (4.6, 8.2, 30),
    "Douglas-fir": (4.8, 7.6, 30),
    "western red cedar": (2.4, 5.0, 22),  # FPL-RP-489: the cedars and redwood start to shrink near 22 %
}


@pytest.mark.parametrize(("species", "values"), STRENGTH.items())
def test_strength_in_metric(species: str, values: tuple[float, float, float]) -> None:
    wood = find_material(species, WOODS)
    gravity, e, mor = values
    assert wood.specific_gravity == gravity
    assert wood.e == pytest.approx(e, rel=SCATTER)
    assert wood.mor == pytest.approx(mor, rel=SCATTER)


@pytest.mark.parametrize(("species", "values"), STIFFNESS.items())
def test_stiffness_in_inch_pounds(species: str, values: tuple[float, float]) -> None:
    wood = find_material(species, WOODS)
    assert wood.specific_gravity == values[0]
    assert wood.e == pytest.approx(values[1] * MPSI, rel=SCATTER)


@pytest.mark.parametrize(("species", "values"), CHANGE.items())
def test_change_of_width(species: str, values: tuple[float, float, float]) -> None:
    wood = find_material(species, WOODS)
    assert (wood.c_radial, wood.c_tangential) == values[:2]
    assert wood.c_tangential is not None
    assert 12 * wood.c_tangential * (12 - 6) == pytest.approx(values[2], abs=1e-4)


@pytest.mark.parametrize(("species", "values"), SHRINKAGE.items())
def test_change_of_width_follows_from_the_shrinkage(species: str, values: tuple[float, float, int]) -> None:
    """C = (S / M0) / (100 - S (M0 - 10) / M0): the width at 10 % is the base, M0 where shrinkage starts."""
    wood = find_material(species, WOODS)
    start = values[2]
    for c, s in zip((wood.c_radial, wood.c_tangential), values[:2], strict=True):
        assert c == pytest.approx(s / start / (100 - s * (start - 10) / start), abs=1.1e-5)


@pytest.mark.parametrize(("gravity", "density"), [(0.35, 392), (0.63, 706)])
def test_density_from_specific_gravity(gravity: float, density: float) -> None:
    # 62.4 G (1 + MC / 100) lb/ft3, chapter 4: 24.5 and 44.0 lb/ft3 at 12 %
    assert wood_density(gravity) == pytest.approx(density, abs=0.5)
    assert wood_density(gravity) / 16.01846 == pytest.approx(62.4 * gravity * 1.12, rel=1e-3)
