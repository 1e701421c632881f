"""Square and rectangular hollow section against EN 10219-2, annex B (from memory).

mass [kg/m], area [cm2], second moment about the axis along the wider side [cm4], torsion constant [cm4].
"""

from __future__ import annotations

import pytest

from fitwright.stock import parse_stock

SECTIONS = {
    "square tube 40 x 40 x 2": (2.31, 2.94, 6.94, 11.3),
    "square tube 40 x 40 x 3": (3.30, 4.21, 9.32, 15.8),
    "square tube 50 x 50 x 3": (4.25, 5.41, 19.5, 32.1),
    "rectangular tube 60 x 40 x 3": (4.25, 5.41, 13.4, 29.3),
}
ANNEX = 0.01
TORSION = 0.02  # the annex adds the walls' own torsion to Bredt's formula


@pytest.mark.parametrize(("text", "values"), SECTIONS.items())
def test_cold_formed_hollow_section(text: str, values: tuple[float, float, float, float]) -> None:
    stock = parse_stock(text)
    mass, area, i_u, torsion = values
    assert stock.mass_per_m == pytest.approx(mass, rel=ANNEX)
    assert stock.section.area / 100 == pytest.approx(area, rel=ANNEX)
    assert stock.section.i_u / 1e4 == pytest.approx(i_u, rel=ANNEX)
    assert stock.section.j / 1e4 == pytest.approx(torsion, rel=TORSION)
