"""From a job to its piece: place, meet, trim, check for clashes, weigh, mark."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from fitwright.job.model import End, HardwareSpec, Job, JointSpec, MemberSpec, OpeningSpec, PanelSpec
from fitwright.piece.body import Body
from fitwright.piece.clash import box_depth, touches
from fitwright.piece.drawn import DrawnError
from fitwright.piece.envelope import envelope, hardware_box
from fitwright.piece.fittings import hardware_of, opening_boxes
from fitwright.piece.matter import volume
from fitwright.piece.meeting import EndKey, EndPlan, Meeting, Surroundings, meet, override_for, section_points
from fitwright.piece.model import (
    EndCut,
    Hardware,
    Joint,
    JointKind,
    Mark,
    Member,
    Opening,
    Panel,
    Piece,
    PieceError,
    Plane,
)
from fitwright.piece.panels import PanelError, panels_of
from fitwright.piece.path import Path, PathError, Vector
from fitwright.piece.sameness import Candidate, board_marks, hardware_marks, member_marks
from fitwright.piece.solid import Trimmed
from fitwright.piece.sticks import Stick, sleeve_stick, sticks_of
from fitwright.piece.trim import cut, stops
from fitwright.stock import Stock

Floats = NDArray[np.float64]

CLASH_MM = 0.3
REST_MM = 1.0
LOW_END_MM = 1.0


def build(job: Job) -> Piece:
    """Place and trim every part of a job.

    Raises PieceError with every problem found: bends that overlap, ends that touch nothing, parts that run into one
    another; each names the part and the coordinate.
    """
    problems: list[str] = []
    sticks = _sticks(job, problems)
    panels = _panels(job, problems)
    hardware = [item for spec in job.parts if isinstance(spec, HardwareSpec) for item in hardware_of(spec)]
    if problems:
        raise PieceError(tuple(problems))
    plans, meetings = meet(sticks, _surroundings(job, panels, hardware), job.joints)
    sticks, meetings = _with_sleeves(sticks, meetings, job.joints)
    members = _members(sticks, plans, problems)
    problems += [problem for key, plan in plans.items() if not plan.met for problem in [_loose(sticks, key, job)]]
    if problems:
        raise PieceError(tuple(problems))
    return _finished(job, sticks, members, panels, hardware, meetings)


def trimmed(member: Member, members: Sequence[Member]) -> Trimmed:
    """A member's trimmed solid, with the bodies that its copes are fitted to looked up."""
    copes = tuple(tuple(members[j].body for j in end.copes) for end in member.ends)
    return Trimmed(member.body, (member.ends[0].planes, member.ends[1].planes), (copes[0], copes[1]))


def _sticks(job: Job, problems: list[str]) -> list[Stick]:
    sticks: list[Stick] = []
    for spec in job.parts:
        if isinstance(spec, MemberSpec):
            try:
                sticks += sticks_of(spec, len(sticks))
            except (PathError, DrawnError) as problem:
                problems.append(f"{spec.name} (line {spec.where.line}): {problem}")
    return sticks


def _panels(job: Job, problems: list[str]) -> list[Panel]:
    panels: list[Panel] = []
    for spec in job.parts:
        if isinstance(spec, PanelSpec):
            try:
                panels += panels_of(spec)
            except PanelError as problem:
                problems.append(f"line {spec.where.line}: {problem}")
    return panels


def _surroundings(job: Job, panels: list[Panel], hardware: list[Hardware]) -> Surroundings:
    boxes = tuple((board.low, board.high) for panel in panels for board in panel.boards)
    points = np.array([item.at for item in hardware]).reshape(-1, 3)
    floor = Plane(np.zeros(3), np.array([0.0, 0.0, -1.0]))
    return Surroundings(boxes, points, (floor, *_walls(job)))


def _walls(job: Job) -> list[Plane]:
    towards = {"left": (0, -1.0), "right": (0, 1.0), "back": (1, 1.0), "front": (1, -1.0)}
    planes = []
    for side, at in job.space.walls.items():
        axis, sign = towards[side]
        planes.append(Plane(at * np.eye(3)[axis], sign * np.eye(3)[axis]))
    return planes


def _with_sleeves(
    sticks: list[Stick], meetings: list[Meeting], overrides: tuple[JointSpec, ...]
) -> tuple[list[Stick], list[Meeting]]:
    """Add the sleeves of butts: those of closed members, and those that the joints ask for."""
    more = list(sticks)
    for stick in sticks:
        sleeve = sleeve_stick(stick, len(more))
        more += [sleeve] if sleeve else []
    for meeting in meetings:
        said = override_for(overrides, sticks[meeting.first], sticks[meeting.second])
        if meeting.kind is JointKind.BUTT and said is not None and said.sleeve is not None:
            more.append(_butt_sleeve(sticks[meeting.first], meeting, said.sleeve, said.length, len(more)))
    return more, meetings


def _butt_sleeve(stick: Stick, meeting: Meeting, sleeve: Stock, length: float | None, index: int) -> Stick:
    outer = stick.stock.section.extents
    half = (length or 3 * (outer[1] - outer[0])) / 2
    outward = stick.body.outward(meeting.end)
    ends = np.array([meeting.point - half * outward, meeting.point + half * outward])
    body = Body(Path(ends, np.zeros(2)), stick.body.frame_at(meeting.end), sleeve.section)
    spec = replace(stick.spec, name=f"{stick.part} sleeve", stock=sleeve)
    return Stick(index, f"{stick.name} sleeve", spec.name, spec, sleeve, body, (End.FREE, End.FREE))


def _members(sticks: list[Stick], plans: dict[EndKey, EndPlan], problems: list[str]) -> list[Member]:
    members = []
    for stick in sticks:
        ends = tuple(_end_cut(sticks, stick, end, plans.get((stick.index, end), EndPlan(met=True))) for end in (0, 1))
        problems += _cuts_too_deep(stick, (ends[0], ends[1]))
        members.append(_weighed(sticks, stick, (ends[0], ends[1])))
    return members


def _end_cut(sticks: list[Stick], stick: Stick, end: int, plan: EndPlan) -> EndCut:
    return cut(plan.kind, stick.body, end, tuple(plan.planes), {j: sticks[j].body for j in plan.copes})


def _cuts_too_deep(stick: Stick, ends: tuple[EndCut, EndCut]) -> list[str]:
    segments = stick.body.path.segments
    room = [segments[0].length, segments[-1].length]
    if len(segments) == 1:
        room = [segments[0].length + ends[1].shortest, segments[0].length + ends[0].shortest]
    return [
        f"{stick.name}: the cut at its {'start' if end == 0 else 'finish'} ({_at(stick.body.point_at(end))}) takes "
        f"{-ends[end].shortest:.1f} mm off a straight of {room[end]:.1f} mm: lengthen that leg or move the bend"
        for end in (0, 1)
        if -ends[end].shortest > room[end] + 1e-6
    ]


def _weighed(sticks: list[Stick], stick: Stick, ends: tuple[EndCut, EndCut]) -> Member:
    uv = stick.body.section.fibres()[:, :2]
    at = [stops(stick.body, e, uv, ends[e].planes, tuple(sticks[j].body for j in ends[e].copes)) for e in (0, 1)]
    amount, moment = volume(stick.body, at[0], at[1])
    length = stick.body.path.length + ends[0].longest + ends[1].longest
    density = stick.stock.material.density * 1e-9
    sleeve_of = None
    if stick.name.endswith(" sleeve"):
        sleeve_of = next((s.index for s in sticks if f"{s.name} sleeve" == stick.name), None)
    return Member(
        stick.index, stick.name, stick.part, stick.stock, stick.body, ends, stick.spec.ring, stick.spec.fastened,
        length, amount * density, moment / amount, sleeve_of,
    )  # fmt: skip


def _loose(sticks: list[Stick], key: EndKey, job: Job) -> str:
    stick, end = sticks[key[0]], key[1]
    points = section_points(stick.body, end)
    others = [(float(other.body.distance(points).min()), other) for other in sticks if other.index != stick.index]
    place = f"the {'start' if end == 0 else 'finish'} of {stick.name} at ({_at(stick.body.point_at(end))})"
    where = f" (line {stick.spec.where.line})"
    nearest = min(others, key=lambda pair: pair[0], default=None)
    reach = f"; {nearest[1].name} is nearest, {nearest[0]:.1f} mm away" if nearest else ""
    return f"{place}{where} touches nothing{reach}: draw it on or into the part it meets, or say ends: free"


def _at(point: Vector) -> str:
    return ", ".join(f"{x:.1f}" for x in point) + " mm"


@dataclass(frozen=True, eq=False)
class _Marked:
    marks: tuple[Mark, ...]
    mark_of: dict[str, str]


def _finished(
    job: Job,
    sticks: list[Stick],
    members: list[Member],
    panels: list[Panel],
    hardware: list[Hardware],
    meetings: list[Meeting],
) -> Piece:
    solids = [trimmed(member, members) for member in members]
    joints = _joints(sticks, members, meetings, job.joints)
    joints += _laps_or_clashes(members, solids, panels, job, {(j.first, j.second) for j in joints})
    panels = [replace(panel, rests_on=_rests(panel, solids)) for panel in panels]
    marked = _marked(members, solids, panels, hardware)
    masses = [(m.mass, m.centre) for m in members] + [(p.mass, p.centre) for p in panels]
    masses += [(item.mass * item.each, item.at - np.array([0, 0, item.drop / 2])) for item in hardware]
    total = sum(mass for mass, _ in masses)
    centre = sum((mass * at for mass, at in masses), np.zeros(3)) / max(total, 1e-12)
    openings = _openings(job, members, solids, panels, hardware)
    box = envelope([s for s, m in zip(solids, members, strict=True) if m.sleeve_of is None], panels, hardware)
    return Piece(
        tuple(members), tuple(panels), tuple(hardware), openings, tuple(joints), marked.marks, box, total, centre,
        marked.mark_of,
    )  # fmt: skip


def _joints(
    sticks: list[Stick], members: list[Member], meetings: list[Meeting], overrides: tuple[JointSpec, ...]
) -> list[Joint]:
    joints = []
    sleeves = {(m.sleeve_of, tuple(np.round(m.centre, 3))): m.index for m in members if m.sleeve_of is not None}
    for meeting in meetings:
        said = override_for(overrides, sticks[meeting.first], sticks[meeting.second])
        bolted = (said is not None and said.kind == "bolted") or "bolted" in (
            sticks[meeting.first].spec.fastened,
            sticks[meeting.second].spec.fastened,
        )
        sleeve = sleeves.get((meeting.first, tuple(np.round(meeting.point, 3))))
        kind = JointKind.BOLTED if bolted else meeting.kind
        joints.append(Joint(kind, meeting.first, meeting.second, meeting.end, meeting.point, sleeve, bolted))
    for member in members:
        if member.path.closed:
            own = next((m.index for m in members if m.sleeve_of == member.index), None)
            joints.append(Joint(JointKind.BUTT, member.index, member.index, 0, member.path.start, own))
    return joints


def _laps_or_clashes(
    members: list[Member], solids: list[Trimmed], panels: list[Panel], job: Job, joined: set[tuple[int, int]]
) -> list[Joint]:
    problems: list[str] = []
    joints = []
    skip = {(min(a, b), max(a, b)) for a, b in joined}
    skip |= {(min(m.index, k), max(m.index, k)) for m in members if m.sleeve_of is not None for k in range(len(members))}
    for touch in touches(solids, skip):
        first, second = members[touch.first], members[touch.second]
        said = next((s for s in job.joints if set(s.between) == {first.part, second.part}), None)
        if touch.depth > CLASH_MM and (said is None or said.kind not in ("none", "cross", "lap", "bolted")):
            problems.append(_clash_text(first.name, second.name, touch.depth, touch.point))
        elif said is None or said.kind != "none":
            joints.append(_lap(members, touch.first, touch.second, touch.point, said))
    for panel in panels:
        problems += _panel_clashes(panel, members, solids)
    if problems:
        raise PieceError(tuple(problems))
    return joints


def _lap(members: list[Member], first: int, second: int, point: Vector, said: JointSpec | None) -> Joint:
    along = -members[first].body.outward(0) @ -members[second].body.outward(0)
    kind = JointKind.LAP if abs(float(along)) > 0.95 else JointKind.CROSSING
    bolted = (said is not None and said.kind == "bolted") or "bolted" in (
        members[first].fastened,
        members[second].fastened,
    )
    return Joint(JointKind.BOLTED if bolted else kind, first, second, None, point, None, bolted)


def _panel_clashes(panel: Panel, members: list[Member], solids: list[Trimmed]) -> list[str]:
    problems = []
    for member, solid in zip(members, solids, strict=True):
        if (solid.box[0] > panel.high).any() or (solid.box[1] < panel.low).any():
            continue
        for board in panel.boards:
            depth, point = box_depth(solid, board.low, board.high)
            if depth > CLASH_MM:
                problems.append(_clash_text(member.name, f"{panel.name} ({board.role})", depth, point))
                break
    return problems


def _clash_text(first: str, second: str, depth: float, point: Vector) -> str:
    return (
        f"{first} runs {depth:.1f} mm into {second} at ({_at(point)}) without a joint: move one, end it there, "
        "or say in joints how they meet"
    )


def _rests(panel: Panel, solids: list[Trimmed]) -> tuple[int, ...]:
    """Members whose material touches the panel's resting face."""
    axis = panel.normal
    main = [board for board in panel.boards if board.role != "batten"]
    face = min(b.low[axis] for b in main) if panel.grows > 0 else max(b.high[axis] for b in main)
    low, high = panel.low.copy(), panel.high.copy()
    low[axis], high[axis] = face - REST_MM, face + REST_MM
    return tuple(k for k, solid in enumerate(solids) if box_depth(solid, low, high)[0] > 0)


def _marked(
    members: list[Member], solids: list[Trimmed], panels: list[Panel], hardware: list[Hardware]
) -> _Marked:
    candidates = [
        Candidate(m.name, m.part, m.stock.label, solid, m.cut_length) for m, solid in zip(members, solids, strict=True)
    ]
    marks = member_marks(candidates)
    taken = len({m.part for m in members})
    boards, _ = board_marks(panels, taken)
    taken += len({p.part for p in panels})
    marks = [*marks, *boards, *hardware_marks(hardware, taken)]
    return _Marked(tuple(marks), {name: mark.mark for mark in marks for name in mark.names})


def _openings(
    job: Job, members: list[Member], solids: list[Trimmed], panels: list[Panel], hardware: list[Hardware]
) -> tuple[Opening, ...]:
    found = []
    for spec in job.parts:
        if isinstance(spec, OpeningSpec):
            for name, low, high in opening_boxes(spec):
                intruders = [(m.name, box_depth(s, low, high)[0]) for m, s in zip(members, solids, strict=True)]
                boxes = [(p.name, b.low, b.high) for p in panels for b in p.boards]
                boxes += [(h.name, *hardware_box(h, swept=True)) for h in hardware]
                intruders += [(n, float(np.minimum(high - a, b - low).min())) for n, a, b in boxes]
                found.append(Opening(name, low, high, tuple(pair for pair in intruders if pair[1] > CLASH_MM)))
    return tuple(found)
