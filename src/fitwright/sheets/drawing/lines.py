"""From loose straight bits to clean lines: coincident ones made one, and bits that meet joined end to end."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

SAME_DIRECTION_RAD = 1e-5
SAME_LINE_MM = 0.02
JOINED_MM = 0.05
# directions are numbered from here, so that level and plumb lines do not fall on the seam where pi meets 0
SEAM_RAD = -0.3


def tidy(bits: Floats) -> tuple[Floats, ...]:
    """Polylines, each (n, 2), that cover the straight bits (k, 2, 2) once [mm]."""
    return chained(united(bits))


def united(bits: Floats) -> Floats:
    """Straight bits (j, 2, 2) that cover those given (k, 2, 2), with those on one line united [mm].

    Bits on one line within SAME_LINE_MM that overlap or touch become one.
    """
    bits = bits[np.hypot(*(bits[:, 1] - bits[:, 0]).T) > 1e-9]
    if not len(bits):
        return bits
    run = bits[:, 1] - bits[:, 0]
    angle = (np.arctan2(run[:, 1], run[:, 0]) - SEAM_RAD) % np.pi + SEAM_RAD
    angle, same_way = _levelled(angle, SAME_DIRECTION_RAD)
    unit = np.stack([np.cos(angle), np.sin(angle)], axis=1)
    aside = _cross(unit, bits.mean(axis=1))
    aside, same_line = _levelled(aside, SAME_LINE_MM, within=same_way)
    span = np.sort((bits * unit[:, None]).sum(axis=2), axis=1)
    first, low, high = _unions(same_line, span[:, 0], span[:, 1])
    unit, aside = unit[first], aside[first]
    foot = np.stack([-unit[:, 1], unit[:, 0]], axis=1) * aside[:, None]
    return np.stack([foot + low[:, None] * unit, foot + high[:, None] * unit], axis=1)


def chained(bits: Floats) -> tuple[Floats, ...]:
    """Polylines (n, 2) made of bits (k, 2, 2) that meet two at a point; where three meet, a line ends [mm]."""
    keys = np.round(bits / JOINED_MM).astype(np.int64)
    _, node = np.unique(keys.reshape(-1, 2), axis=0, return_inverse=True)
    ends = node.reshape(-1, 2)
    degree = np.bincount(ends.ravel())
    through = np.full((len(degree), 2), -1, dtype=np.int64)
    order = np.argsort(ends.ravel(), kind="stable")
    first = np.cumsum(degree) - degree
    pairs = np.flatnonzero(degree == 2)
    through[pairs, 0], through[pairs, 1] = order[first[pairs]], order[first[pairs] + 1]
    return _walk(bits, ends, through)


def _walk(bits: Floats, ends: Ints, through: Ints) -> tuple[Floats, ...]:
    """Follow each chain once: from the loose ends first, then round the closed ones."""
    node, next_of, points = ends.ravel().tolist(), through.tolist(), bits.reshape(-1, 2)
    loose = [h for h, n in enumerate(node) if next_of[n][0] < 0]
    used = [False] * len(ends)
    chains: list[Floats] = []
    for half in (*loose, *range(len(node))):
        if used[half // 2]:
            continue
        path = [half]
        while not used[half // 2]:
            used[half // 2] = True
            far = half ^ 1
            path.append(far)
            a, b = next_of[node[far]]
            if a < 0:
                break
            half = b if a == far else a
        chains.append(points[path])
    return tuple(chains)


def _levelled(values: Floats, tolerance: float, within: Ints | None = None) -> tuple[Floats, Ints]:
    """Values that lie close together (inside a group) set to their mean, and the group number of each."""
    group = np.zeros(len(values), dtype=np.int64) if within is None else within
    order = np.lexsort((values, group))
    ranked, held = values[order], group[order]
    apart = (np.diff(ranked, prepend=ranked[0]) > tolerance) | (np.diff(held, prepend=held[0]) != 0)
    number = np.empty(len(values), dtype=np.int64)
    number[order] = np.cumsum(apart)
    mean: Floats = np.bincount(number, weights=values) / np.bincount(number)
    return mean[number], number


def _unions(line: Ints, low: Floats, high: Floats) -> tuple[Ints, Floats, Floats]:
    """Overlapping intervals on each line united: a member's index (j,), lows and highs (j,)."""
    order = np.lexsort((low, line))
    line, low, high = line[order], low[order], high[order]
    wide = float(high.max() - low.min()) + 1.0
    base = line * (2.0 * wide) - low.min()
    reach = np.maximum.accumulate(high + base)
    opens = np.ones(len(low), dtype=bool)
    opens[1:] = low[1:] + base[1:] > reach[:-1] + SAME_LINE_MM
    first = np.flatnonzero(opens)
    last = np.append(first[1:], len(low)) - 1
    return order[first], low[first], reach[last] - base[last]


def _cross(a: Floats, b: Floats) -> Floats:
    product: Floats = a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
    return product
