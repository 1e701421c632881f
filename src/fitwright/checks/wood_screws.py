"""Screws in timber: that they do not come through the face, bite deep enough, and keep away from the edges."""

from __future__ import annotations

import re
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.checks.moisture import fixings_of
from fitwright.checks.rounding import down, up
from fitwright.checks.threads import find_thread, inch_size
from fitwright.checks.walls import walls
from fitwright.checks.withdrawal import PER_INCH, screw_withdrawal
from fitwright.findings import Finding, at_least, at_most, needs_input
from fitwright.job.model import Job
from fitwright.piece.model import Board, Hardware, Panel, Piece
from fitwright.units import INCH

Floats = NDArray[np.float64]

AREA = "timber"
COVER = INCH / 8  # of wood left under the face; common practice
BITE = 0.5  # of the last board's thickness; common practice
EDGE = 2.5  # diameters to the edge with a pilot hole; NDS commentary, from memory
SCREW_SIZE = re.compile(r"(#\d+|\d+/\d+)")
TOUCH = 1.0


@dataclass(frozen=True, eq=False)
class Driven:
    """A fastener in a panel [mm]: its length and diameter, what it passes, how thick the board is that it ends in."""

    item: Hardware
    length: float
    diameter: float
    passes: float
    last: float
    boards: tuple[Board, ...]


def screw_findings(job: Job, piece: Piece) -> list[Finding]:
    """For each kind of screw or bolt that ends in a timber panel, of the copy that is worst off."""
    found: list[Finding] = []
    for panel in {panel.part: panel for panel in reversed(piece.panels)}.values():
        if panel.stock.material.is_metal:
            continue
        for item in {item.part: item for item in reversed(fixings_of(piece, panel))}.values():
            if item.kind in ("screw", "bolt"):
                found += _fixing(job, piece, panel, item)
        if panel.fastened == "screwed" and not fixings_of(piece, panel):
            asked = f"the screws or brackets that hold {panel.name}, as a part with screw or bolt and at"
            found.append(needs_input(AREA, panel.part, "screws must not come through", asked))
    return found


def _fixing(job: Job, piece: Piece, panel: Panel, item: Hardware) -> list[Finding]:
    length = item.properties.get("length")
    diameter = diameter_of(item)
    if length is None or diameter is None:
        missing = "length" if length is None else "size, such as '#8 x 1 1/4'"
        return [
            needs_input(AREA, item.part, "screws must not come through", f"parts: {item.part}: {item.kind}: {missing}")
        ]
    driven = _driven(piece, panel, item, float(length), diameter)
    found = [_through(job, driven)]
    if find_thread(str(item.properties.get("size", ""))) is None:
        found += [_bite(job, panel, driven), *_edge(job, panel, driven)]
    return found


def diameter_of(item: Hardware) -> float | None:
    """The diameter of a fastener [mm], as given or from its size (`#8 x 1 1/4`, `1/4-20`, `M6`); None when not said."""
    if "diameter" in item.properties:
        return float(item.properties["diameter"])
    size = str(item.properties.get("size", item.properties.get("thread", "")))
    if (thread := find_thread(size)) is not None:
        return thread.major
    found = SCREW_SIZE.match(size.strip())
    return inch_size(found[1]) * INCH if found else None


def _driven(piece: Piece, panel: Panel, item: Hardware, length: float, diameter: float) -> Driven:
    """What it passes: from the resting side through battens or the metal wall under the panel, into the boards."""
    axis, sign = panel.normal, panel.grows
    here = [b for b in panel.boards if _beside(b, item.at, axis)]
    battens = [b for b in here if b.role == "batten"] or [b for b in panel.boards if b.role == "batten"]
    main = [b for b in here if b.role != "batten"] or [b for b in panel.boards if b.role != "batten"]
    passes = battens[0].thickness if battens else 0.0
    if not battens:
        into = np.eye(3)[axis] * -sign
        met = walls(piece, item.at, into, back=TOUCH, ahead=length)
        passes = met[0].thickness if met and met[0].start <= TOUCH else 0.0
    return Driven(item, length, diameter, passes, main[0].thickness, (main[0], *battens[:1]))


def _beside(board: Board, at: Floats, axis: int) -> bool:
    others = [k for k in range(3) if k != axis]
    return all(board.low[k] - TOUCH <= at[k] <= board.high[k] + TOUCH for k in others)


def _through(job: Job, driven: Driven) -> Finding:
    figure = job.style.figure
    room = driven.passes + driven.last - COVER
    style = job.style
    return at_most(
        AREA, driven.item.part, "length, so that it does not come through the "
        "face", driven.length, room, "mm", tight=0.0,
        basis="common practice: 1/8 in of wood left under the face",
        advice=f"take one no longer than {style.length(down(style, room))}",
        formula=f"{figure(driven.passes, 1)} + {figure(driven.last, 1)} - {figure(COVER, 1)} = {figure(room, 1)}",
    )  # fmt: skip


def _bite(job: Job, panel: Panel, driven: Driven) -> Finding:
    figure = job.style.figure
    bite = driven.length - driven.passes
    limit = BITE * driven.last
    gravity = panel.stock.material.specific_gravity
    holds = "" if gravity is None else (
        f"; holds {job.style.force(screw_withdrawal(gravity, driven.diameter) * max(bite, 0.0))} in withdrawal "
        f"(NDS 2018 12.2-2: 2850 x {gravity}² x {driven.diameter / INCH:.3f} = "
        f"{screw_withdrawal(gravity, driven.diameter) / PER_INCH:.0f} lb/in)"
    )  # fmt: skip
    return at_least(
        AREA, driven.item.part, "bite in the last board", bite, limit, "mm", tight=0.0,
        basis="common practice: half the thickness of the board that it holds",
        advice=f"take one of at least {job.style.length(up(job.style, driven.passes + limit))}",
        formula=f"{figure(driven.length, 1)} - {figure(driven.passes, 1)} = {figure(bite, 1)}{holds}",
    )  # fmt: skip


def _edge(job: Job, panel: Panel, driven: Driven) -> list[Finding]:
    """Distance to the nearest edge across the grain; where only one point is given for many, the best that there is."""
    figure = job.style.figure
    limit = EDGE * driven.diameter
    if driven.item.each > 1:
        room, said = _shared_room(job, panel, driven)
    else:
        room, said = _own_room(driven), "from its point to the nearest long edge"
    return [
        at_least(
            AREA, driven.item.part, "distance to the edge of the board", room, limit, "mm", tight=0.0,
            basis="NDS commentary, 2.5 diameters with a pilot hole (from memory)",
            advice=f"set it at least {job.style.length(up(job.style, limit))} from the edge, or take a thinner screw",
            formula=f"{figure(room, 1)} {said}; 2.5 x {figure(driven.diameter, 1)} = {figure(limit, 1)}",
        )
    ]  # fmt: skip


def _shared_room(job: Job, panel: Panel, driven: Driven) -> tuple[float, str]:
    """Screws shared out over the crossings of boards and battens, across a crossing's diagonal [mm]."""
    count = {role: sum(b.role == role for b in panel.boards) for role in ("slat", "batten", "solid", "sheet")}
    crossings = max(count["slat"] + count["solid"] + count["sheet"], 1) * max(count["batten"], 1)
    each = max(1, -(-driven.item.each // crossings))
    narrow = min(board.width for board in driven.boards)
    return narrow / (2 * each), f"with {each} at each crossing, spread over {job.style.figure(narrow, 1)}"


def _own_room(driven: Driven) -> float:
    rooms = [
        min(float(driven.item.at[b.across] - b.low[b.across]), float(b.high[b.across] - driven.item.at[b.across]))
        for b in driven.boards
    ]
    return min(rooms)
