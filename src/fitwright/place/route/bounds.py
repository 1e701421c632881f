"""What can be said without searching: the largest ball inside the outline has to get through as well."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from fitwright.place.route.model import Bulk


@lru_cache(maxsize=64)
def ball_inside(bulk: Bulk) -> float:
    """Diameter of the largest ball in the hull of a bulk [mm].

    No motion whatever brings the outline, taken as a solid, through an opening or between walls narrower than this: at
    some moment the ball's middle is in the opening. Not a bound for an open frame that can be threaded.
    Source: the Chebyshev centre of a polyhedron by linear programming, S. Boyd and L. Vandenberghe, Convex
    Optimization (2004), section 4.3.1.
    """
    from scipy.optimize import linprog
    from scipy.spatial import ConvexHull, QhullError

    try:
        planes = ConvexHull(bulk.points).equations
    except QhullError:  # flat: no ball
        return 0.0
    planes = np.unique(np.round(planes, 9), axis=0)
    found = linprog([0, 0, 0, -1.0], A_ub=np.column_stack([planes[:, :3], np.ones(len(planes))]), b_ub=-planes[:, 3],
                    bounds=[(None, None)] * 3 + [(0, None)])  # fmt: skip
    return float(2 * found.x[3]) if found.x is not None else 0.0
