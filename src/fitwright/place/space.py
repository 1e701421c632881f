"""The piece in its place: the smallest real gap on each side of an opening that is never square."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.findings import Finding, at_least, at_most, needs_input
from fitwright.job.model import Job, Neighbour, Opening
from fitwright.piece import Piece, trimmed
from fitwright.piece.envelope import hardware_box

Floats = NDArray[np.float64]

AREA = "space"
SIDES = ("left", "right", "back", "front", "top")


@dataclass(frozen=True)
class Gap:
    """The smallest gap on one side [mm], the height above the floor where it is, and the gap wanted."""

    side: str
    value: float
    height: float
    wanted: float


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
    points = _outline(piece)
    gaps: list[Gap] = []
    shift_x, sideways = _sideways(job, opening, points)
    shift_y, lengthways = _lengthways(job, opening, points)
    gaps += sideways + lengthways + _above(job, opening, points + np.array([shift_x, 0.0, 0.0]))
    return Fit((shift_x, shift_y), tuple(gaps))


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
                basis="the job's own opening", advice=f"move {worst[0]} out of {opening.name} by {worst[1]:.1f} mm",
            )
        )  # fmt: skip
    return found


def _gap_finding(job: Job, gap: Gap) -> Finding:
    short = gap.wanted - gap.value
    return at_least(
        AREA,
        gap.side,
        f"gap on the {gap.side}" if gap.side != "top" else "gap above",
        gap.value,
        gap.wanted,
        "mm",
        tight=job.brief.rules.clear_tight,
        basis="the survey of the space and the clearance wanted in the job; walls straight between measured heights",
        advice=f"smallest {gap.height:.0f} mm above the floor; "
        + (f"take {short:.1f} mm off the piece or the clearance" if short > 0 else "measure once more at that height"),
        formula=f"{gap.value:.1f} mm left at {gap.height:.0f} mm above the floor, {gap.wanted:.1f} mm wanted",
    )


def _match_findings(job: Job, piece: Piece, neighbour: Neighbour) -> list[Finding]:
    found = []
    for what, value in neighbour.match.items():
        theirs = neighbour.height if what == "height" else neighbour.depth
        if theirs is None:
            found.append(needs_input(AREA, neighbour.name, f"match {what}", f"space: neighbours: {neighbour.name}: {what}"))
            continue
        off = abs(value - theirs)
        found.append(
            at_most(
                AREA, neighbour.name, f"match {what}", off, neighbour.within, "mm", tight=0.0,
                basis="the survey of the space", advice=f"change the piece's {what} by {theirs - value:+.1f} mm",
                formula=f"piece {value:.1f} mm, {neighbour.name} {theirs:.1f} mm",
            )
        )  # fmt: skip
    return found


def _outline(piece: Piece) -> Floats:
    """Points (k, 3) of everything that could touch a wall, casters swept through their swivel [mm]."""
    clouds = [trimmed(m, piece.members).surface for m in piece.members if m.sleeve_of is None]
    boxes = [(board.low, board.high) for panel in piece.panels for board in panel.boards]
    boxes += [hardware_box(item, swept=True) for item in piece.hardware]
    clouds += [_corners(low, high) for low, high in boxes]
    return np.vstack(clouds)


def _corners(low: Floats, high: Floats) -> Floats:
    return np.array([[x, y, z] for x in (low[0], high[0]) for y in (low[1], high[1]) for z in (low[2], high[2])])


def _profile(pairs: Sequence[tuple[float, float]], at: Floats) -> Floats:
    heights, sizes = zip(*sorted(pairs), strict=True)
    return np.interp(at, heights, sizes)


def _lean(opening: Opening, side: str, heights: Floats, full: float) -> Floats:
    return np.asarray(opening.lean.get(side, 0.0) * np.clip(heights / full, 0, 1))


def _full_height(opening: Opening, points: Floats) -> float:
    tops = [height for _, height in opening.tops]
    return min(tops) if tops else float(points[:, 2].max())


def _sideways(job: Job, opening: Opening, points: Floats) -> tuple[float, list[Gap]]:
    if not opening.widths:
        return 0.0, []
    heights = points[:, 2]
    left = _lean(opening, "left", heights, _full_height(opening, points))
    right = left + _profile(opening.widths, heights)
    from_left, to_right = points[:, 0] - left, right - points[:, 0]
    shift = _stand(job.space.stand, float(from_left.min()), float(to_right.min()))
    return shift, [
        _smallest("left", from_left + shift, heights, job.space.clear),
        _smallest("right", to_right - shift, heights, job.space.clear),
    ]


def _stand(stand: Mapping[str, float], left: float, right: float) -> float:
    if "left" in stand:
        return stand["left"] - left
    if "right" in stand:
        return right - stand["right"]
    return (right - left) / 2


def _lengthways(job: Job, opening: Opening, points: Floats) -> tuple[float, list[Gap]]:
    """The back wall stands at the measured depth behind the front line of the opening."""
    if not opening.depths:
        return 0.0, []
    heights = points[:, 2]
    wall = _profile(opening.depths, heights) - _lean(opening, "back", heights, _full_height(opening, points))
    behind, before = wall - points[:, 1], points[:, 1]
    wanted = job.space.stand.get("back", job.space.clear.get("back", 0.0))
    shift = float(behind.min()) - wanted
    return shift, [
        _smallest("back", behind - shift, heights, job.space.clear),
        _smallest("front", before + shift, heights, job.space.clear),
    ]


def _above(job: Job, opening: Opening, points: Floats) -> list[Gap]:
    if not opening.tops:
        return []
    return [_smallest("top", _profile(opening.tops, points[:, 0]) - points[:, 2], points[:, 2], job.space.clear)]


def _smallest(side: str, gaps: Floats, heights: Floats, clear: Mapping[str, float]) -> Gap:
    at = int(np.argmin(gaps))
    return Gap(side, float(gaps[at]), float(heights[at]), clear.get(side, 0.0))
