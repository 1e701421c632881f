"""A finer mesh of the same frame."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from fitwright.mechanics.model import FrameModel
from fitwright.mechanics.picking import picked


def refine(model: FrameModel, parts: int) -> FrameModel:
    """Each element cut into equal parts; releases and offsets stay at the ends, labels are kept.

    The nodes of the coarse model keep their numbers. New node i of element e is n + e (parts - 1) + i.
    """
    n, m = model.node_count, model.element_count
    inner = n + np.arange(m * (parts - 1)).reshape(m, parts - 1)
    chain = np.hstack([model.elements[:, :1], inner, model.elements[:, 1:]])
    share = (np.arange(1, parts) / parts)[None, :, None]
    ends = model.ends
    points = ends[:, :1] * (1 - share) + ends[:, 1:] * share
    fine = picked(model, np.repeat(np.arange(m), parts))
    releases = fine.releases.reshape(m, parts, 12).copy()
    offsets = fine.offsets.reshape(m, parts, 2, 3).copy()
    releases[:, 1:, :6] = releases[:, :-1, 6:] = False
    offsets[:, 1:, 0] = offsets[:, :-1, 1] = 0.0
    return replace(
        fine,
        nodes=np.vstack([model.nodes, points.reshape(-1, 3)]),
        elements=np.stack([chain[:, :-1], chain[:, 1:]], axis=2).reshape(-1, 2),
        releases=releases.reshape(-1, 12),
        offsets=offsets.reshape(-1, 2, 3),
        node_labels=model.node_labels
        + tuple(f"{label} at {i}/{parts}" for label in model.element_labels for i in range(1, parts)),
    )
