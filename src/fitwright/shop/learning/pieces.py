"""Take-up of the arc and offset of a die, from measured trial pieces."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fitwright.shop.learning.errors import LearningError
from fitwright.shop.learning.regression import Mixture, Noise, regress

# A tape and a square on a bent piece, three readings in the take-up and two in the offset (common practice).
TAKE_UP_NOISE, OFFSET_NOISE = Noise(0.9, 4.0), Noise(0.8, 4.0)  # mm
# Take-up of a die that was never measured, over the arc, and its offset (common practice).
TAKE_UP_SPREAD, OFFSET_SPREAD = 0.04, 8.0  # of the arc; mm
LARGEST_ANGLE = math.radians(150)  # beyond it the corner of the centrelines is too far off to measure to


@dataclass(frozen=True)
class TrialPiece:
    """A measured trial: blank before bending, from each end to the corner of the centrelines, where the mark was set
    to the die from the starting end [mm], the angle it came out at [rad], radius of the die [mm]."""

    radius: float
    angle: float
    blank: float | None = None
    leg_start: float | None = None
    leg_end: float | None = None
    mark: float | None = None


@dataclass(frozen=True)
class Estimate:
    """A number from trial pieces: its value, 90 % range, standard deviation, and how many pieces it is from."""

    value: float
    low: float
    high: float
    spread: float
    count: int


def taken_up(piece: TrialPiece) -> float | None:
    """Length of tube that the bend used [mm]: the blank less both legs, which end at the corner 2 R tan(a / 2) farther.

    None where it was not measured. Raises LearningError for an angle at which there is no corner to measure to.
    Source: plane geometry.

    >>> round(taken_up(TrialPiece(100.0, math.pi / 2, 500.0, 270.0, 270.0)) or 0.0, 6)
    160.0
    """
    if piece.blank is None or piece.leg_start is None or piece.leg_end is None:
        return None
    return piece.blank - piece.leg_start - piece.leg_end + 2 * _setback(piece)


def offset(piece: TrialPiece) -> float | None:
    """From where the bend began to where the mark was [mm], positive away from the starting end; None if not measured.

    Source: plane geometry: the bend begins R tan(a / 2) before the corner.
    """
    if piece.mark is None or piece.leg_start is None:
        return None
    return piece.mark - (piece.leg_start - _setback(piece))


def take_up_of(pieces: Sequence[TrialPiece], before: float = 1.0) -> Estimate | None:
    """Take-up over the arc from all pieces of a die; before: what the shop file has. None where none is measured.

    Holds for a centreline that keeps its length nearly: what differs is in proportion to the arc.
    Source: `regress` of (taken up - before times the arc) on the arc.
    """
    seen = [(piece.radius * piece.angle, taken) for piece in pieces if (taken := taken_up(piece)) is not None]
    if not seen:
        return None
    arcs, used = (np.array(column) for column in zip(*seen, strict=True))
    fit = regress(arcs[:, None], used - before * arcs, np.zeros(1), np.full(1, TAKE_UP_SPREAD), TAKE_UP_NOISE)
    return _estimate(fit.value(np.ones(1)), before, len(seen))


def offset_of(pieces: Sequence[TrialPiece], before: float = 0.0) -> Estimate | None:
    """Offset of the die from all pieces [mm]; before: what the shop file has. None where none is measured."""
    seen = np.array([found for piece in pieces if (found := offset(piece)) is not None])
    if not len(seen):
        return None
    fit = regress(np.ones((len(seen), 1)), seen - before, np.zeros(1), np.full(1, OFFSET_SPREAD), OFFSET_NOISE)
    return _estimate(fit.value(np.ones(1)), before, len(seen))


def _setback(piece: TrialPiece) -> float:
    if not 0 < piece.angle <= LARGEST_ANGLE:
        raise LearningError(
            f"a trial piece of {math.degrees(piece.angle):.0f}° has no corner to measure to: "
            f"bend it to at most {math.degrees(LARGEST_ANGLE):.0f}°"
        )
    return piece.radius * math.tan(piece.angle / 2)


def _estimate(found: Mixture, before: float, count: int) -> Estimate:
    low, high = found.interval()
    return Estimate(before + found.mean, before + low, before + high, found.deviation, count)
