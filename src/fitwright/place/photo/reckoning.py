"""Dims of the old piece reckoned from measures by arithmetic, what the measures have in common taken into account."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from fitwright.job.arithmetic import ArithmeticFault, Formula, Quantity, evaluate, names_in
from fitwright.place.photo.mistakes import MarksError
from fitwright.place.photo.proposal import Reading
from fitwright.place.photo.solving import LIKELY, Solved

Floats = NDArray[np.float64]

STEP = 1e-4
BARE_MM = 1.0


def reckoned(solved: Solved) -> tuple[dict[str, Reading], bool]:
    """Each dim of the photo section as the old piece has it, and whether in mm; else as shares of the first measure.

    First-order covariance: a sum of two measures that err together errs more than each by chance.
    Raises MarksError where measures that are used hang together with no known length and not with one another.
    """
    names = {name.name for mark in solved.photo.dims.values() for name in names_in(mark.formula)}
    used = [one for one in solved.measures if one.name in names]
    sized = all(one.value is not None for one in used)
    if not sized and len({one.share_of for one in used}) > 1:
        raise MarksError(
            f"{', '.join(one.name for one in used if one.value is None)}: no known length hangs together with them, "
            "and not all with one another: mark an edge or a plane that ties them, or a known length on each"
        )
    firsts = {one.share_of for one in used} | names
    values = {one.name: solved.estimate.value(one.name, one.quantity) for one in solved.measures if one.name in firsts}
    sizes = {name: value for name, (value, _, _) in values.items()}
    slopes = {name: slope for name, (_, _, slope) in values.items()}
    whole, of_whole = (1.0, None) if sized else (sizes[used[0].share_of], slopes[used[0].share_of])
    found = {}
    for name, mark in solved.photo.dims.items():
        value, slope = _reckoned(name, mark.formula, sizes, slopes)
        if of_whole is not None:
            slope, value = slope / whole - value / whole**2 * of_whole, value / whole
        spread = float(np.sqrt(max(float(slope @ solved.estimate.covariance @ slope), 0.0)))
        found[name] = Reading(value, LIKELY * spread)
    return found, sized


def _reckoned(
    name: str, formula: Formula, sizes: Mapping[str, float], slopes: Mapping[str, Floats]
) -> tuple[float, Floats]:
    """The value of a formula over measures [mm], and its gradient over the unknowns."""

    def at(changed: Mapping[str, float]) -> float:
        try:
            return evaluate(formula, lambda one: Quantity(changed[one.name], 1), BARE_MM).value
        except ArithmeticFault as fault:
            raise MarksError(f"{name}: {fault.what}") from None

    slope = np.zeros_like(next(iter(slopes.values())))
    for one in {used.name for used in names_in(formula)}:
        step = STEP * max(1.0, abs(sizes[one]))
        ahead, behind = ({**sizes, one: sizes[one] + sign * step} for sign in (1, -1))
        slope += (at(ahead) - at(behind)) / (2 * step) * slopes[one]
    return at(sizes), slope
