"""Buckling: of the whole frame, of its uprights between joints, and of the walls of its tube."""

from __future__ import annotations

import numpy as np

from fitwright.checks.columns import (
    bending_capacity,
    column_capacity,
    compression_limit,
    interaction,
    wall_slenderness,
)
from fitwright.checks.frame_results import FrameResults
from fitwright.checks.places import part_words
from fitwright.findings import Finding, at_least, at_most
from fitwright.job.model import Job
from fitwright.mechanics.model import Floats, Ints

AREA = "strength"
LEAST_FACTOR = 3.0
STEEP = 0.7
FRAME_BASIS = (
    "linear buckling of the whole frame (eigenvalue of its geometric stiffness); at least 3, from where moments may be "
    "magnified instead of a second-order analysis: EN 1993-1-1:2005, 5.2.2(5)B (from memory)"
)
COLUMN_BASIS = (
    "AISC 360-16, E3 and H1-1, ASD, with K = 1 between joints and moments magnified by the load factor of the whole "
    "frame (its direct analysis idea, chapter C)"
)
WALL_BASIS = "AISC 360-16, Table B4.1a: a stockier wall yields before it buckles (from memory)"


def buckling_findings(job: Job, results: FrameResults) -> list[Finding]:
    """The frame as a whole, each part with uprights, and each stock of tube."""
    parts = dict.fromkeys(line.member.part for k, line in results.framed.lines.items() if _is_upright(results, k))
    found = [_frame(job, results), *(_uprights(job, results, part) for part in parts)]
    return [finding for finding in [*found, *_walls(job, results)] if finding is not None]


def _frame(job: Job, results: FrameResults) -> Finding | None:
    factor = results.load_factor
    if not np.isfinite(factor):
        return None
    name = results.cases.cases[results.free_case].name
    return at_least(
        AREA, "piece", "buckling of the whole frame", factor, LEAST_FACTOR, "x the loads",
        tight=job.brief.rules.tight * LEAST_FACTOR, basis=FRAME_BASIS,
        formula=f"{name}: it buckles at {factor:.1f} times the loads, free to sway; moments are magnified by "
        f"1 / (1 - 1 / {factor:.1f}) = {results.magnified:.2f}",
    )  # fmt: skip


def _is_upright(results: FrameResults, member: int) -> bool:
    own = results.framed.elements_of[member]
    metal = results.framed.stocks[member].material.fy is not None
    return metal and bool((results.framed.slope[own] > STEEP).any())


def free_length(results: FrameResults, member: int) -> float:
    """The longest stretch of a member between joints, feet, bends and ends [mm]; how much these move is in the
    magnified moments."""
    framed = results.framed
    own = framed.elements_of[member]
    nodes = _joint_nodes(results, member)
    longest = run = 0.0
    for e in own.tolist():
        fresh = framed.curved[e] or int(framed.model.elements[e, 0]) in nodes
        run = float(framed.lengths[e]) + (0.0 if fresh else run)
        longest = max(longest, run)
    return float(longest)


def _joint_nodes(results: FrameResults, member: int) -> set[int]:
    framed = results.framed
    nodes = {foot.node for foot in framed.feet} | set(framed.held)
    for place in framed.joints:
        joint = framed.piece.joints[place.joint]
        if member in (joint.first, joint.second):
            nodes.add(place.node)
    return nodes


def _uprights(job: Job, results: FrameResults, part: str) -> Finding:
    members = [k for k, line in results.framed.lines.items() if line.member.part == part and _is_upright(results, k)]
    uses = [_use(job, results, k) for k in members]
    worst = int(np.argmax([use[0] for use in uses]))
    value, element, case, words = uses[worst]
    when, name = results.cases.cases[case], results.framed.lines[members[worst]].member.name
    height = results.framed.middles[element, 2]
    return at_most(
        AREA, part_words(results.framed, part), "pushed as a column", value, 1.0, "of what it bears",
        tight=job.brief.rules.tight, basis=COLUMN_BASIS,
        formula=f"{name} at {job.style.figure(height, 0)} above the floor, {when.name}: {words}",
    )  # fmt: skip


def _use(job: Job, results: FrameResults, member: int) -> tuple[float, int, int, str]:
    """Use of the worst place of a member, its element and case, and the arithmetic."""
    style = job.style
    framed = results.framed
    own, stock = framed.elements_of[member], framed.stocks[member]
    fy = stock.material.fy
    assert fy is not None
    length, safety = free_length(results, member), job.brief.rules.safety
    force = column_capacity(stock.section, stock.material.e, fy, length, safety)
    moment = bending_capacity(stock.section, stock.material.e, fy, safety)
    axial, bending = _pressed(results, own)
    use = interaction(axial / force, bending / moment) * results.cases.counts
    use = np.where(np.isnan(use), -1.0, use)
    e, k = np.unravel_index(int(np.argmax(use)), use.shape)
    words = (
        f"{style.force(axial[e, k])} of {style.force(force)} over {job.style.figure(length, 0)} between "
        f"joints, {style.moment(bending[e, k])} of "
        f"{style.moment(moment)}"
    )
    return float(use[e, k]), int(own[e]), int(k), words


def _pressed(results: FrameResults, own: Ints) -> tuple[Floats, Floats]:
    """(e, k) compression [N] and resultant moment, magnified [N mm], in elements `own`."""
    forces = results.forces[own]
    axial = np.maximum(-forces[:, :, 0].min(axis=1), 0.0)
    bending = results.magnified * np.hypot(forces[:, :, 4], forces[:, :, 5]).max(axis=1)
    return axial, bending


def _walls(job: Job, results: FrameResults) -> list[Finding]:
    stocks = {results.framed.stocks[k].label: results.framed.stocks[k] for k in results.framed.lines}
    found = []
    for label, stock in stocks.items():
        value, fy = wall_slenderness(stock.section), stock.material.fy
        limit = compression_limit(stock.section, stock.material.e, fy) if fy else None
        if value is not None and fy is not None and limit is not None:
            words = f"{value:.1f}; limit {limit:.1f} for a yield of {job.style.stress(fy)}"
            tight, check = job.brief.rules.tight * limit, "width of wall over its thickness"
            found.append(at_most(AREA, label, check, value, limit, "", tight=tight, basis=WALL_BASIS, formula=words))
    return found
