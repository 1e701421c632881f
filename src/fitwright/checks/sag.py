"""How far ledges, rails and other level members sag under the loads that they carry."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from fitwright.checks.frame_results import FrameResults
from fitwright.checks.places import part_words
from fitwright.findings import Finding, at_most
from fitwright.job.model import Job
from fitwright.mechanics.framing.loading import LEVEL
from fitwright.mechanics.model import Ints

AREA = "strength"
UPRIGHT = 0.5
OVERHANG_MM = 100.0
CREEP = 1.5
BASIS = "span / N of the brief's rules: comfort and looks, common practice; beam theory of the whole frame"
CREEP_BASIS = "; x 1.5 for creep of dry timber, NDS 3.5.2"


@dataclass(frozen=True, eq=False)
class Run:
    """A level stretch of a member between what carries it: its elements in order.

    fixed: where it is carried: None at both ends, else 0 or -1, the other end hanging free.
    """

    member: int
    elements: Ints
    fixed: int | None = None


def sag_findings(job: Job, results: FrameResults) -> list[Finding]:
    """One finding for each part with level members that carry something: the worst sag over its limit."""
    worst: dict[str, tuple[float, Finding]] = {}
    for run in loaded_runs(results):
        part = results.framed.lines[run.member].member.part
        ratio, finding = _run_finding(job, results, run)
        if part not in worst or ratio > worst[part][0]:
            worst[part] = (ratio, finding)
    return [finding for _, finding in worst.values()]


def loaded_runs(results: FrameResults) -> Iterator[Run]:
    """Level stretches, parted where an upright or a foot carries them, on which more than their own weight lies."""
    framed = results.framed
    own = framed.model.mass_per_mm * 9.81 * 1.01
    loaded = np.zeros(len(own), dtype=np.bool_)
    for case in results.cases.cases:
        if case.is_downward:
            loaded |= -case.pattern.line[:, 2] > own + 1e-6
    for k in framed.lines:
        for run in _level_runs(results, k):
            if loaded[run.elements].any() or _bears_members(results, run):
                yield run


def _bears_members(results: FrameResults, run: Run) -> bool:
    """Whether another member ends on the stretch between its ends."""
    framed = results.framed
    inner = set(framed.model.elements[run.elements].ravel().tolist())
    inner -= {int(framed.model.elements[run.elements[0], 0]), int(framed.model.elements[run.elements[-1], 1])}
    return any(place.node in inner and framed.piece.joints[place.joint].second == run.member for place in framed.joints)


def _level_runs(results: FrameResults, member: int) -> Iterator[Run]:
    framed = results.framed
    held, joined = _carried_nodes(results, member), _joined_nodes(results, member)
    current: list[int] = []
    for e in framed.elements_of[member].tolist():
        level = framed.slope[e] <= LEVEL and not framed.curved[e]
        if current and (not level or int(framed.model.elements[e, 0]) in held):
            yield from _parted(results, member, current, joined)
            current = []
        if level:
            current.append(e)
    if current:
        yield from _parted(results, member, current, joined)


def _parted(results: FrameResults, member: int, elements: list[int], joined: set[int]) -> Iterator[Run]:
    """The stretch between the outermost joints, and what overhangs beyond them by more than a hand."""
    nodes = results.framed.model.elements
    ends = [int(nodes[elements[0], 0]), *(int(nodes[e, 1]) for e in elements)]
    own = results.framed.elements_of[member]
    goes_on = elements[0] != own[0], elements[-1] != own[-1]
    last = len(ends) - 1
    at = [i for i, node in enumerate(ends) if node in joined or (i == 0 and goes_on[0]) or (i == last and goes_on[1])]
    if not at:
        return
    if at[-1] > at[0]:
        yield Run(member, np.array(elements[at[0] : at[-1]]))
    for part, fixed in ((elements[: at[0]], -1), (elements[at[-1] :], 0)):
        if part and float(results.framed.lengths[part].sum()) >= OVERHANG_MM:
            yield Run(member, np.array(part), fixed)


def _feet(results: FrameResults) -> set[int]:
    return {foot.node for foot in results.framed.feet} | set(results.framed.held)


def _joined_nodes(results: FrameResults, member: int) -> set[int]:
    """Nodes where the member is joined to another one, or stands."""
    framed = results.framed
    others = framed.model.elements[framed.member_of != member].ravel()
    return _feet(results) | set(others.tolist()) | set(framed.model.links.ravel().tolist())


def _carried_nodes(results: FrameResults, member: int) -> set[int]:
    """Nodes where feet, walls or steep members carry this one."""
    framed = results.framed
    steep = np.flatnonzero((framed.slope > UPRIGHT) & (framed.member_of != member))
    return _feet(results) | set(framed.model.elements[steep].ravel().tolist())


def sag_of(results: FrameResults, run: Run) -> tuple[float, float, int]:
    """Largest sag [mm] below the straight between the ends of a stretch, the span [mm], and the case.

    A stretch with a free end: the fall of that end, over twice its length (as building codes reckon cantilevers).
    """
    cases = np.flatnonzero([case.is_downward for case in results.cases.cases] & ~results.tips)
    framed = results.framed
    falls = -framed.moved_ends(results.displacements[:, :, cases])[run.elements][:, :, 2]
    fall = np.concatenate([falls[:, 0], falls[-1:, 1]])
    along = np.concatenate([[0.0], np.cumsum(framed.lengths[run.elements])])
    span = float(along[-1])
    if run.fixed is not None:
        sag, span = fall - fall[run.fixed], 2 * span
    else:
        sag = fall - fall[0] - np.outer(along / span, fall[-1] - fall[0])
    at, case = np.unravel_index(int(np.argmax(sag)), sag.shape)
    return float(sag[at, case]), span, int(cases[case])


def _run_finding(job: Job, results: FrameResults, run: Run) -> tuple[float, Finding]:
    figure = job.style.figure
    sag, span, case = sag_of(results, run)
    framed, rules = results.framed, job.brief.rules
    timber = framed.stocks[run.member].material.is_timber
    value, limit = sag * (CREEP if timber else 1.0), span / rules.sag
    name, part = framed.lines[run.member].member.name, framed.lines[run.member].member.part
    finding = at_most(
        AREA,
        part_words(framed, part),
        "sag",
        value,
        limit,
        "mm",
        tight=rules.tight * limit,
        basis=BASIS + (CREEP_BASIS if timber else ""),
        formula=f"{name}, {results.cases.cases[case].name}: {figure(value, 2)} over a span of {figure(span, 0)}"
        f"{' (twice the overhang)' if run.fixed is not None else ''}; "
        f"limit {figure(span, 0)} / {rules.sag:g} = {figure(limit, 2)}",
    )
    return value / limit, finding
