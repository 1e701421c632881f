"""What the metal says to a bend: radius, stretch, thinning, flattening; each for the tightest bend of the sheet."""

from __future__ import annotations

from fitwright.findings import Finding, at_least, at_most, needs_input
from fitwright.making.bending.case import AREA, Case
from fitwright.making.bending.thinning import (
    asme_outer_factor,
    expected_ovality,
    outer_wall,
    wall_before_bending,
)
from fitwright.stock import RectTube, RoundTube

# Without a mandrel, tighter than 2 diameters kinks and 3 is comfortable (common practice).
LEAST_DIAMETERS, COMFORTABLE_DIAMETERS = 2.0, 3.0
# ASME B31.1 table 102.4.5 goes up to 1.25 times the wall needed, at 3 diameters: a loss of a fifth.
MOST_THINNED, THINNED_TIGHT = 0.20, 0.05
# The limit for bends in the government guide specification that cites ASME B31.3, 332.2.1.
MOST_OVAL, OVAL_TIGHT = 0.08, 0.015


def metal_findings(case: Case) -> list[Finding]:
    """Radius against size, stretch against elongation, wall left, flattening."""
    return [*_radius(case), *_strain(case), *_wall(case), *_flattening(case)]


def _radius(case: Case) -> list[Finding]:
    section = case.stock.section
    if not isinstance(section, RoundTube | RectTube):
        return []
    step = case.tightest
    depth = step.depth
    diameters = step.radius / depth
    return [
        at_least(
            AREA,
            case.sheet.subject,
            "bend radius against the tube's size",
            diameters,
            LEAST_DIAMETERS,
            "diameters",
            tight=COMFORTABLE_DIAMETERS - LEAST_DIAMETERS,
            basis="common practice: bends without a mandrel",
            advice=f"a radius of {case.style.length(COMFORTABLE_DIAMETERS * depth)} or more bends without a mandrel",
            formula=f"R / D = {case.style.length(step.radius)} / {case.style.length(depth)}",
        )
    ]


def _strain(case: Case) -> list[Finding]:
    material, step = case.stock.material, case.tightest
    check = "stretch of the outside against the material's elongation"
    basis = "beam kinematics; elongation of the grade"
    if material.elongation is None:
        return [needs_input(AREA, case.sheet.subject, check, f"the elongation of {material.name}", basis=basis)]
    stretch = 100 * step.stretch
    limit = 100 * material.elongation
    least = case.style.length(step.radius * step.stretch / (material.elongation * (1 - case.tight)))
    return [
        at_most(
            AREA,
            case.sheet.subject,
            check,
            stretch,
            limit,
            "%",
            tight=case.tight * limit,
            basis=basis,
            advice=f"a radius of {least} or more leaves the margin wanted; else bend a trial and look for cracks",
            formula=f"(D / 2) / R: {case.style.length(step.depth)} deep, radius {case.style.length(step.radius)}",
        )
    ]


def _wall(case: Case) -> list[Finding]:
    section = case.stock.section
    if not isinstance(section, RoundTube):
        return []
    step = case.tightest
    left = outer_wall(section.wall, section.od, step.radius)
    thinned = 1 - left / section.wall
    return [
        at_most(
            AREA,
            case.sheet.subject,
            "wall thinning on the outside",
            100 * thinned,
            100 * MOST_THINNED,
            "%",
            tight=100 * THINNED_TIGHT,
            basis="constant volume, mid-wall; limit from ASME B31.1 table 102.4.5 at 3 diameters",
            advice=f"take a heavier wall, or a radius of {case.style.length(3 * section.od)} or more",
            formula=_wall_formula(section, step.radius, left),
        )
    ]


def _wall_formula(section: RoundTube, radius: float, left: float) -> str:
    """Both models, so that "why?" shows how far they are apart."""
    factor = asme_outer_factor(radius, section.od)
    table = wall_before_bending(radius, section.od)
    said = f"t R / (R + (D - t) / 2) = {left:.2f} mm of {section.wall:.2f}; ASME B31.3 304.2.1 factor {factor:.3f}"
    return said + (f"; ASME B31.1 asks {table:.2f} times the wall needed" if table else "; below the ASME B31.1 table")


def _flattening(case: Case) -> list[Finding]:
    section = case.stock.section
    if not isinstance(section, RoundTube):
        return []
    step = case.tightest
    oval = expected_ovality(section.od, step.radius)
    return [
        at_most(
            AREA,
            case.sheet.subject,
            "flattening",
            100 * oval,
            100 * MOST_OVAL,
            "%",
            tight=100 * OVAL_TIGHT,
            basis="estimate D / (5 R), from memory; limit of 8 % as in ASME B31.3, 332.2.1",
            advice="measure a trial bend across both ways; a larger radius or a heavier wall flattens less",
            formula=f"(Dmax - Dmin) / D = {case.style.figure(section.od)} / (5 x {case.style.figure(step.radius)})",
        )
    ]
