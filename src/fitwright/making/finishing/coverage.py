"""How far paint goes."""

from __future__ import annotations

from fitwright.making.finishing.errors import FinishError
from fitwright.units import FOOT, INCH

# 231 cubic inches a gallon, a thousandth of an inch thick, in square feet: 1604.17
SQUARE_FEET_PER_GALLON_MIL = 231.0 / 144.0 * 1000.0
LITRES_PER_GALLON = 231.0 * INCH**3 / 1e6
SQUARE_FEET_PER_M2 = 1e6 / FOOT**2


def spread(solids: float, dry_micron: float) -> float:
    """Theoretical spread [m2/litre] of a paint: solids a fraction by volume, dry film [micron].

    Raises FinishError for solids or a film that cannot be.
    Holds on smooth surfaces without loss. Source: 1000 x SV / micron, coatings general information.

    >>> spread(0.65, 125.0)
    5.2
    """
    _check(solids, dry_micron)
    return 1000.0 * solids / dry_micron


def spread_us(solids: float, dry_mils: float) -> float:
    """The same in square feet a US gallon, film in thousandths of an inch: 1604 x solids / mils.

    >>> round(spread_us(0.65, 5.0), 1)
    208.5
    """
    _check(solids, dry_mils)
    return SQUARE_FEET_PER_GALLON_MIL * solids / dry_mils


def wet_film(dry: float, solids: float) -> float:
    """Wet film that dries to a dry one, in the unit of the dry one, unthinned.

    Source: WFT = DFT / SV.

    >>> round(wet_film(5.0, 0.65), 2)
    7.69
    """
    _check(solids, dry)
    return dry / solids


def quantity(area_m2: float, spread_m2_l: float, loss: float) -> float:
    """Litres for one coat: area over spread, and what is lost beside the work (loss, a fraction of what is used).

    >>> round(quantity(5.2, 5.2, 0.2), 3)
    1.25
    """
    if not 0.0 <= loss < 1.0:
        raise FinishError(f"a loss of {loss:g} cannot be: give a fraction from 0 to below 1")
    return area_m2 / spread_m2_l / (1.0 - loss)


def _check(solids: float, film: float) -> None:
    if not 0.0 < solids <= 1.0:
        raise FinishError(f"solids of {solids:g} cannot be: give a fraction of the volume above 0 and up to 1")
    if film <= 0.0:
        raise FinishError(f"a dry film of {film:g} cannot be: give one above 0")
