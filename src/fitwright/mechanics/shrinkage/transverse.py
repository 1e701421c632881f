"""How much a weld shortens across itself, how much of it restraint holds back, how much it turns."""

from __future__ import annotations

from fitwright.mechanics.shrinkage.errors import ShrinkageError
from fitwright.mechanics.shrinkage.tables import rows

OF_SECTION = 0.10
"""Blodgett; Procedure Handbook of Arc Welding (Lincoln): shrinkage over mean width of the weld. Form seen in a method
statement that cites both; AWS handbooks have 0.2 Aw/t + 0.05 root gap (from memory)."""

FILLET_ALLOWANCE = 0.8
"""TWI, FAQ How much shall I allow for weld shrinkage: 0.8 mm a fillet weld with leg up to 3/4 of the plate."""

NEWTON_PER_KGF = 9.80665


def transverse_shrinkage(area: float, thickness: float, kind: str = "steel") -> float:
    """How far the parts come together across a free weld, 0.10 Aw/t [mm].

    area: cross-section of the weld [mm2]; thickness: of the thinner wall [mm]; kind: the metal, by its expansion.

    Raises ShrinkageError for an area or a thickness that is not above 0.
    Holds for mild steel welded without outer restraint; published values for the same weld differ by two either way.
    Source: O. Blodgett, Design of Welded Structures, section 7.7, and the Lincoln Procedure Handbook (constant as
    `OF_SECTION`); for other metals times the ratio of expansions (common practice).

    >>> round(transverse_shrinkage(18.0, 3.0), 2)
    0.6
    """
    if not (area > 0 and thickness > 0):
        raise ShrinkageError(f"a weld section of {area} mm2 on a wall of {thickness} mm: give both above 0")
    return OF_SECTION * area / thickness * expansion(kind) / expansion("steel")


def expansion(kind: str) -> float:
    """Expansion of a metal [1/K]; steel's for one that is not in the table."""
    found = {row["kind"]: float(row["alpha"]) for row in rows("metals")}
    return found.get(kind, found["steel"])


def restrained_share(restraint: float) -> float:
    """Share of the free shrinkage that is left when the rest of the frame holds the joint apart, 0 to 1.

    restraint: stress across the joint for each mm of closing [N/mm2 per mm].
    The share that is missing stays in the weld as stress.
    Holds for up to about 100 N/mm2 per mm, where it was measured; beyond that it is stretched to zero.
    Source: Watanabe and Satoh, in K. Masubuchi, Analysis of Welded Structures (1980): 1 / (1 + 0.086 k^0.87) with k in
    kgf/mm2 per mm (from memory; the definition of the degree of restraint was seen in an abstract of the same school).

    >>> restrained_share(0.0)
    1.0
    """
    k = max(restraint, 0.0) / NEWTON_PER_KGF
    return float(1.0 / (1.0 + 0.086 * k**0.87))


def angular_change(shrinkage: float, leg: float, thickness: float) -> float:
    """How far a fillet on one side turns the parts toward itself [rad].

    shrinkage: transverse [mm]; leg, thickness [mm].
    The smaller of the handbook rule 0.04 leg^1.3 / t^2 (inches, for one side) and what the shrinkage itself can give
    when the far face of the wall does not shorten at all, shrinkage / t.
    Holds for single-pass fillets; the handbook rule is for plates from 6 mm up and overshoots on thin wall, hence the
    cap.
    Source: O. Blodgett, Design of Weldments: 0.02 W leg^1.3 / t^2 at a flange's edge (from memory); the cap is
    geometry.
    """
    if not (leg > 0 and thickness > 0):
        raise ShrinkageError(f"a fillet of {leg} mm on a wall of {thickness} mm: give both above 0")
    rule = 0.04 * (leg / 25.4) ** 1.3 / (thickness / 25.4) ** 2
    return float(min(rule, shrinkage / thickness))
