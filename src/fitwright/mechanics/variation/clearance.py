"""Gaps between the piece and the walls of its place, where they are smallest, side by side and height by height."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from fitwright.job.model import Job
from fitwright.mechanics.model import Floats
from fitwright.mechanics.variation.effects import Effect
from fitwright.mechanics.variation.loose import Loose
from fitwright.mechanics.variation.model import Outcome
from fitwright.mechanics.variation.reading import Probe, Reading
from fitwright.piece.model import Piece
from fitwright.place.outline import piece_edges, split_at
from fitwright.place.walls import Walls

X, Y, Z = np.eye(3)
BANDS = 3


@dataclass(frozen=True)
class Demand:
    """Room that the piece needs in one direction.

    subject: across, along or above. sides: names of gaps on one side, and on the other (none above). wanted: the sum
    of gaps wanted [mm]. loose: the sum beyond which it looks too small for its place.
    """

    subject: str
    sides: tuple[tuple[str, ...], tuple[str, ...]]
    wanted: float
    loose: float


def survey_effects(job: Job) -> list[Effect]:
    """One elementary error for each size measured in the place; they reach the gaps directly."""
    opening = job.space.opening
    if opening is None:
        return []
    sizes = {"width": opening.widths, "depth": opening.depths, "top": opening.tops}
    return [
        Effect(f"survey:{what}:{i}", f"{what} of the place, measured at {at:.0f} mm", ())
        for what, pairs in sizes.items()
        for i, (at, _) in enumerate(sorted(pairs))
    ]


def gaps(job: Job, piece: Piece, parts: Loose) -> list[Reading]:
    """Gaps to left and right, to the back and to the front line, and above, each at up to six places.

    As drawn the piece stands at 0: only the sums of opposite gaps mean something, for it can be moved.
    """
    opening = job.space.opening
    if opening is None or not (opening.widths or opening.depths or opening.tops):
        return []
    edges = piece_edges(piece)
    if not len(edges):
        return []
    walls = Walls(opening, float(edges[..., 2].max()), job.space.skirting, job.space.within)
    points = split_at(edges, 2, walls.heights)
    found: list[Reading] = []
    if opening.widths:
        left, right = walls.sides(points[:, 2])
        left, right = left + walls.board("left", points[:, 2]), right - walls.board("right", points[:, 2])
        found += _side(parts, "left", points, points[:, 0] - left, X, lambda p: {})
        found += _side(
            parts, "right", points, right - points[:, 0], -X, lambda p: _weights("width", opening.widths, p[2])
        )
    if opening.depths:
        back = walls.back(points[:, 2]) - walls.board("back", points[:, 2]) - points[:, 1]
        found += _side(parts, "back", points, back, -Y, lambda p: _weights("depth", opening.depths, p[2]))
        found += _side(parts, "front", points, points[:, 1], Y, lambda p: {})
    if opening.tops:
        tops = split_at(edges, 0, np.array([at for at, _ in opening.tops]))
        above = walls.top(tops[:, 0]) - tops[:, 2]
        found += _side(parts, "top", tops, above, -Z, lambda p: _weights("top", opening.tops, p[0]))
    return found


def demands(job: Job, found: list[Reading], loosest: float) -> list[Demand]:
    """What the job wants of the gaps; loosest: how many times the gap wanted looks wrong.

    A piece that the job stands at a gap of its own choice needs that gap there instead of the one wanted.
    """
    clear, stand = job.space.clear, job.space.stand
    names: dict[str, list[str]] = {}
    for reading in found:
        names.setdefault(reading.outcome.name.split(" at ")[0].removeprefix("gap "), []).append(reading.outcome.name)
    result = []
    for subject, one, other in (("across", "left", "right"), ("along", "back", "front"), ("above", "top", "")):
        if one in names:
            wanted = sum(max(clear.get(side, 0.0), stand.get(side, 0.0)) for side in (one, other) if side)
            sides = (tuple(names[one]), tuple(names.get(other, ())))
            result.append(Demand(subject, sides, wanted, loosest * wanted))
    return result


def _weights(what: str, pairs: tuple[tuple[float, float], ...], at: float) -> dict[str, float]:
    """How much each measured size says about the wall at a place: straight between two of them."""
    places = np.array([place for place, _ in sorted(pairs)])
    shares = [float(np.interp(at, places, row)) for row in np.eye(len(places))]
    return {f"survey:{what}:{i}": share for i, share in enumerate(shares) if share}


def _side(
    parts: Loose, side: str, points: Floats, gap: Floats, along: Floats, weigh: Callable[[Floats], Mapping[str, float]]
) -> Iterator[Reading]:
    """The smallest gap in each part of the side: three bands of height, two halves across."""
    for point, value in _smallest(points, gap, int(np.argmax(np.abs(along)))):
        node = parts.nearest(point)
        where = " ".join(f"{c:.0f}" for c in point)
        yield Reading(Outcome(f"gap {side} at {where}", "gap", value), (Probe(node, point, along),), weigh(point))


def _smallest(points: Floats, gap: Floats, axis: int) -> Iterator[tuple[Floats, float]]:
    across = 1 if axis == 0 else 0
    height = 1 if axis == 2 else 2
    cells = [_bands(points[:, height], BANDS), _bands(points[:, across], 2)]
    cell = cells[0] * 2 + cells[1]
    for number in np.unique(cell):
        here = np.flatnonzero(cell == number)
        best = int(here[int(np.argmin(gap[here]))])
        yield points[best], float(gap[best])


def _bands(values: Floats, count: int) -> np.ndarray[tuple[int], np.dtype[np.intp]]:
    low, high = float(values.min()), float(values.max())
    return np.minimum(((values - low) / max(high - low, 1e-9) * count).astype(np.intp), count - 1)
