"""Which ways of making it are beaten by none: nothing else is as cheap, as stiff and as light."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from fitwright.findings import Verdict
from fitwright.pricing.exploring.trying import Figures, Tried

Floats = NDArray[np.float64]
FAILS = Verdict.FAILS.value
MOST_BEST = 4


def front_of(values: Floats) -> NDArray[np.bool_]:
    """Which rows (n, k) are beaten by none: no other row is at most as large in all columns and smaller in one.

    >>> front_of(np.array([[1.0, 3.0], [2.0, 2.0], [2.0, 3.0]]))
    array([ True,  True, False])
    """
    kept = np.ones(len(values), dtype=np.bool_)
    for number, row in enumerate(values):
        others = (values <= row).all(axis=1) & (values < row).any(axis=1)
        kept[number] = not others.any()
    return kept


def aims(figures: Figures) -> tuple[float, float, float] | None:
    """What is to be small: price before tax, what gives (of what is allowed), mass [kg]; None where one is unknown."""
    if figures.net is None or figures.give is None:
        return None
    return float(figures.net), figures.give, figures.mass


def not_beaten(rows: Sequence[Tried]) -> frozenset[int]:
    """The numbers of the points that are beaten by none, of those with figures and without a finding that fails."""
    good = _good(rows)
    if not good:
        return frozenset()
    kept = front_of(np.array(list(good.values())))
    return frozenset(number for number, keep in zip(good, kept, strict=True) if keep)


def best_few(rows: Sequence[Tried]) -> Mapping[int, str]:
    """The few to look at first, each with why: the cheapest, the stiffest, the lightest, and the best balanced.

    Balanced: nearest to the best of each, each aim measured from its best to its worst among those beaten by none.
    """
    good = {number: aim for number, aim in _good(rows).items() if number in not_beaten(rows)}
    if not good:
        return {}
    values, numbers = np.array(list(good.values())), list(good)
    spans = np.ptp(values, axis=0)
    scaled = (values - values.min(axis=0)) / np.where(spans > 0, spans, 1.0)
    picked = [(int(np.lexsort((scaled.sum(axis=1), values[:, k]))[0]), word) for k, word in enumerate(WORDS)]
    picked.append((int(np.argmin((scaled**2).sum(axis=1))), "best balanced"))
    told: dict[int, list[str]] = {}
    for at, word in picked:
        told.setdefault(numbers[at], []).append(word)
    return {number: ", ".join(words) for number, words in told.items()}


WORDS = ("cheapest", "stiffest", "lightest")


def _good(rows: Sequence[Tried]) -> dict[int, tuple[float, float, float]]:
    found = {}
    for row in rows:
        aim = None if row.figures is None or row.figures.verdict == FAILS else aims(row.figures)
        if aim is not None:
            found[row.point.number] = aim
    return found
