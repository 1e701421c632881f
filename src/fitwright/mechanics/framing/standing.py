"""What the piece stands on: casters, feet, member ends on the floor, walls it is bolted to."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

import numpy as np

from fitwright.mechanics.contact import Feet, feet
from fitwright.mechanics.framing.line import WorkingLine
from fitwright.mechanics.framing.marks import Wanted
from fitwright.mechanics.framing.model import Framed, NotFramed
from fitwright.mechanics.model import Floats
from fitwright.mechanics.supports import Supports, supports
from fitwright.piece.model import Hardware, Panel, Piece

FIXED_WITHIN_MM = 6.0
"""Farthest that a foot's fixing point may lie outside the outline of the member that it is fixed to."""
PANEL_REACH_MM = 100.0
FLOOR_MM = 1.5
WALL_MM = 3.0
FACING = 0.7
IN_LINE_MM = 10.0
"""Anchors no farther than this from a straight line cannot hold a piece from turning about it."""
ANCHORED = "ux uy uz"
CLAMPED = "fixed"
PROPPED = ("ux", "uy")
TOWARDS = {"left": np.array([-1.0, 0, 0]), "right": np.array([1.0, 0, 0]), "back": np.array([0, 1.0, 0])}


@dataclass(frozen=True, eq=False)
class Standing:
    """A support found: what it is called, its kind, the ticket of its station, and where it touches (3,) [mm].

    held: what a wall or an anchor holds, in the words of `supports`.
    """

    name: str
    kind: str
    ticket: tuple[int, int]
    at: Floats
    grips: bool
    hardware: Hardware | None = None
    held: str = ANCHORED


def find_standing(piece: Piece, walls: Mapping[str, float], wanted: Wanted) -> tuple[list[Standing], list[Standing]]:
    """Feet on the floor, and points that walls or anchors hold.

    An anchor holds its point and lets it turn. Where nothing holds a piece but anchors that lie in one line, they hold
    it against turning about that line too, by bearing on the wall: what that costs them is for the check of anchors.
    The end of a member on a wall is held against turning too, as by a plate with bolts, unless the member is bolted:
    then it is a hinge. A piece whose weight lies beyond its feet leans: the wall keeps it from going on.

    Raises NotFramed for a caster, foot or anchor that is fixed to no member, and where nothing holds the piece up.
    """
    hardware, panels = piece.hardware, piece.panels
    on_floor = [_fixed(item, panels, wanted) for item in hardware if item.placed and item.kind in ("caster", "foot")]
    on_floor += list(_ends_on_floor(wanted, on_floor))
    bolted = [_fixed(item, panels, wanted) for item in hardware if item.placed and item.kind == "anchor"]
    on_walls = list(_ends_on_walls(wanted, walls))
    bolted = [*(bolted if on_floor or on_walls else _steadied(bolted, wanted)), *on_walls]
    bolted += [] if bolted else list(_leans(piece.centre, walls, on_floor, wanted))
    if not on_floor and not bolted:
        raise NotFramed(
            "the piece floats: it has no caster or foot, no member reaches the floor (z = 0) and no wall holds it; "
            "add feet under parts, bring a member down to z = 0, or name the wall under space"
        )
    return on_floor, bolted


def _steadied(anchored: list[Standing], wanted: Wanted) -> list[Standing]:
    """Anchors that hold their members in one line held against turning about it as well; a single one in every way."""
    places = [(wanted.lines[k], wanted.places[k][i]) for k, i in (anchor.ticket for anchor in anchored)]
    at = np.array([line.points(np.array([s]))[0] for line, s in places]).reshape(-1, 3)
    away = at - at.mean(axis=0) if len(at) else at
    _, sizes, ways = np.linalg.svd(np.vstack([away, np.zeros((3, 3))]))
    if not len(at) or sizes[1] > IN_LINE_MM:
        return anchored
    held = CLAMPED if sizes[0] <= IN_LINE_MM else f"{ANCHORED} r{'xyz'[int(np.argmax(np.abs(ways[0])))]}"
    return [replace(anchor, held=held) for anchor in anchored]


def _fixed(item: Hardware, panels: tuple[Panel, ...], wanted: Wanted) -> Standing:
    """On the nearest member; under a panel, on one within a hand's breadth, for a board reaches that far."""
    near = {k: line for k, line in wanted.lines.items() if _near(line, item.at)}
    gaps = {k: _gap(line, item.at) for k, line in (near or wanted.lines).items()}
    k = min(gaps, key=lambda member: gaps[member][1])
    s, gap = gaps[k]
    if gap > (PANEL_REACH_MM if _under_panel(item, panels) else FIXED_WITHIN_MM):
        nearest = wanted.lines[k].member.name
        raise NotFramed(
            f"{item.name} is fixed to no member: put it on one; the nearest, {nearest}, is {gap:.0f} mm away"
        )
    grips = item.kind == "foot" or bool(item.properties.get("brake", False))
    at = item.at - np.array([0.0, 0.0, item.drop])
    return Standing(item.name, item.kind, wanted.at(k, s), at, grips, item)


def _under_panel(item: Hardware, panels: tuple[Panel, ...]) -> bool:
    low, high = item.at - FIXED_WITHIN_MM, item.at + FIXED_WITHIN_MM
    return any(bool((low < panel.high).all() and (high > panel.low).all()) for panel in panels)


def _near(line: WorkingLine, point: Floats) -> bool:
    low, high = line.member.body.box
    return bool((point > low - FIXED_WITHIN_MM).all() and (point < high + FIXED_WITHIN_MM).all())


def _gap(line: WorkingLine, point: Floats) -> tuple[float, float]:
    s, _ = line.nearest(point)
    return s, float(line.member.body.distance(point[None])[0])


def _ends_on_floor(wanted: Wanted, known: list[Standing]) -> Iterator[Standing]:
    """Ends of members, and of their straights, whose lowest point is on the floor."""
    for k, line in wanted.lines.items():
        if float(line.member.body.box[0][2]) > FLOOR_MM:
            continue
        # a closed path begins and ends in the middle of a leg, which is no corner
        inner = line.starts[1:-1] if line.closed else line.starts
        places = np.unique(np.clip(inner, line.first, line.last))
        for s, low, point in zip(places, _lowest(line, places), line.points(places), strict=True):
            if low <= FLOOR_MM:
                at = np.array([point[0], point[1], 0.0])
                if all(np.linalg.norm(foot.at - at) > FIXED_WITHIN_MM for foot in known):
                    yield Standing(f"the end of {line.member.name}", "end", wanted.at(k, float(s)), at, grips=True)


def _leans(centre: Floats, walls: Mapping[str, float], on_floor: list[Standing], wanted: Wanted) -> Iterator[Standing]:
    """Where a leaning piece touches a wall, at the highest place of each member that does; it is held square to it.

    Taken as held both ways: a pull off the wall is for the check of stability.
    """
    for side, value in walls.items():
        out = TOWARDS[side]
        axis = int(np.argmax(np.abs(out)))
        if not on_floor or max(float(foot.at @ out) for foot in on_floor) >= float(centre @ out):
            continue
        for k, line in wanted.lines.items():
            places = np.unique(np.clip(line.starts, line.first, line.last))
            rings = line.placed(places, line.member.stock.section.outline(24)) @ out
            touch = places[np.abs(rings.max(axis=1) - value * float(out[axis])) < WALL_MM]
            if len(touch):
                points = line.points(touch)
                top = int(np.argmax(points[:, 2]))
                name = f"{line.member.name} at the {side} wall"
                at = wanted.at(k, float(touch[top]))
                yield Standing(name, "wall", at, points[top], grips=False, held=PROPPED[axis])


def _lowest(line: WorkingLine, places: Floats) -> Floats:
    """(k,) height of the lowest point of the section at each place [mm]."""
    outline = line.member.stock.section.outline(24)
    return np.asarray(line.placed(places, outline)[:, :, 2].min(axis=1))


def _ends_on_walls(wanted: Wanted, walls: Mapping[str, float]) -> Iterator[Standing]:
    for side, value in walls.items():
        for k, line in wanted.lines.items():
            for end, s in enumerate((line.first, line.last) if not line.closed else ()):
                point = line.points(np.array([s]))[0]
                touches = abs(float(point @ np.abs(TOWARDS[side])) - value) < WALL_MM
                if touches and float(line.member.body.outward(end) @ TOWARDS[side]) > FACING:
                    name = f"{line.member.name} at the {side} wall"
                    held = ANCHORED if line.member.fastened == "bolted" else CLAMPED
                    yield Standing(name, "wall", wanted.at(k, s), point, grips=True, held=held)


def floor_feet(framed: Framed, *, stick: bool) -> Feet:
    """The feet as contacts; stick: friction (feet, brakes) holds them sideways for as long as they are down."""
    return feet([foot.node for foot in framed.feet], stick=[stick and foot.grips for foot in framed.feet])


def holding(framed: Framed, *, stick: bool) -> Supports:
    """What holds the piece besides the floor's push: walls, and three sideways restraints where nothing else holds it.

    A piece on free wheels, or on feet taken as free to slide, gets two restraints at one foot and one across at the
    foot farthest from it: enough to keep it from sailing off, and no more, so that they carry nothing unless pushed.
    With `stick` only a piece without any foot that grips gets them (its wheels taken as chocked by hand: every caster).
    """
    held = dict(framed.held)
    grips = [foot for foot in framed.feet if foot.grips]
    if stick and not grips:
        held.update({foot.node: "ux uy" for foot in framed.feet})
    elif set(held.values()) <= set(PROPPED) and (not stick or len(grips) < 2):
        held.update(_three(framed))
    return supports(framed.model, held)


def _three(framed: Framed) -> dict[int, str]:
    nodes = [foot.node for foot in framed.feet]
    at = framed.model.nodes[nodes][:, :2]
    away = at - at[0]
    far = int(np.argmax((away**2).sum(axis=1)))
    if far == 0:
        return {nodes[0]: "ux uy rz"}
    across = "uy" if abs(away[far, 0]) >= abs(away[far, 1]) else "ux"
    return {nodes[0]: "ux uy", nodes[far]: across}
