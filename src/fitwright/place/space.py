"""The piece in its place: the smallest real gap on each side of an opening that is never square."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.findings import Finding, at_least, at_most, needs_input
from fitwright.job.model import Job, Neighbour
from fitwright.piece import Piece
from fitwright.place.outline import Edges, piece_edges, split_at
from fitwright.place.walls import Walls

Floats = NDArray[np.float64]

AREA = "space"
SIDES = ("left", "right", "back", "front", "top")


@dataclass(frozen=True)
class Gap:
    """The smallest gap on one side [mm], the height above the floor where it is, and the gap wanted.

    chosen: the piece was set to this gap, so that none to spare is as it should be.
    """

    side: str
    value: float
    height: float
    wanted: float
    chosen: bool = False


@dataclass(frozen=True)
class Fit:
    """The piece set into its opening: the shift (x, y) from piece to opening coordinates [mm] and the gaps."""

    shift: tuple[float, float]
    gaps: tuple[Gap, ...]


def fit(job: Job, piece: Piece) -> Fit | None:
    """Set the piece into the opening and find its smallest gaps; None when no opening was surveyed.

    The piece stands at the gap that the job says on one side, else in the middle of what the casters' swivel leaves;
    at the back it stands at the gap wanted. Walls are straight between the heights where they were measured.
    """
    opening = job.space.opening
    if opening is None or not (opening.widths or opening.depths or opening.tops):
        return None
    edges = piece_edges(piece)
    walls = Walls(opening, float(edges[..., 2].max()))
    shift_x, sideways = _sideways(job, walls, edges)
    shift_y, lengthways = _lengthways(job, walls, edges)
    above = _above(job, walls, edges + np.array([shift_x, 0.0, 0.0]))
    return Fit((shift_x, shift_y), (*sideways, *lengthways, *above))


def space_findings(job: Job, piece: Piece, placed: Fit | None) -> list[Finding]:
    """Gaps against those wanted, neighbours that must be matched, openings that parts must keep clear."""
    found: list[Finding] = []
    if placed is None:
        found.append(needs_input(AREA, "opening", "gap on each side", "space: opening: width, depth, height"))
    else:
        found += [_gap_finding(job, gap) for gap in placed.gaps]
    found += [finding for neighbour in job.space.neighbours for finding in _match_findings(job, piece, neighbour)]
    for opening in piece.openings:
        worst = max(opening.intruders, key=lambda pair: pair[1], default=("", 0.0))
        found.append(
            at_most(
                AREA, opening.name, "parts inside the opening", worst[1], 0.0, "mm", tight=0.0,
                basis="the job's own opening",
                advice=f"move {worst[0]} out of {opening.name} by {job.style.length(worst[1])}",
            )
        )  # fmt: skip
    return found


def _gap_finding(job: Job, gap: Gap) -> Finding:
    short, style = gap.wanted - gap.value, job.style
    return at_least(
        AREA,
        gap.side,
        f"gap on the {gap.side}" if gap.side != "top" else "gap above",
        gap.value,
        gap.wanted,
        "mm",
        tight=0.0 if gap.chosen else job.brief.rules.clear_tight,
        basis="the survey of the space and the clearance wanted in the job; walls straight between measured heights",
        advice=f"smallest {style.length(gap.height)} above the floor; "
        + (
            f"take {style.length(short)} off the piece or the clearance"
            if short > 0
            else "measure again at that height"
        ),
        formula=f"{style.length(gap.value)} left at {style.length(gap.height)} above the floor, "
        f"{style.length(gap.wanted)} wanted",
    )


def _match_findings(job: Job, piece: Piece, neighbour: Neighbour) -> list[Finding]:
    found = []
    for what, value in neighbour.match.items():
        theirs = neighbour.height if what == "height" else neighbour.depth
        if theirs is None:
            found.append(
                needs_input(AREA, neighbour.name, f"match {what}", f"space: neighbours: {neighbour.name}: {what}")
            )
            continue
        off = abs(value - theirs)
        found.append(
            at_most(
                AREA, neighbour.name, f"match {what}", off, neighbour.within, "mm", tight=0.0,
                basis="the survey of the space",
                advice=f"make the piece's {what} {job.style.length(off)} {'more' if theirs > value else 'less'}",
                formula=f"piece {job.style.length(value)}, {neighbour.name} {job.style.length(theirs)}",
            )
        )  # fmt: skip
    return found


def _sideways(job: Job, walls: Walls, edges: Edges) -> tuple[float, list[Gap]]:
    if not walls.opening.widths:
        return 0.0, []
    points = split_at(edges, 2, walls.heights)
    left, right = walls.sides(points[:, 2])
    from_left, to_right = points[:, 0] - left, right - points[:, 0]
    stand, clear = job.space.stand, job.space.clear
    shift = _stand(stand, float(from_left.min()), float(to_right.min()))
    return shift, [
        _smallest("left", from_left + shift, points[:, 2], clear, chosen="left" in stand),
        _smallest("right", to_right - shift, points[:, 2], clear, chosen="right" in stand and "left" not in stand),
    ]


def _stand(stand: Mapping[str, float], left: float, right: float) -> float:
    if "left" in stand:
        return stand["left"] - left
    if "right" in stand:
        return right - stand["right"]
    return (right - left) / 2


def _lengthways(job: Job, walls: Walls, edges: Edges) -> tuple[float, list[Gap]]:
    """The back wall stands at the measured depth behind the front line of the opening."""
    if not walls.opening.depths:
        return 0.0, []
    points = split_at(edges, 2, walls.heights)
    behind, before = walls.back(points[:, 2]) - points[:, 1], points[:, 1]
    wanted = job.space.stand.get("back", job.space.clear.get("back", 0.0))
    shift = float(behind.min()) - wanted
    return shift, [
        _smallest("back", behind - shift, points[:, 2], job.space.clear, chosen=True),
        _smallest("front", before + shift, points[:, 2], job.space.clear),
    ]


def _above(job: Job, walls: Walls, edges: Edges) -> list[Gap]:
    if not walls.opening.tops:
        return []
    points = split_at(edges, 0, np.array([at for at, _ in walls.opening.tops]))
    return [_smallest("top", walls.top(points[:, 0]) - points[:, 2], points[:, 2], job.space.clear)]


def _smallest(side: str, gaps: Floats, heights: Floats, clear: Mapping[str, float], chosen: bool = False) -> Gap:
    at = int(np.argmin(gaps))
    return Gap(side, float(gaps[at]), float(heights[at]), clear.get(side, 0.0), chosen)
