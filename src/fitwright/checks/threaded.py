"""What stems, bolts and tapped fittings hold in: full threads engaged, strip strength, grip and drills."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.checks.carried import bits, carried
from fitwright.checks.casters import borne
from fitwright.checks.rounding import up
from fitwright.checks.standing import contacts
from fitwright.checks.stripping import full_strength_depth, strip_force, turns
from fitwright.checks.threads import ACCEPTED, Thread, clearance_hole, find_thread, tap_drill
from fitwright.checks.walls import Wall, bore_width, open_end, walls
from fitwright.findings import Finding, Verdict, at_least, needs_input
from fitwright.job.model import Job
from fitwright.piece.model import Board, Hardware, Member, Piece

Floats = NDArray[np.float64]

AREA = "threads"
FULL_TURNS = 3.0
TURNS_BASIS = (
    "common practice: three full threads in a tapped wall, fewer only with a rivet nut, a weld nut or a bolt through"
)
STRIP_BASIS = (
    "FED-STD-H28/2B shear areas, ASME B1.1 2A/2B or ISO 965 6g/6H limits (from memory), shear 0.577 of tensile"
)
SCREW_FU = 420.0  # MPa; ISO 898-1 class 4.8, the softest that is sold, from memory
WALL_FU = 310.0  # MPa; mild steel tube where the material says nothing
HOLDING_WORDS = ("insert", "nut", "tapped", "plug", "socket", "expand")
NEAR = 30.0  # mm: a fitting nearer than this to a stem belongs to it
UP = np.array([0.0, 0.0, 1.0])
NUT = 0.875  # height of a hex nut over its diameter; ASME B18.2.2, from memory
SPARE_TURNS = 2.0  # threads past the nut, common practice
TOUCH = 1.0  # mm
LOOK = 80.0  # mm along a stem whose length is not said


@dataclass(frozen=True, eq=False)
class Held:
    """One thread of a piece: the hardware, its thread, and the length of its stem [mm] where it is known."""

    item: Hardware
    thread: Thread
    length: float | None


def thread_findings(job: Job, piece: Piece) -> list[Finding]:
    """One set of findings for each kind of threaded hardware, of the copy that is worst off."""
    found: list[Finding] = []
    for part in dict.fromkeys(item.part for item in piece.hardware):
        items = [item for item in piece.hardware if item.part == part]
        found += _part_findings(job, piece, items)
    return found


def _part_findings(job: Job, piece: Piece, items: list[Hardware]) -> list[Finding]:
    first = items[0]
    if first.kind == "anchor":
        return []  # it is held by the wall; see `held`
    text = str(first.properties.get("thread", first.properties.get("size", "")))
    thread = find_thread(text)
    if thread is None:
        return _unknown(first, text)
    length = float(first.properties["length"]) if "length" in first.properties else None
    held = [Held(item, thread, length) for item in items]
    if first.kind in ("caster", "foot"):
        return _stem(job, piece, min(held, key=lambda one: _stem_depth(piece, one)))
    return min((_fastener(job, piece, one) for one in held), key=_worst)


def _worst(found: list[Finding]) -> tuple[int, float]:
    order = list(Verdict)
    ranked = [(order.index(f.verdict), f.margin if f.margin is not None else 0.0) for f in found]
    return min(ranked, default=(len(order), 0.0))


def _unknown(item: Hardware, text: str) -> list[Finding]:
    """Hardware whose thread is not said, or not understood; screws for wood and plates have none."""
    said = "thread" in item.properties
    plate = "size_x" in item.properties
    if said:
        return [
            needs_input(AREA, item.part, "thread", f"parts: {item.part}: {item.kind}: thread as {ACCEPTED}, not {text}")
        ]
    if item.kind in ("caster", "foot") and not plate:
        asked = f"parts: {item.part}: {item.kind}: thread of its stem, or size_x and size_y of its plate"
        return [needs_input(AREA, item.part, "how it is fixed", asked)]
    return []


def _stem_depth(piece: Piece, held: Held) -> float:
    """The depth of metal over a caster or foot [mm], by which the worst of several copies is found."""
    if _insert(piece, held.item) is not None:
        return LOOK
    if open_end(piece, held.item.at, UP) is not None:
        return 0.0
    stack = _over(piece, held)
    return 0.0 if stack is None else stack.thickness


def _over(piece: Piece, held: Held) -> Wall | None:
    """The first stack of walls over a stem, if it starts where the stem does."""
    stack = next(iter(walls(piece, held.item.at, UP, back=TOUCH, ahead=held.length or LOOK)), None)
    return stack if stack is not None and stack.start <= TOUCH else None


def _stem(job: Job, piece: Piece, held: Held) -> list[Finding]:
    """What a stem that points up from a caster or foot screws into."""
    item = held.item
    if (insert := _insert(piece, item)) is not None:
        return [_in_insert(job, held, insert)]
    if (tube := open_end(piece, item.at, UP)) is not None:
        return [_bare_end(job, held, tube)]
    stack = _over(piece, held)
    if stack is None:
        return [_nothing(job, held)]
    depth = stack.thickness if held.length is None else min(stack.thickness, held.length)
    return [_turns(job, held, stack, depth), _strip(job, piece, held, stack, depth)]


def _fastener(job: Job, piece: Piece, held: Held) -> list[Finding]:
    """A bolt, screw or fitting with a machine thread."""
    item = held.item
    if held.length is None:
        return [needs_input(AREA, item.part, "grip", f"parts: {item.part}: {item.kind}: length")]
    board = _board_at(piece, item.at)
    if board is not None:
        return [_in_timber(job, piece, held)]
    stack = _stack(piece, item.at, held.length)
    if stack is None:
        return [needs_input(AREA, item.part, "grip", f"parts: {item.part}: at, a point on the parts that it holds")]
    if item.kind == "bolt":
        return [_grip(job, held, stack)]
    return [_turns(job, held, stack, min(stack.thickness, held.length))]


def _insert(piece: Piece, item: Hardware) -> Hardware | None:
    """What carries the thread, by the words of a label: the hardware itself or a fitting beside it."""
    beside = [
        other for other in piece.hardware
        if other is not item and other.kind == "fitting" and float(np.linalg.norm(other.at - item.at)) <= NEAR
    ]  # fmt: skip
    return next((other for other in (item, *beside) if _says(other.label)), None)


def _says(label: str) -> bool:
    return any(word in label.lower() for word in HOLDING_WORDS)


def _in_insert(job: Job, held: Held, insert: Hardware) -> Finding:
    """A stem in a bought insert or nut: its own depth where it is said, else a nut's height of the thread's size."""
    figure = job.style.figure
    said = insert is not held.item and "length" in insert.properties
    depth = float(insert.properties["length"]) if said else NUT * held.thread.major
    return at_least(
        AREA, held.item.part, f"full threads of {held.thread.name} engaged", turns(held.thread, depth), FULL_TURNS,
        "threads", tight=0.0, basis=TURNS_BASIS, advice="take a longer insert",
        formula=f"{insert.label}: {figure(depth, 1)}{'' if said else ' taken as a nut of that size'} / "
        f"{figure(held.thread.pitch, 2)} = {turns(held.thread, depth):.1f}",
    )  # fmt: skip


def _bare_end(job: Job, held: Held, tube: Member) -> Finding:
    figure = job.style.figure
    style, depth = job.style, full_strength_depth(held.thread)
    return Finding(
        AREA, held.item.part, f"full threads of {held.thread.name} "
        f"engaged", Verdict.FAILS, 0.0, FULL_TURNS, -FULL_TURNS,
        "threads", TURNS_BASIS,
        f"the stem meets an open tube end: add a fitting 'threaded insert {held.thread.name}' for {tube.stock.label} "
        f"(bore {style.length(bore_width(tube))}), or weld in a nut or a plug at least "
        f"{style.length(up(style, depth))} "
        f"thick and tap it {_drill(job, held.thread)}",
        f"bore {figure(bore_width(tube), 1)}, thread {figure(held.thread.major, 1)}: no metal to hold it",
    )  # fmt: skip


def _nothing(job: Job, held: Held) -> Finding:
    return Finding(
        AREA, held.item.part, f"full threads of {held.thread.name} "
        f"engaged", Verdict.FAILS, 0.0, FULL_TURNS, -FULL_TURNS,
        "threads", TURNS_BASIS,
        f"nothing is over {held.item.name} to screw it into: move it under a member, or weld a tapped plate "
        f"{job.style.length(up(job.style, full_strength_depth(held.thread)))} thick there",
        "no metal along the stem",
    )  # fmt: skip


def _turns(job: Job, held: Held, stack: Wall, depth: float) -> Finding:
    figure = job.style.figure
    thread, style = held.thread, job.style
    engaged = turns(thread, depth)
    need = up(style, FULL_TURNS * thread.pitch - stack.thickness)
    return at_least(
        AREA, held.item.part, f"full threads of {thread.name} engaged", engaged, FULL_TURNS, "threads", tight=0.0,
        basis=TURNS_BASIS,
        advice=f"weld a nut or a plate of at least {style.length(need)} behind the wall and tap both, set a rivet nut "
        f"{thread.name}, or bolt through ({clearance_hole(thread) or 'clearance'} hole)",
        formula=f"{figure(depth, 2)} of {stack.names} / {figure(thread.pitch, 2)} = {engaged:.1f} threads; "
        f"tap {_drill(job, thread)}"
        f"; the screw breaks before it strips from {figure(full_strength_depth(thread), 1)} on",
    )  # fmt: skip


def _strip(job: Job, piece: Piece, held: Held, stack: Wall, depth: float) -> Finding:
    """The pull that strips the thread against the load of one caster or foot, with the job's safety."""
    style = job.style
    on = [contact for contact in contacts(piece) if contact.item is not None]
    bearing = borne(piece, on, bits(carried(job, piece)))
    load = max(bearing.number, bearing.position)
    strength = min((owner.stock.material.fu or WALL_FU for owner in stack.owners), default=WALL_FU)
    force = strip_force(held.thread, depth, strength, SCREW_FU)
    limit = load * job.brief.rules.safety
    return at_least(
        AREA, held.item.part, "strip strength of its thread", force, limit, "N", tight=job.brief.rules.tight * limit,
        basis=STRIP_BASIS,
        advice=f"tap at least {job.style.length(up(job.style, depth * limit / force * (1 + job.brief.rules.tight)))} "
        f"of "
        "metal: a plate or a weld nut behind the wall",
        formula=f"{job.style.figure(depth, 2)} deep in {job.style.stress(strength)}: {style.force(force)}; "
        f"load {style.force(load)} x "
        f"{job.brief.rules.safety} = "
        f"{style.force(limit)}",
    )  # fmt: skip


def _grip(job: Job, held: Held, stack: Wall) -> Finding:
    figure = job.style.figure
    thread = held.thread
    assert held.length is not None
    need = stack.thickness + NUT * thread.major + SPARE_TURNS * thread.pitch
    return at_least(
        AREA, held.item.part, "length of the bolt through its parts and a nut", held.length, need, "mm", tight=0.0,
        basis="common practice: two threads past the nut; nut 7/8 of the diameter high, ASME B18.2.2 from memory",
        advice=f"take a bolt of at least {job.style.length(up(job.style, need))}; where a nut cannot be reached, a "
        f"rivet "
        f"nut {thread.name}",
        formula=f"{figure(stack.thickness, 1)} of parts + {figure(NUT * thread.major, 1)} nut + "
        f"{figure(SPARE_TURNS * thread.pitch, 1)} "
        f"= {figure(need, 1)}; clearance hole {clearance_hole(thread) or 'to suit'}",
    )  # fmt: skip


def _in_timber(job: Job, piece: Piece, held: Held) -> Finding:
    item = held.item
    check = "machine thread in timber"
    insert = _insert(piece, item)
    if insert is None:
        asked = (
            f"a fitting 'threaded insert {held.thread.name}' beside parts: {item.part}, or a label with insert, nut or "
            "tapped that says what its thread holds in"
        )
        return needs_input(AREA, item.part, check, asked)
    return Finding(
        AREA, item.part, check, Verdict.HOLDS, basis="common practice", formula=f"{held.thread.name} in {insert.label}"
    )


def _board_at(piece: Piece, at: Floats) -> Board | None:
    for panel in piece.panels:
        if panel.stock.material.is_metal:
            continue
        for board in panel.boards:
            if (board.low - TOUCH <= at).all() and (at <= board.high + TOUCH).all():
                return board
    return None


def _stack(piece: Piece, at: Floats, length: float) -> Wall | None:
    """The walls that a bolt at a point (3,) goes through: square to the face it lies on, else the shortest way through.

    A bolt long enough for it goes through every wall of the members there; a shorter one through the wall at the point.
    """
    here = [m for m in piece.members if m.sleeve_of is None and float(m.body.distance(at[None, :])[0]) <= TOUCH]
    grips = [_through(piece, at, axis, length, here) for axis in _bolt_axes(here, at)]
    return min((grip for grip in grips if grip is not None), key=lambda wall: wall.thickness, default=None)


def _bolt_axes(here: list[Member], at: Floats) -> list[Floats]:
    """The axes along which a bolt can lie: the normal of the face that the point is on, else all."""
    around = at + np.vstack([np.eye(3), -np.eye(3)]) * TOUCH
    for member in here:
        if abs(float(member.body.distance(at[None, :])[0])) <= TOUCH:
            distances = member.body.distance(around)
            return [np.eye(3)[int(np.argmax(np.abs(distances[:3] - distances[3:])))]]
    return list(np.eye(3))


def _through(piece: Piece, at: Floats, axis: Floats, length: float, here: list[Member]) -> Wall | None:
    """From the first to the last wall of the members at the point, sheets that lie on them counted in."""
    met = walls(piece, at, axis, back=length, ahead=length)
    ours = [wall for wall in met if any(owner is member for owner in wall.owners for member in here)]
    if not ours:
        return None
    owners = {id(owner): owner for wall in ours for owner in wall.owners}
    through = Wall(ours[0].start, ours[-1].end, tuple(owners.values()))
    if through.thickness <= length:
        return through
    return next((wall for wall in ours if wall.start <= TOUCH and wall.end >= -TOUCH), through)


def _drill(job: Job, thread: Thread) -> str:
    drill = tap_drill(thread)
    return f"after a {drill[0]} drill" if drill else f"after a {job.style.figure(thread.major - thread.pitch, 1)} drill"
