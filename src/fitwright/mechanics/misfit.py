"""Lack of fit: an element whose end, as made, does not lie where its node is."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import ArrayLike

from fitwright.mechanics.axes import local_axes, skew
from fitwright.mechanics.loads import Loads, forces
from fitwright.mechanics.model import Floats, FrameError, FrameModel, Ints


def misfits(model: FrameModel, elements: ArrayLike, ends: ArrayLike, gaps: ArrayLike) -> Loads:
    """Load cases from element ends that have to be forced to their nodes.

    elements: (p,); ends: (p,) 0 or 1; gaps: (p, 6, k), or (p, 6) for one case: how far the end of the unstressed
    element lies beyond its node, three displacements [mm] and three rotations [rad], global.
    A rod made 1 mm too long has a gap of 1 mm along itself at end 1.
    Holds for misfits small beside the element (linear).
    Source: S. Timoshenko, D. Young, Theory of Structures, 2nd ed. (1965), on lack of fit: the element is forced to its
    nodes and the forces are then let go into the frame (from memory).
    """
    which = np.asarray(elements, dtype=np.intp).reshape(-1)
    array = np.asarray(gaps, dtype=np.float64).reshape(len(which), 6, -1)
    middle = misfit_to_middle(model, which, np.asarray(ends, dtype=np.intp).reshape(-1)) @ array
    total = np.zeros((model.element_count, 6, array.shape[2]))
    np.add.at(total, which, middle)
    return replace(forces(model, np.zeros((model.dof_count, array.shape[2]))), gaps=total)


def misfit_to_middle(model: FrameModel, elements: Ints, ends: Ints) -> Floats:
    """(p, 6, 6) from a misfit at an end (global) to the gap at the element's midpoint (local)."""
    if not np.isin(ends, (0, 1)).all():
        raise FrameError(f"element ends are 0 and 1, not {ends.tolist()}")
    rotation = local_axes(model)[1][elements]
    arm = model.ends[elements].mean(axis=1) - model.ends[elements, ends]
    sign = np.where(ends == 1, 1.0, -1.0)[:, None, None]
    result = np.zeros((len(elements), 6, 6))
    result[:, :3, :3] = result[:, 3:, 3:] = sign * rotation
    result[:, :3, 3:] = -sign * (rotation @ skew(arm))
    return result
