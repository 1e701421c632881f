"""The piece in its place: where it stands, how near it comes to what is round it, and what stays possible there."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from fitwright.job.model import Job
from fitwright.piece import Piece
from fitwright.piece.model import Panel
from fitwright.place.between import Set, gaps_of, left_open_by, passed, set_between
from fitwright.place.model import Fit, WayOut
from fitwright.place.outline import Edges, Skin, piece_edges, piece_skin
from fitwright.place.removing import way_out
from fitwright.place.resting import Stance, stance
from fitwright.place.swinging import swing_of
from fitwright.place.things import box_of, gap_to
from fitwright.place.using import brakes_of, free_below, reach_of
from fitwright.place.walls import Walls

Floats = NDArray[np.float64]
Box = tuple[Floats, Floats]

ROUNDS = 3  # of setting it between the walls and on the floor in turn
STILL = 1e-6  # a slope that changes by less than this is the same
THICK_MM = 100.0  # of a wall as a box


def fit(job: Job, piece: Piece) -> Fit | None:
    """Set the piece into the opening and find its smallest gaps; None when no opening was surveyed.

    The piece stands at the gap that the job says on one side, else in the middle of what the casters' swivel leaves;
    at the back it stands at the gap wanted. Walls are straight between the heights where they were measured. On a floor
    that was measured casters lean with it, and what has feet is shimmed level.
    """
    opening = job.space.opening
    if opening is None or not (opening.widths or opening.depths or opening.tops or opening.plan):
        return None
    edges = piece_edges(piece)
    walls = Walls(opening, float(edges[..., 2].max()), job.space.skirting, job.space.within)
    found, stands = set_in(job, piece, walls, edges)
    left_open, stands_open = left_open_by(job.space, walls, found)
    gaps = gaps_of(job.space, walls, found, left_open)
    turn, raised = (np.eye(3), 0.0) if stands is None else (stands.turn, stands.raised)
    move = np.array([*found.shift, raised])
    skin = piece_skin(piece).moved(turn, move)
    boxes = {t.name: box for t in job.space.things if (box := box_of(t, walls)) is not None}
    near = [gap_to(t, boxes[t.name], skin, job.space, stands_open) for t in job.space.things if t.name in boxes]
    loose = frozenset(panel.name for panel in piece.panels if panel.removable is not None)
    reaches = [reach_of(thing, boxes, skin, loose) for thing in job.space.things]
    return Fit(
        found.shift,
        gaps,
        stands,
        passed(walls, found, gaps),
        tuple(gap for gap in near if gap is not None),
        tuple(swing_of(door, skin) for door in job.space.doors),
        tuple(one for one in reaches if one is not None),
        _ways_out(job, piece, walls, boxes, move) if loose else (),
        brakes_of(piece, skin, boxes),
        free_below(piece_skin(piece)),
        boxes,
    )


def _ways_out(job: Job, piece: Piece, walls: Walls, boxes: Mapping[str, Box], move: Floats) -> tuple[WayOut, ...]:
    """How each removable panel comes out of the piece, which for this is taken to stand level."""
    skin = piece_skin(piece).moved(np.eye(3), move)
    around = _around(walls, boxes, skin)
    found = [way_out(panel, skin, around, _under(piece, panel), job.style) for panel in piece.panels]
    return tuple(way for way in found if way is not None)


def set_in(job: Job, piece: Piece, walls: Walls, edges: Edges) -> tuple[Set, Stance | None]:
    """Between the walls and on the floor: where it stands decides how it leans, and the other way round."""
    found = set_between(job.space, walls, edges)
    stands = stance(piece, job.space.floor, np.array(found.shift))
    for _ in range(ROUNDS):
        if stands is None:
            break
        found = set_between(job.space, walls, _stood(edges, stands))
        before, stands = stands, stance(piece, job.space.floor, np.array(found.shift))
        if stands is None or not stands.rolls or np.abs(stands.slope - before.slope).max() < STILL:
            break
    return found, stands


def _stood(edges: Edges, stands: Stance) -> Edges:
    """Edges (k, 2, 3) as the floor turns and raises them."""
    turned = edges @ stands.turn.T if stands.rolls else edges
    return np.asarray(turned + np.array([0.0, 0.0, stands.raised]))


def _under(piece: Piece, panel: Panel) -> frozenset[str]:
    return frozenset(piece.members[k].name for k in panel.rests_on)


def _around(walls: Walls, boxes: Mapping[str, Box], skin: Skin) -> dict[str, Box]:
    """Walls as boxes where the piece is, and the things."""
    low, high = skin.low.min(axis=0), skin.high.max(axis=0)
    found = dict(boxes)
    heights, deep = np.array([low[2], high[2]]), np.array([low[1], high[1]])
    if walls.widths:
        left, right = walls.sides(np.repeat(heights, 2), np.tile(deep, 2))
        span = np.array([0.0, max(deep[1], 1.0)])
        found["the left wall"] = _wall(0, left.max() - THICK_MM, left.max(), span, heights)
        found["the right wall"] = _wall(0, right.min(), right.min() + THICK_MM, span, heights)
    if walls.opening.tops:
        top = float(walls.top(np.array([low[0], high[0], *(at for at, _ in walls.opening.tops)])).min())
        found["the top"] = np.array([low[0], deep[0], top]), np.array([high[0], deep[1], top + THICK_MM])
    if walls.depths:
        back = walls.back(np.repeat(heights, 2), np.tile([low[0], high[0]], 2))
        found["the back wall"] = _wall(1, back.min(), back.min() + THICK_MM, np.array([low[0], high[0]]), heights)
    return found


def _wall(axis: int, start: float, end: float, along: Floats, heights: Floats) -> Box:
    low, high = np.array([along[0], along[0], heights[0]]), np.array([along[1], along[1], heights[1]])
    low[axis], high[axis] = start, end
    return low, high
