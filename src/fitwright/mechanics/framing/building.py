"""From a piece to its frame: lines, stations, joints, supports and panels put together."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from fitwright.job.model import Job
from fitwright.mechanics.framing.bearing import Elements, ask_bearings, panel_path
from fitwright.mechanics.framing.bracing import Diagonals, diagonals
from fitwright.mechanics.framing.line import WorkingLine, working_line
from fitwright.mechanics.framing.marks import Stations, Wanted, stations
from fitwright.mechanics.framing.model import Foot, Framed, JointPlace, NotFramed, PanelPath
from fitwright.mechanics.framing.sections import element_data, softening
from fitwright.mechanics.framing.standing import Standing, find_standing
from fitwright.mechanics.framing.tying import (
    Tie,
    TiedUp,
    bolt_axis,
    find_ties,
    lap_stiffness,
    releases,
    stiff_link,
    tie_up,
)
from fitwright.mechanics.model import Bools, Floats, FrameModel, Ints, frame_model
from fitwright.piece.model import Piece
from fitwright.piece.path import Arc
from fitwright.units import INCH

TEST_HEIGHT_MM = 56 * INCH
SAME_FOOT_MM = 5.0


@dataclass(frozen=True, eq=False)
class _Skeleton:
    """Stations gathered into nodes: node of each station (q,), nodes (n, 3); crowded: second feet on one node."""

    places: Stations
    node: Ints
    nodes: Floats
    crowded: tuple[tuple[int, int], ...]
    feet: tuple[Foot, ...]
    held: Mapping[int, str]


def framed(piece: Piece, job: Job) -> Framed:
    """The piece as a frame of beam elements.

    Members are meshed between joints, supports, the edges of what rests on them and the height of the push; bends as
    chords, eight in a right angle, softened as `bend_softening` says; angle along its centroid with its product of
    inertia, carried eccentrically. A branch stops at the surface of the member that it meets, and a rigid arm covers
    the rest. Joints are rigid unless bolted. Sleeves are left out of the stiffness; their mass is in the loads. A
    caster stands on the floor straight below its stem: how far its wheel trails is for the checks of casters.

    Raises NotFramed, naming the part, for a piece that stands on nothing, hardware fixed to nothing, or no members.
    """
    lines = {m.index: working_line(m, piece.members) for m in piece.members if m.sleeve_of is None}
    if not lines:
        raise NotFramed("the piece has no members: panels and hardware alone make no frame; add a member under parts")
    wanted = Wanted(lines)
    ties = find_ties(piece.joints, wanted)
    standing, bolted = find_standing(piece, job.space.walls, wanted)
    height = push_height(job, piece)
    _ask_loads(piece, wanted, height)
    places = stations(wanted)
    tied = tie_up(ties, places)
    skeleton = _skeleton(places, tied, standing, bolted)
    return _assembled(piece, lines, skeleton, ties, tied, height)


def push_height(job: Job, piece: Piece) -> float:
    """The height of the brief's push [mm], else that of a published furniture test, at most the top of the piece.

    Source: ASTM F2057-23, a level push at up to 56 in (from memory).
    """
    asked = job.brief.loads.push_height
    return min(TEST_HEIGHT_MM if asked is None else asked, float(piece.envelope.high[2]))


def _ask_loads(piece: Piece, wanted: Wanted, height: float) -> None:
    for panel in piece.panels:
        ask_bearings(panel, wanted)
    for k, line in wanted.lines.items():
        for s in line.crossings(2, height):
            wanted.at(k, s)


def _skeleton(places: Stations, tied: TiedUp, standing: list[Standing], bolted: list[Standing]) -> _Skeleton:
    node, leaders = tied.groups.numbers()
    nodes = places.points[leaders].copy()
    feet: dict[int, Foot] = {}
    crowded: list[tuple[int, int]] = []
    for foot in standing:
        at = int(node[places.of[foot.ticket]])
        if at not in feet:
            # the node of the group stands where the floor is touched; the members reach it by rigid arms
            nodes[at] = foot.at
        elif float(np.linalg.norm(nodes[at] - foot.at)) > SAME_FOOT_MM:
            nodes = np.vstack([nodes, foot.at])
            crowded.append((len(nodes) - 1, at))
            at = len(nodes) - 1
        feet.setdefault(at, Foot(foot.name, foot.kind, at, foot.grips, foot.hardware))
    held = {int(node[places.of[point.ticket]]): point.held for point in bolted}
    return _Skeleton(places, node, nodes, tuple(crowded), tuple(feet.values()), held)


def _assembled(
    piece: Piece,
    lines: Mapping[int, WorkingLine],
    skeleton: _Skeleton,
    ties: list[Tie],
    tied: TiedUp,
    height: float,
) -> Framed:
    places, node = skeleton.places, skeleton.node
    pairs = places.pairs
    member_of = places.member[pairs[:, 0]]
    stretch = places.s[pairs]
    ends = places.points[pairs]
    hints = _directions(lines, member_of, stretch.mean(axis=1))
    turned = _turned(lines, member_of, stretch.mean(axis=1), hints, ends)
    elements = Elements(member_of, ends, node[pairs], lines)
    panels = tuple(panel_path(i, p, elements, len(skeleton.nodes)) for i, p in enumerate(piece.panels))
    curved = _curved(lines, member_of, stretch.mean(axis=1))
    links, stiffness = _links(piece, lines, skeleton, tied, panels, elements)
    stocks = tuple(m.stock for m in piece.members)
    model = _model(piece, lines, skeleton, elements, hints, turned, stretch, links, stiffness, ties)
    return Framed(
        piece=piece,
        model=model,
        lines=lines,
        member_of=member_of,
        stations=stretch,
        curved=curved,
        turned=turned,
        stocks=stocks,
        feet=skeleton.feet,
        held=skeleton.held,
        joints=_joint_places(ties, tied.laps, skeleton),
        panels=panels,
        push_height=height,
    )


def _directions(lines: Mapping[int, WorkingLine], member_of: Ints, middle: Floats) -> Floats:
    """(m, 3) where the section's u points at the middle of each element."""
    hints = np.empty((len(member_of), 3))
    for k, line in lines.items():
        here = member_of == k
        hints[here] = line.directions(middle[here])
    return hints


def _turned(lines: Mapping[int, WorkingLine], member_of: Ints, middle: Floats, hints: Floats, ends: Floats) -> Floats:
    """(m,) +1 where u, v and the run are right-handed, so that local z is v; -1 in a mirrored part."""
    hand = {k: _hand(line) for k, line in lines.items()}
    return np.array([hand[int(k)] for k in member_of])


def _hand(line: WorkingLine) -> float:
    body = line.member.body
    run = -body.outward(0)
    return float(np.sign(np.cross(body.frame[0], body.frame[1]) @ run))


def _curved(lines: Mapping[int, WorkingLine], member_of: Ints, middle: Floats) -> Bools:
    curved = np.zeros(len(member_of), dtype=np.bool_)
    for k, line in lines.items():
        here = np.flatnonzero(member_of == k)
        arcs = np.array([isinstance(segment, Arc) for segment in line.segments])
        curved[here] = arcs[line.which(middle[here])]
    return curved


def _links(
    piece: Piece,
    lines: Mapping[int, WorkingLine],
    skeleton: _Skeleton,
    tied: TiedUp,
    panels: tuple[PanelPath, ...],
    elements: Elements,
) -> tuple[Ints, Floats]:
    """Bolted laps first, then stiff ties, then second feet on one node, then the diagonals of fastened panels."""
    places, node, nodes = skeleton.places, skeleton.node, skeleton.nodes
    pairs = [(int(node[places.of[t.first]]), int(node[places.of[t.second]])) for t in (*tied.laps, *tied.stiff)]
    blocks = [lap_stiffness(bolt_axis(t, places, lines)) for t in tied.laps]
    pairs += skeleton.crowded
    blocks += [stiff_link()] * (len(tied.stiff) + len(skeleton.crowded))
    for path in panels:
        for pair, along in _panel_springs(piece, path, elements, nodes):
            pairs.append(pair)
            blocks.append(along)
    return np.array(pairs, dtype=np.intp).reshape(-1, 2), np.array(blocks).reshape(-1, 6, 6)


def _panel_springs(
    piece: Piece, path: PanelPath, elements: Elements, nodes: Floats
) -> list[tuple[tuple[int, int], Floats]]:
    carrying = np.flatnonzero(path.share.any(axis=1))
    fixed = np.unique(elements.nodes[carrying])
    found: Diagonals = diagonals(piece.panels[path.panel], fixed, nodes[fixed])
    springs = []
    for (a, b), stiffness in zip(found.pairs.tolist(), found.stiffness.tolist(), strict=True):
        unit = (nodes[b] - nodes[a]) / np.linalg.norm(nodes[b] - nodes[a])
        block = np.zeros((6, 6))
        block[:3, :3] = stiffness * np.outer(unit, unit)
        springs.append(((a, b), block))
    return springs


def _model(
    piece: Piece,
    lines: Mapping[int, WorkingLine],
    skeleton: _Skeleton,
    elements: Elements,
    hints: Floats,
    turned: Floats,
    stretch: Floats,
    links: Ints,
    stiffness: Floats,
    ties: list[Tie],
) -> FrameModel:
    stocks = [piece.members[int(k)].stock for k in elements.member]
    data = [element_data(stock, float(hand)) for stock, hand in zip(stocks, turned, strict=True)]
    middle = stretch.mean(axis=1)
    radii = [lines[int(k)].curvature_radius(float(s)) for k, s in zip(elements.member, middle, strict=True)]
    names = [piece.members[int(k)].name for k in elements.member]
    return frame_model(
        skeleton.nodes,
        elements.nodes,
        e=[d.e for d in data],
        g=[d.g for d in data],
        area=[d.area for d in data],
        i_y=[d.i_y for d in data],
        i_z=[d.i_z for d in data],
        i_yz=[d.i_yz for d in data],
        j=[d.j for d in data],
        y_axis=hints,
        softening=[softening(stock, r) for stock, r in zip(stocks, radii, strict=True)],
        offsets=elements.ends - skeleton.nodes[elements.nodes],
        shear_centre=np.array([d.shear_centre for d in data]),
        releases=releases(ties, skeleton.places, lines, hints),
        mass_per_mm=_mass(piece, elements),
        links=links,
        link_stiffness=stiffness,
        node_labels=_node_labels(piece, skeleton),
        element_labels=names,
    )


def _mass(piece: Piece, elements: Elements) -> Floats:
    """(m,) mass of each member spread over the length of its elements [kg/mm]."""
    lengths = np.linalg.norm(elements.ends[:, 1] - elements.ends[:, 0], axis=1)
    total = np.bincount(elements.member, weights=lengths, minlength=len(piece.members))
    mass = np.array([m.mass for m in piece.members])
    return np.asarray((mass / np.where(total > 0, total, 1.0))[elements.member])


def _node_labels(piece: Piece, skeleton: _Skeleton) -> list[str]:
    """What errors call the nodes: the member on which each lies, and how high; feet by their own names."""
    labels = [f"a foot at {z:.0f} mm up" for z in skeleton.nodes[:, 2]]
    for station in range(len(skeleton.node) - 1, -1, -1):
        name = piece.members[int(skeleton.places.member[station])].name
        labels[int(skeleton.node[station])] = f"{name} at {skeleton.places.points[station, 2]:.0f} mm above the floor"
    for foot in skeleton.feet:
        labels[foot.node] = foot.name
    return labels


def _joint_places(ties: list[Tie], laps: list[Tie], skeleton: _Skeleton) -> tuple[JointPlace, ...]:
    places = skeleton.places
    number = {tie.joint: i for i, tie in enumerate(laps)}
    return tuple(
        JointPlace(
            tie.joint,
            int(skeleton.node[places.of[tie.second]]),
            _meeting_ends(tie, places),
            number.get(tie.joint),
        )
        for tie in ties
    )


def _meeting_ends(tie: Tie, places: Stations) -> tuple[tuple[int, int], ...]:
    station = places.of[tie.first]
    return tuple((int(e), column) for column in (0, 1) for e in np.flatnonzero(places.pairs[:, column] == station))
