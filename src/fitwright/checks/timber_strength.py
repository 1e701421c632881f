"""What a board may be stressed to and how much it sags in time."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.stock import Material
from fitwright.units import Style

SCATTER = 0.16  # coefficient of variation of the modulus of rupture; Wood Handbook Table 5-6, from memory
LOWEST_5 = 1 - 1.645 * SCATTER
DURATION_AND_SAFETY = 2.1  # ASTM D245: bending, ten years' load and a safety factor together
KNOTS = 0.65  # strength ratio of Select Structural, ASTM D245: boards chosen with small knots only
CREEP_DRY = 1.5
CREEP_WET = 2.0
METAL_SAFETY = 1.67  # AISC 360 F1, allowable strength


@dataclass(frozen=True)
class Bending:
    """Allowable bending stress [MPa], its basis and the arithmetic."""

    stress: float
    basis: str
    formula: str


def allowable_bending(material: Material, style: Style | None = None) -> Bending | None:
    """Allowable bending stress of a board [MPa]; None where the material gives no strength.

    Wood: the modulus of rupture of clear wood, lowered to its weakest twentieth, for load duration and safety, and for
    knots. Plywood: without the knots, which its values hold already. Metal: yield over 1.67.
    Holds for boards at 12 % moisture. Source: Wood Handbook FPL-GTR-190 Table 5-3; ASTM D245 (factors from memory).
    """
    said = style or Style.metric()
    if material.is_metal:
        if material.fy is None:
            return None
        return Bending(material.fy / METAL_SAFETY, "AISC 360 F1", f"{said.stress(material.fy)} yield / {METAL_SAFETY}")
    if material.mor is None:
        return None
    knots = 1.0 if material.kind == "plywood" else KNOTS
    stress = material.mor * LOWEST_5 / DURATION_AND_SAFETY * knots
    return Bending(
        stress,
        f"{material.basis}; lowered by ASTM D245 (factors from memory): 5 % exclusion, 2.1 for duration and safety, "
        f"{knots:g} for knots",
        f"MOR {said.stress(material.mor)} x {LOWEST_5:.3f} / {DURATION_AND_SAFETY} x {knots:g} = {said.stress(stress)}",
    )


def creep_factor(material: Material, damp: bool) -> float:
    """How many times its first sag a lasting load brings in the end.

    Holds for wood at furniture stress. Source: NDS 2018 3.5.2: 1.5 for seasoned wood used dry, 2.0 for green or wet.
    """
    if material.is_metal:
        return 1.0
    return CREEP_WET if damp else CREEP_DRY


def lasting_sag(lasting: float, passing: float, factor: float) -> float:
    """Sag in the end [mm] from what the lasting and the passing load bring at once.

    Source: NDS 2018 3.5.2, K_cr x long-term + short-term.

    >>> round(lasting_sag(0.060, 0.040, 1.5), 3)
    0.13
    """
    return factor * lasting + passing
