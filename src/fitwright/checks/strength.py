"""Stress in the members under every case, against yield."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt

import numpy as np

from fitwright.checks.frame_results import FrameResults
from fitwright.checks.places import part_words, place_words
from fitwright.findings import Finding, at_most, needs_input
from fitwright.job.model import Job
from fitwright.mechanics.framing.sections import outline_points
from fitwright.mechanics.model import Floats
from fitwright.stock import Angle, Material, RectTube, RoundBar, RoundTube, Section
from fitwright.units import Style

AREA = "strength"
WOOD_FIFTH = 1 - 1.645 * 0.16
WOOD_REDUCED = 2.1
WOOD_BASIS = (
    "bending strength of clear wood, Wood Handbook; its fifth percentile (16 % variation) over 2.1 for duration and "
    "safety, ASTM D245 (from memory)"
)
WELDED_ALUMINIUM = 0.43
METAL_BASIS = "von Mises stress against yield over the job's safety factor; first-order beam theory, moments magnified"
SHEAR_PEAK = 2.0


@dataclass(frozen=True, eq=False)
class Stresses:
    """Largest equivalent stress (m, 3, k) [MPa] at start, middle and end of each element in each case.

    In a jolt, the share of it that counts (`LoadCase.counts`).
    """

    results: FrameResults
    values: Floats

    def worst(self, elements: Floats | np.ndarray[tuple[int], np.dtype[np.intp]]) -> tuple[float, int, int, int]:
        """Largest stress on some elements, and where: element, station, case."""
        picked = np.where(np.isnan(self.values[elements]), -1.0, self.values[elements])
        e, s, k = np.unravel_index(int(np.argmax(picked)), picked.shape)
        return float(picked[e, s, k]), int(elements[e]), int(s), int(k)


def stresses(results: FrameResults) -> Stresses:
    """The stress everywhere, bending magnified by what second order adds."""
    framed, forces = results.framed, results.forces
    values = np.zeros((framed.model.element_count, forces.shape[1], forces.shape[3]))
    for k in framed.lines:
        own = framed.elements_of[k]
        hand = float(framed.turned[own[0]])
        values[own] = equivalent_stress(forces[own], framed.stocks[k].section, hand, results.magnified)
    return Stresses(results, values * results.cases.counts)


def equivalent_stress(forces: Floats, section: Section, turned: float = 1.0, magnified: float = 1.0) -> Floats:
    """(m, s, k) largest von Mises stress [MPa] over the section under N Vy Vz T My Mz (m, s, 6, k) [N, N mm].

    turned: +1 where local z is the section's v, -1 where it is against it. magnified: factor on the moments.
    At the outline: axial and bending stress, with shear from torsion. At the middle: axial stress, with shear from
    torsion and from the shear force, twice its mean for tube (4/3 to 2 for other shapes, so 2 is on the safe side).
    Holds for elastic stress, plane sections, no stress concentration at holes or weld toes.
    Source: J. M. Gere, Mechanics of Materials, 7th ed., sections 6.5, 3.3, 3.10 and 7 (from memory); von Mises.
    """
    axial = forces[:, :, 0] / section.area
    bending = magnified * bending_stress(forces[:, :, 4], forces[:, :, 5], section, turned)
    twisting = np.abs(forces[:, :, 3]) * torsion_stress(section)
    shear = SHEAR_PEAK * np.hypot(forces[:, :, 1], forces[:, :, 2]) / section.area
    outer = np.sqrt((np.abs(axial) + bending) ** 2 + 3 * twisting**2)
    inner = np.sqrt(axial**2 + 3 * (twisting + shear) ** 2)
    return np.asarray(np.maximum(outer, inner))


def bending_stress(m_y: Floats, m_z: Floats, section: Section, turned: float = 1.0) -> Floats:
    """Largest size of the bending stress (...) [MPa] over the outline under moments My, Mz (...) [N mm].

    Round: closed form. Else at the outline's points, with the product of inertia, so for angle about its principal
    axes whichever way they lie.
    Source: J. M. Gere, Mechanics of Materials, 7th ed., section 6.5, unsymmetric bending (from memory).
    """
    if section.is_round:
        return np.asarray(np.hypot(m_y, m_z) / section.s_u)
    points = outline_points(section, turned)
    i_y, i_z, i_yz = section.i_u, section.i_v, turned * section.i_uv
    det = i_y * i_z - i_yz**2
    per_z, per_y = (m_y * i_z + m_z * i_yz) / det, (-m_z * i_y - m_y * i_yz) / det
    everywhere = points[:, 1] * per_z[..., None] + points[:, 0] * per_y[..., None]
    return np.asarray(np.abs(everywhere).max(axis=-1))


def torsion_stress(section: Section) -> float:
    """Largest shear stress for a unit of torque [MPa / N mm].

    Round: r / J. Closed thin rectangle: 1 / (2 A t), Bredt. Solid rectangle: Roark's approximation. Angle: t / J.
    Source: Roark's Formulas for Stress and Strain, 7th ed., Table 10.1 (from memory).
    """
    if isinstance(section, RoundTube | RoundBar):
        return section.extents[1] / section.j
    if isinstance(section, RectTube):
        wall = section.wall if section.design_wall is None else section.design_wall
        corner = max(section.outer_radius - wall / 2, 0.0)
        inside = (section.width - wall) * (section.height - wall) - (4 - pi) * corner**2
        return 1 / (2 * inside * wall)
    if isinstance(section, Angle):
        return section.thickness / section.j
    a, b = sorted((section.extents[1] - section.extents[0], section.extents[3] - section.extents[2]), reverse=True)
    return (3 * a / 2 + 1.8 * b / 2) / (8 * (a / 2) ** 2 * (b / 2) ** 2)


def allowed_stress(material: Material, safety: float, style: Style | None = None) -> tuple[float, str, str] | None:
    """The limit [MPa], its arithmetic, and its basis; None for a material without a strength.

    Aluminium is taken as it is beside a weld, 0.43 of its yield: 15 of 35 ksi for 6061-T6, Aluminum Design Manual (from
    memory).
    """
    said = style or Style.metric()
    if material.mor is not None:
        return material.mor * WOOD_FIFTH / WOOD_REDUCED, f"{said.stress(material.mor)} x 0.74 / 2.1", WOOD_BASIS
    if material.fy is None:
        return None
    if material.kind == "aluminium":
        limit = WELDED_ALUMINIUM * material.fy / safety
        return limit, f"{WELDED_ALUMINIUM} x {said.stress(material.fy)} / {safety:g}", METAL_BASIS + "; beside a weld"
    return material.fy / safety, f"{said.stress(material.fy)} / {safety:g}", f"{METAL_BASIS}; {material.basis}"


def strength_findings(job: Job, results: FrameResults) -> list[Finding]:
    """One finding for each part: its worst stress in any case, where and when."""
    found = stresses(results)
    return [_part_finding(job, found, part) for part in _parts(results)]


def governing_case(job: Job, results: FrameResults) -> int:
    """The number of the case in which the frame is nearest to its limit of stress anywhere."""
    found, framed = stresses(results), results.framed
    use = np.zeros(len(results.cases.cases))
    for k, own in framed.elements_of.items():
        allowed = allowed_stress(framed.stocks[k].material, job.brief.rules.safety)
        if allowed is not None:
            use = np.maximum(use, np.nan_to_num(found.values[own], nan=0.0).max(axis=(0, 1)) / allowed[0])
    return int(np.argmax(use))


def _parts(results: FrameResults) -> list[str]:
    return list(dict.fromkeys(line.member.part for line in results.framed.lines.values()))


def _part_finding(job: Job, found: Stresses, part: str) -> Finding:
    style = job.style
    framed, rules = found.results.framed, job.brief.rules
    own = np.concatenate([framed.elements_of[k] for k, line in framed.lines.items() if line.member.part == part])
    value, element, station, case = found.worst(own)
    member = framed.lines[int(framed.member_of[element])].member
    allowed = allowed_stress(framed.stocks[member.index].material, rules.safety, job.style)
    subject = part_words(framed, part)
    if allowed is None:
        name = framed.stocks[member.index].material.name
        return needs_input(AREA, subject, "stress", f"a grade with a yield stress for {name}")
    limit, sum_words, basis = allowed
    place, when = place_words(job, framed, element, station), found.results.cases.cases[case]
    rare = f" ({when.counts:g} of it counts, for it passes at once)" if when.counts < 1 else ""
    return at_most(
        AREA,
        subject,
        "stress",
        value,
        limit,
        "MPa",
        tight=rules.tight * limit,
        basis=basis,
        formula=f"{member.name} {place}, {when.name}{rare}: "
        f"{_force_words(job.style, found.results, element, station, case)} give {style.stress(value)}; "
        f"limit {sum_words} = {style.stress(limit)}",
    )


def _force_words(style: Style, results: FrameResults, element: int, station: int, case: int) -> str:
    n, _, _, t, m_y, m_z = results.forces[element, station, :, case].tolist()
    bending = results.magnified * sqrt(m_y**2 + m_z**2)
    more = f" (x {results.magnified:.2f} second order)" if results.magnified > 1.005 else ""
    return f"axial {style.force(n)}, bending {style.moment(bending)}{more}, torsion {style.moment(abs(t))}"
