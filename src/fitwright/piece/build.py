"""From a job to its piece: place, meet, trim, check for clashes, weigh, mark."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from fitwright.job.model import HardwareSpec, Job, MemberSpec, OpeningSpec, PanelSpec
from fitwright.piece.as_made import Moves
from fitwright.piece.clash import CLASH_MM, box_depth
from fitwright.piece.drawn import DrawnError
from fitwright.piece.ends import EndPlan, Layout, Meeting, Surroundings
from fitwright.piece.envelope import envelope, hardware_box
from fitwright.piece.fittings import hardware_of, opening_boxes
from fitwright.piece.joining import end_joints, panel_clashes, side_joints
from fitwright.piece.matter import fibre_stops, volume
from fitwright.piece.meeting import meet
from fitwright.piece.model import EndCut, Hardware, Joint, Mark, Member, Opening, Panel, Piece, PieceError, Plane
from fitwright.piece.panels import PanelError, panels_of
from fitwright.piece.path import PathError, Vector
from fitwright.piece.problems import deep_cuts, loose_ends, part_place, wish_problems
from fitwright.piece.sameness import Candidate, board_marks, hardware_marks, member_marks
from fitwright.piece.sleeves import sleeve_sticks
from fitwright.piece.solid import Trimmed
from fitwright.piece.sticks import Stick, sticks_of
from fitwright.piece.trim import cut
from fitwright.piece.wording import ToldError

Floats = NDArray[np.float64]

REST_MM = 1.0


@dataclass(frozen=True, eq=False)
class Sketch:
    """A piece placed and trimmed, as a picture needs it; whether it can be built is not known yet.

    piece: without what `checked` adds: joints beside ends, what panels rest on, openings.
    """

    job: Job
    piece: Piece
    _layout: Layout
    _around: Surroundings
    _solids: list[Trimmed]


def build(job: Job, moves: Moves | None = None) -> Piece:
    """Place and trim every part of a job; moves: where parts lie otherwise than drawn.

    Raises PieceError with every problem found: bends that overlap, ends that touch nothing, parts that run into one
    another; each names the part and the coordinate, in the job's own unit.
    """
    return checked(sketch(job, moves))


def sketch(job: Job, moves: Moves | None = None) -> Sketch:
    """Place and trim every part of a job; moves: where parts lie otherwise than drawn.

    Raises PieceError for what cannot be drawn: bends that overlap, cuts deeper than a part is long.
    """
    sticks, panels, problems = _placed(job)
    hardware = [item for spec in job.parts if isinstance(spec, HardwareSpec) for item in hardware_of(spec)]
    if moves is not None:
        sticks, panels = [moves.stick(stick) for stick in sticks], [moves.panel(panel) for panel in panels]
        hardware = [moves.item(item) for item in hardware]
    if not (sticks or panels or problems or any(item.placed for item in hardware)):
        problems = ["the job has no parts that stand anywhere: add a member, a panel or hardware with at under parts"]
    if problems:
        raise PieceError(tuple(problems))
    around = _surroundings(job, panels, hardware)
    layout = meet(sticks, around, job.joints)
    sleeves = sleeve_sticks(layout)
    members, told = _members(layout, [stick for stick, _ in sleeves])
    if told:
        raise _all(job, told)
    solids = [trimmed(member, members) for member in members]
    joints = end_joints(members, layout.meetings, job.joints, _sleeve_places(layout, sleeves))
    return Sketch(job, _drawn(members, solids, panels, hardware, joints), layout, around, solids)


def checked(drawn: Sketch) -> Piece:
    """The piece, once it is known that it can be built: the other half of `build`, which see for what it raises."""
    job, piece, solids = drawn.job, drawn.piece, drawn._solids
    beside, clashes = side_joints(piece.members, solids, piece.joints, job.joints)
    told = [*loose_ends(drawn._layout, drawn._around), *clashes, *panel_clashes(piece.panels, piece.members, solids)]
    if told:
        raise _all(job, told)
    panels = tuple(replace(panel, rests_on=_rests(panel, solids)) for panel in piece.panels)
    openings = _openings(job, piece.members, solids, panels, piece.hardware)
    return replace(piece, panels=panels, joints=(*piece.joints, *beside), openings=openings)


def trimmed(member: Member, members: Sequence[Member]) -> Trimmed:
    """A member's trimmed solid, with the bodies that its copes are fitted to looked up."""
    copes = tuple(tuple(members[j].body for j in end.copes) for end in member.ends)
    return Trimmed(member.body, (member.ends[0].planes, member.ends[1].planes), (copes[0], copes[1]))


def _all(job: Job, told: Sequence[ToldError]) -> PieceError:
    return PieceError(tuple(problem.told(job.style) for problem in told))


def _placed(job: Job) -> tuple[list[Stick], list[Panel], list[str]]:
    """Members and panels in their places, and what is wrong with how they are drawn."""
    sticks: list[Stick] = []
    panels: list[Panel] = []
    problems: list[str] = []
    for spec in job.parts:
        try:
            if isinstance(spec, MemberSpec):
                sticks += sticks_of(spec, len(sticks))
            elif isinstance(spec, PanelSpec):
                panels += panels_of(spec)
        except (PathError, DrawnError, PanelError) as problem:
            problems.append(f"{part_place(spec)}: {problem.told(job.style)}")
    problems += [problem.told(job.style) for problem in wish_problems(sticks)]
    return sticks, panels, problems


def _surroundings(job: Job, panels: list[Panel], hardware: list[Hardware]) -> Surroundings:
    boxes = tuple((board.low, board.high) for panel in panels for board in panel.boards)
    points = np.array([item.at for item in hardware if item.placed]).reshape(-1, 3)
    floor = Plane(np.zeros(3), np.array([0.0, 0.0, -1.0]))
    return Surroundings(boxes, points, (floor, *_walls(job)))


def _walls(job: Job) -> list[Plane]:
    towards = {"left": (0, -1.0), "right": (0, 1.0), "back": (1, 1.0)}
    planes = []
    for side, at in job.space.walls.items():
        axis, sign = towards[side]
        planes.append(Plane(at * np.eye(3)[axis], sign * np.eye(3)[axis]))
    return planes


def _members(layout: Layout, sleeves: list[Stick]) -> tuple[list[Member], list[ToldError]]:
    members: list[Member] = []
    problems: list[ToldError] = []
    for stick in [*layout.sticks, *sleeves]:
        plans = [layout.plans.get((stick.index, end), EndPlan()) for end in (0, 1)]
        copes = [{j: layout.body(j) for j in plan.copes} for plan in plans]
        ends = [cut(plan.kind, stick.body, e, tuple(plan.planes), copes[e]) for e, plan in enumerate(plans)]
        problems += deep_cuts(stick, (ends[0], ends[1]))
        members.append(_weighed(layout, stick, (ends[0], ends[1])))
    return members, problems


def _weighed(layout: Layout, stick: Stick, ends: tuple[EndCut, EndCut]) -> Member:
    section = stick.stock.section
    at = [fibre_stops(stick.body, e, ends[e].planes, tuple(layout.body(j) for j in ends[e].copes)) for e in (0, 1)]
    amount, moment = volume(stick.body, at[0], at[1])
    # The fibres have the wall that counts for strength; weight goes by the nominal wall.
    density = stick.stock.material.density * 1e-9 * section.metal_area / section.area
    return Member(
        index=stick.index,
        name=stick.name,
        part=stick.part,
        stock=stick.stock,
        body=stick.body,
        ends=ends,
        ring=stick.spec.ring,
        fastened=stick.spec.fastened,
        cut_length=stick.body.path.length + ends[0].longest + ends[1].longest,
        mass=amount * density,
        centre=moment / amount,
        sleeve_of=stick.sleeve_of,
    )


def _sleeve_places(layout: Layout, sleeves: list[tuple[Stick, Meeting | None]]) -> dict[int, int]:
    """The index of the sleeve by the place of its butt among the meetings."""
    return {layout.meetings.index(meeting): stick.index for stick, meeting in sleeves if meeting is not None}


def _drawn(
    members: list[Member],
    solids: list[Trimmed],
    panels: list[Panel],
    hardware: list[Hardware],
    joints: list[Joint],
) -> Piece:
    marks = _marks(members, solids, panels, hardware)
    mass, centre = _balance(members, panels, hardware)
    outside = [solid for solid, member in zip(solids, members, strict=True) if member.sleeve_of is None]
    return Piece(
        members=tuple(members),
        panels=tuple(panels),
        hardware=tuple(hardware),
        openings=(),
        joints=tuple(joints),
        marks=tuple(marks),
        envelope=envelope(outside, panels, hardware),
        mass=mass,
        centre=centre,
        mark_of={name: mark.mark for mark in marks for name in mark.names},
    )


def _balance(members: list[Member], panels: list[Panel], hardware: list[Hardware]) -> tuple[float, Vector]:
    """Mass [kg] and centre of mass (3,) [mm]; hardware that stands nowhere weighs where the rest does."""
    placed = [(member.mass, member.centre) for member in members] + [(panel.mass, panel.centre) for panel in panels]
    placed += [(item.mass * item.each, item.at - np.array([0, 0, item.drop / 2])) for item in hardware if item.placed]
    known = sum(mass for mass, _ in placed)
    centre = sum((mass * at for mass, at in placed), np.zeros(3)) / max(known, 1e-12)
    return known + sum(item.mass * item.each for item in hardware if not item.placed), centre


def _rests(panel: Panel, solids: list[Trimmed]) -> tuple[int, ...]:
    """Members whose material touches the panel's resting face."""
    axis = panel.normal
    main = [board for board in panel.boards if board.role != "batten"]
    face = min(b.low[axis] for b in main) if panel.grows > 0 else max(b.high[axis] for b in main)
    low, high = panel.low.copy(), panel.high.copy()
    low[axis], high[axis] = face - REST_MM, face + REST_MM
    return tuple(k for k, solid in enumerate(solids) if box_depth(solid, low, high)[0] > 0)


def _marks(members: list[Member], solids: list[Trimmed], panels: list[Panel], hardware: list[Hardware]) -> list[Mark]:
    candidates = [
        Candidate(m.name, m.part, m.stock.label, solid, m.cut_length) for m, solid in zip(members, solids, strict=True)
    ]
    taken = len({m.part for m in members})
    boards, _ = board_marks(panels, taken)
    bought = hardware_marks(hardware, taken + len({p.part for p in panels}))
    return [*member_marks(candidates), *boards, *bought]


def _openings(
    job: Job,
    members: Sequence[Member],
    solids: list[Trimmed],
    panels: Sequence[Panel],
    hardware: Sequence[Hardware],
) -> tuple[Opening, ...]:
    boxes = [(panel.name, board.low, board.high) for panel in panels for board in panel.boards]
    boxes += [(item.name, *hardware_box(item, swept=True)) for item in hardware if item.placed]
    found = []
    for spec in job.parts:
        for name, low, high in opening_boxes(spec) if isinstance(spec, OpeningSpec) else []:
            inside = [(m.name, box_depth(s, low, high)[0]) for m, s in zip(members, solids, strict=True)]
            inside += [(part, float(np.minimum(high - a, b - low).min())) for part, a, b in boxes]
            found.append(Opening(name, low, high, tuple(pair for pair in inside if pair[1] > CLASH_MM)))
    return tuple(found)
