"""How nearly a length taken with a tape is known."""

from __future__ import annotations

from math import ceil, hypot, sqrt

# Directive 2014/32/EU, annex X (MI-008), chapter I: a class II tape errs by at most 0.3 mm and 0.2 mm for each metre
# begun.
TAPE_MM, TAPE_PER_M = 0.3, 0.2
READ_MM = 0.5  # a tape is read to the nearest of its marks, 1 mm or 1/16 in apart, so half of one: common practice
SET_MM = 1.0  # the end held in a corner and the tape bent up in the other, one standard deviation: common practice
PLUMB_MM = 1.0  # how a wall leans, by plumb line or a long level and a rule, one standard deviation: common practice
LEVEL_MM = 1.0  # a height of the floor by a line laser or a water level, one standard deviation: common practice
USUAL = 1.96  # standard deviations that 19 of 20 errors stay within
BASIS = "a class II tape (2014/32/EU, annex X: 0.3 mm and 0.2 mm a metre); reading and setting it common practice"


def spread_of(length: float, within: float | None = None) -> float:
    """One standard deviation of a length measured in a place [mm].

    within: what it is known to, 19 times in 20 [mm]; None for what a tape is good for.

    Source: the tape's own error and the reading as even distributions, half their width over the root of 3, the setting
    in the corner beside them; root of the sum of squares (GUM, JCGM 100:2008, 4.3.7 and 5.1.2).

    >>> round(spread_of(931.0), 2), spread_of(931.0, within=1.96)
    (1.08, 1.0)
    """
    if within is not None:
        return within / USUAL
    tape = TAPE_MM + TAPE_PER_M * ceil(max(length, 1.0) / 1000)
    return hypot(tape / sqrt(3), READ_MM / sqrt(3), SET_MM)
