"""Where to hold it: at both ends, on stiff members, one hand on each side of the centre of mass."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.piece import Piece
from fitwright.piece.path import Path, Straight
from fitwright.place.route.model import Bulk, Stance

Floats = NDArray[np.float64]

EVERY = 25.0  # places looked at along a member [mm]
STIFF = 0.05  # of the stiffest member's second moment, below which a member is not held by
EDGED = ("angle", "flat", "sheet")  # shapes whose edges cut into hands, held only where there is nothing else
HANDS_MM = 250.0  # from the middle to each hand, about (common practice)
FROM_END_MM = 40.0  # of a hand from the end of a member at least
ACROSS = 150.0  # what it costs to hold on the other side of the middle [mm]
LOW_MM = 400.0  # height of the hands under which one stoops (common practice)
BELOW = 2.0  # how much worse it is to hold below the centre of mass than above


@dataclass(frozen=True, eq=False)
class Hold:
    """One hand: which person (from 1), the member's mark and name, how far from which of its ends [mm], the place.

    at: (3,) in the piece's coordinates [mm]; height: above the floor when it stands in this way [mm].
    """

    person: int
    mark: str
    name: str
    along: float
    end: str
    at: Floats
    height: float


@dataclass(frozen=True, eq=False)
class Grip:
    """A place on a member where a hand would go."""

    mark: str
    name: str
    at: Floats
    along: float
    end: str
    stiff: float
    edged: bool


def holds(piece: Piece, bulk: Bulk, stance: Stance) -> tuple[Hold, ...]:
    """Two hands at each end of its longer level side, the ends as persons 1 and 2; none where nothing is stiff.

    The hands of a person are as level as can be, on either side of the line through the centre of mass.
    """
    grips = _within(bulk, list(_grips(piece)))
    grips = [grip for grip in grips if not grip.edged] or grips
    stiffest = max((grip.stiff for grip in grips), default=0.0)
    grips = [grip for grip in grips if grip.stiff >= STIFF * stiffest]
    if not grips:
        return ()
    places = np.array([grip.at for grip in grips]) @ stance.turn.T
    points = bulk.points @ stance.turn.T
    low, high = points.min(axis=0), points.max(axis=0)
    along = int(np.argmax((high - low)[:2]))
    found = []
    for person, end in ((1, low[along]), (2, high[along])):
        far = np.abs(places[:, along] - end)
        for side in (-1.0, 1.0):
            at = int(np.argmin(_cost(places, places[:, 2] - low[2], far, stance.turn @ bulk.centre, (along, side))))
            found.append((person, at))
    return tuple(
        Hold(person, grips[at].mark, grips[at].name, grips[at].along, grips[at].end, grips[at].at,
             float(places[at, 2] - low[2])) for person, at in dict.fromkeys(found)
    )  # fmt: skip


def shares(held: tuple[Hold, ...], bulk: Bulk, stance: Stance, slope: float = 0.0) -> tuple[float, float]:
    """The share of the weight at either end, held level or with person 2's end up a slope [rad].

    From the levers about the middle of each person's hands. (1/2, 1/2) where nothing is held.
    """
    ends = [np.array([one.at for one in held if one.person == person]) for person in (1, 2)]
    if not all(len(places) for places in ends):
        return 0.5, 0.5
    middles = [places.mean(axis=0) @ stance.turn.T for places in ends]
    centre = stance.turn @ bulk.centre
    run = middles[1] - middles[0]
    level = run[:2] / max(float(np.linalg.norm(run[:2])), 1e-9)
    along = [float(place[:2] @ level) * np.cos(slope) - float(place[2]) * np.sin(slope) for place in (*middles, centre)]
    if abs(along[1] - along[0]) < 1.0:
        return 0.5, 0.5
    second = (along[2] - along[0]) / (along[1] - along[0])
    return float(np.clip(1 - second, 0, 1)), float(np.clip(second, 0, 1))


def _cost(places: Floats, heights: Floats, far: Floats, centre: Floats, lie: tuple[int, float]) -> Floats:
    """How bad each place (n, 3) is for a hand: off the end, off the height of the middle, to a side, low [mm]."""
    along, side = lie
    aside = (places[:, 1 - along] - centre[1 - along]) * side
    up = places[:, 2] - centre[2]
    off = np.where(up < 0, -BELOW * up, up)
    return np.asarray(
        far + off + np.abs(aside - HANDS_MM) + np.where(aside < 0, ACROSS, 0.0) + np.clip(LOW_MM - heights, 0.0, None)
    )


def _grips(piece: Piece) -> Iterable[Grip]:
    for member in piece.members:
        if member.sleeve_of is not None:
            continue
        section, length = member.stock.section, member.path.length
        stiff = min(section.principal[0], section.principal[1])
        done = 0.0
        for segment in member.path.segments:
            if isinstance(segment, Straight):
                mark = piece.mark_of.get(member.name, member.name)
                for step in np.arange(FROM_END_MM, segment.length - FROM_END_MM, EVERY):
                    at = segment.start + step * segment.direction
                    yield Grip(
                        mark,
                        member.name,
                        at,
                        *_from_end(member.path, done + float(step), length),
                        float(stiff),
                        section.shape in EDGED,
                    )
            done += segment.length


def _from_end(path: Path, along: float, length: float) -> tuple[float, str]:
    """How far a place along a path is from the nearer end, and which end that is in words."""
    one, other = (path.start, path.end) if along <= length / 2 else (path.end, path.start)
    way = one - other
    axis = int(np.argmax(np.abs(way)))
    if abs(float(way[axis])) < 1.0:
        return min(along, length - along), "the end"
    words = (("left", "right"), ("front", "back"), ("lower", "upper"))[axis]
    return min(along, length - along), f"the {words[int(way[axis] > 0)]} end"


def _within(bulk: Bulk, grips: list[Grip]) -> list[Grip]:
    """The places that belong to what is carried: one half does not reach into the other."""
    low, high = bulk.points.min(axis=0), bulk.points.max(axis=0)
    return [grip for grip in grips if bool(((grip.at >= low) & (grip.at <= high)).all())]
