"""How much of the weight each caster or foot carries when the floor is not flat and one hangs free."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def springs(points: Floats, at: Floats, force: float) -> Floats:
    """Load on each of equal springs at points (n, 2) [mm] under a rigid piece that bears `force` [N] at (2,) (n,) [N].

    On three points that are not in line it is plain statics; on more, equal springs. Negative: that one would lift.
    Holds for small tilts and contacts of equal stiffness. Source: statics; Boresi and Schmidt, Engineering Mechanics:
    Statics, rigid body on springs.

    >>> springs(np.array([[0.0, 0], [30, 0], [30, 18], [0, 18]]), np.array([18.0, 7.0]), 240.0).round(2)
    array([61.33, 85.33, 58.67, 34.67])
    """
    middle = points.mean(axis=0)
    rows = np.column_stack([np.ones(len(points)), points - middle])
    wanted = force * np.concatenate([[1.0], at - middle])
    gram = rows.T @ rows
    return np.asarray(rows @ np.linalg.lstsq(gram, wanted, rcond=None)[0])


def one_lifted(points: Floats, at: Floats, force: float) -> Floats:
    """Loads (m, n) [N] on contacts (n, 2) for each way of standing with one off the floor; m is 0 when none is stable.

    A way of standing counts when the rest bear no pull. Three contacts or fewer cannot spare one: they stand as they
    are. Holds for a rigid piece on hard ground. Source: statics.
    """
    count = len(points)
    if count <= 3:
        return springs(points, at, force)[None, :]
    stances = []
    for lifted in range(count):
        rest = [k for k in range(count) if k != lifted]
        loads = np.zeros(count)
        loads[rest] = springs(points[rest], at, force)
        if loads.min() >= -1e-6 * force:
            stances.append(loads)
    return np.array(stances).reshape(-1, count)


def by_number(force: float, count: int) -> float:
    """Load that each of `count` casters has to be rated for [N]: the total over one less than their number.

    Holds for two or more; four casters give a third. Source: selection rules of two caster makers, (E + Z) / (n - 1).

    >>> by_number(240.0, 4)
    80.0
    """
    return force / max(count - 1, 1)
