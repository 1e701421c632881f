"""The piece as welding pulls it, as lines, its movement exaggerated so that it can be seen."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.assess import Assessment
from fitwright.mechanics.shrinkage import Pulled
from fitwright.mechanics.shrinkage.measures import chain_of

Floats = NDArray[np.float64]

DRAWN_SHARE = 0.06
"""How far the largest movement is drawn, as a share of the piece's largest side."""


@dataclass(frozen=True, eq=False)
class PulledShape:
    """Lines (k, 2, 3) [mm] of the members moved, and in words how much they exaggerate."""

    lines: Floats
    said: str


def pulled_shape(assessment: Assessment) -> PulledShape | None:
    """What is welded as it comes off the bench in the order proposed; None where nothing is.

    Between the places that were worked out, the joints and the open ends, members are drawn as if they moved evenly.
    """
    plan = assessment.welding
    if plan is None or not plan.pull.groups:
        return None
    groups = plan.pull.groups
    most = max(float(np.linalg.norm(group.proposed.moved, axis=1).max(initial=0.0)) for group in groups)
    scale = DRAWN_SHARE * float(assessment.piece.envelope.size.max()) / most if most > 0 else 1.0
    lines = np.array([line for group in groups for line in _moved(group, scale)]).reshape(-1, 2, 3)
    style = assessment.job.style
    said = f"Pulled by welding: {style.length(most)} at most, drawn {scale:.0f} times as much"
    return PulledShape(lines, f"{said}. {'; '.join(plan.words)}" if plan.words else said)


def _moved(group: Pulled, scale: float) -> Iterator[Floats]:
    """The lines of every member of a group, each (2, 3)."""
    known = {point.node: moved for point, moved in zip(group.points, group.proposed.moved, strict=True)}
    nodes = group.group.model.nodes
    for member in group.group.members:
        chain = chain_of(group.group, member)
        at = nodes[chain]
        along = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(at, axis=0), axis=1))])
        places = [k for k, node in enumerate(chain) if node in known]
        if not places:
            continue
        steps = np.array([known[chain[k]] for k in places])
        moves = np.column_stack([np.interp(along, along[places], steps[:, axis]) for axis in range(3)])
        drawn = at + scale * moves
        yield from np.stack([drawn[:-1], drawn[1:]], axis=1)
