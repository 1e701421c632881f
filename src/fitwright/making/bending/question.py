"""A quick bending question without a job: points and a radius, or legs, angles and rotations."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import numpy as np

from fitwright.making.bending.errors import BendError
from fitwright.making.bending.model import BendSheet, BendStep
from fitwright.making.bending.sheet import bend_sheet
from fitwright.making.bending.table import Bend, BendTable, path_of
from fitwright.piece.path import Path
from fitwright.piece.wording import ToldError
from fitwright.shop import Shop
from fitwright.shop.learning import Learnt
from fitwright.stock import Stock
from fitwright.units import Style


def bend_from_points(
    points: Sequence[Sequence[float]],
    radius: float | Sequence[float],
    *,
    closed: bool = False,
    stock: Stock | None = None,
    shop: Shop | None = None,
    style: Style | None = None,
    subject: str = "tube",
    learnt: Learnt | None = None,
) -> BendSheet:
    """The bend sheet of a path through points (n, 3) [mm] with one bend radius, or one at each corner [mm].

    Raises BendError when there are not as many radii as corners, or a corner has none; PathError, BendOverlap (a path
    that cannot be bent) say where.
    Holds for and Source: as `bend_sheet`.
    """
    vertices = np.asarray(points, dtype=float)
    if vertices.ndim != 2 or vertices.shape[1] != 3 or not np.isfinite(vertices).all():
        raise BendError("the points of a path are three numbers each: x, y, z")
    radii = _radii(radius, len(vertices), closed, style)
    _check_bendable(stock, radii, style)
    try:
        path = Path(vertices, radii, closed)
    except ToldError as wrong:
        raise wrong.worded(style or Style.metric()) from None
    return bend_sheet(subject, path, stock, shop, style=style, learnt=learnt)


def bend_from_legs(
    legs: Sequence[float],
    angles: Sequence[float],
    rotations: Sequence[float] = (),
    radius: float | Sequence[float] = 0.0,
    *,
    stock: Stock | None = None,
    shop: Shop | None = None,
    style: Style | None = None,
    subject: str = "tube",
    learnt: Learnt | None = None,
) -> BendSheet:
    """The bend sheet of legs from corner to corner [mm], bend angles [rad] and rotations between their planes [rad].

    legs: one more than angles; rotations: one for each pair of bends that follow each other (all 0 when left out),
    right-handed looking the way the tube travels; radius: one for all bends, or one each [mm].

    Raises BendError when the counts do not agree, an angle is not between 0 and half a turn, or a leg is too short
    for the bends at its ends.
    Holds for and Source: as `bend_sheet`.
    """
    count = len(angles)
    turns = list(rotations) or [0.0] * max(0, count - 1)
    radii = [float(radius)] * count if isinstance(radius, int | float) else [float(one) for one in radius]
    _check_counts(len(legs), count, len(turns), len(radii))
    _check_bendable(stock, np.array(radii), style)
    setbacks = [
        0.0,
        *(_setback(angle, one, k, style) for k, (angle, one) in enumerate(zip(angles, radii, strict=True), 1)),
        0.0,
    ]
    straights = [leg - setbacks[k] - setbacks[k + 1] for k, leg in enumerate(legs)]
    _check_straights(legs, straights, style)
    bends = (
        Bend(max(0.0, s), r, a, one) for s, r, a, one in zip(straights[:-1], [0.0, *turns], angles, radii, strict=True)
    )
    path = path_of(BendTable(tuple(bends), max(0.0, straights[-1])))
    return bend_sheet(subject, path, stock, shop, style=style, learnt=learnt)


def bend_as_json(sheet: BendSheet) -> dict[str, Any]:
    """The sheet as plain data, lengths in mm and angles in degrees as the keys say."""
    return {
        "subject": sheet.subject,
        "stock": sheet.stock,
        "blank_length_mm": sheet.blank,
        "developed_length_mm": sheet.developed,
        "finished_length_mm": sheet.finished,
        "started_from": sheet.started_from,
        "closed": sheet.closed,
        "last_straight_mm": sheet.last_straight,
        "trim_mm": {trim.end: trim.allowance for trim in sheet.trims},
        "steps": [_step(step) for step in sheet.steps],
        "notes": list(sheet.notes),
    }


def _step(step: BendStep) -> dict[str, Any]:
    prior = step.springback
    return {
        "mark_mm": step.mark,
        "tangent_mm": step.tangent,
        "rotation_deg": math.degrees(step.rotation),
        "angle_deg": math.degrees(step.angle),
        "command_angle_deg": math.degrees(step.command_angle),
        "command_spread_deg": math.degrees(prior.spread) if prior else None,
        "command_from": prior.basis if prior else None,
        "radius_mm": step.radius,
        "command_radius_mm": step.command_radius,
        "straight_before_mm": step.straight_before,
        "die": step.die or None,
    }


def _radii(
    radius: float | Sequence[float], count: int, closed: bool, style: Style | None
) -> np.ndarray[Any, np.dtype[np.float64]]:
    corners = count if closed else max(0, count - 2)
    given = [float(radius)] * corners if isinstance(radius, int | float) else [float(one) for one in radius]
    if len(given) != corners:
        raise BendError(f"the path has {corners} corners and {len(given)} bend radii: give one for all, or one each")
    if any(not one > 0 or not math.isfinite(one) for one in given):
        raise BendError(f"a bend radius has to be more than 0, got {_told(min(given), style)}")
    return np.array(given if closed else [0.0, *given, 0.0])


def _check_bendable(stock: Stock | None, radii: np.ndarray[Any, np.dtype[np.float64]], style: Style | None) -> None:
    """Refuse what no bender does: timber, and a radius within the stock itself."""
    if stock is None:
        return
    if not stock.material.is_metal:
        raise BendError(f"{stock.label} is not metal: a bender takes tube, bar, flat or angle of metal")
    u0, u1, v0, v1 = stock.section.extents
    least, bent = min(u1 - u0, v1 - v0) / 2, [float(radius) for radius in radii if radius > 0]
    if bent and min(bent) < least:
        told = (style or Style.metric()).length
        raise BendError(
            f"a bend radius of {told(min(bent))} on the centreline lies within {stock.label} itself: "
            f"it has to be more than {told(least)}, half its size"
        )


def _told(mm: float, style: Style | None) -> str:
    """A length [mm] as asked in; what is no length as it stands."""
    return (style or Style.metric()).length(mm) if math.isfinite(mm) else f"{mm:g}"


def _check_counts(legs: int, angles: int, rotations: int, radii: int) -> None:
    if angles < 1:
        raise BendError("there is no angle, so nothing to bend: give one for each corner, and one leg more")
    if legs != angles + 1:
        raise BendError(f"{angles} angles need {angles + 1} legs, got {legs}")
    if rotations != angles - 1:
        raise BendError(f"{angles} bends have {angles - 1} rotations between them, got {rotations}")
    if radii != angles:
        raise BendError(f"{angles} bends and {radii} bend radii: give one for all, or one each")


def _setback(angle: float, radius: float, number: int, style: Style | None) -> float:
    if not 0 < angle < math.pi - 1e-3:
        raise BendError(
            f"bend {number} is {math.degrees(angle):g}°: between corners it has to be more than 0 and less than 180; "
            "draw half a turn as two bends of 90° with a leg of two radii between them"
        )
    if not radius > 0:
        raise BendError(f"bend {number} has a radius of {_told(radius, style)}: it has to be more than 0")
    return radius * math.tan(angle / 2)


def _check_straights(legs: Sequence[float], straights: Sequence[float], style: Style | None) -> None:
    for number, (leg, straight) in enumerate(zip(legs, straights, strict=True), 1):
        if straight < -1e-6 or not math.isfinite(straight):
            raise BendError(
                f"leg {number} is {_told(leg, style)} and its bends take {_told(leg - straight, style)} of it: "
                f"lengthen it by {_told(-straight, style)} or take a smaller radius"
            )
