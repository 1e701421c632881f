"""Local axes and lengths of the elements."""

from __future__ import annotations

import numpy as np

from fitwright.mechanics.model import Bools, Floats, FrameError, FrameModel

SHORTEST_MM = 1e-6
ALONG = 1e-6


def local_axes(model: FrameModel) -> tuple[Floats, Floats]:
    """Lengths (m,) [mm] and rotations (m, 3, 3) whose rows are local x, y, z in global axes.

    Raises FrameError for an element without length, or whose y_axis points along it.
    """
    along = model.ends[:, 1] - model.ends[:, 0]
    length = np.sqrt(np.einsum("ij,ij->i", along, along))
    _name_first(model, length < SHORTEST_MM, "has no length: move its ends apart or drop it")
    x = along / length[:, None]
    hint = model.y_axis
    across = hint - np.einsum("ij,ij->i", hint, x)[:, None] * x
    size = np.sqrt(np.einsum("ij,ij->i", across, across))
    lost = size <= ALONG * np.sqrt(np.einsum("ij,ij->i", hint, hint))
    _name_first(model, lost, "has its y axis along itself: give one that points across it")
    y = across / size[:, None]
    return length, np.stack([x, y, _cross(x, y)], axis=1)


def skew(vectors: Floats) -> Floats:
    """(..., 3, 3) matrices with skew(a) @ b = a x b."""
    result = np.zeros((*vectors.shape, 3))
    result[..., 0, 1], result[..., 0, 2], result[..., 1, 2] = -vectors[..., 2], vectors[..., 1], -vectors[..., 0]
    result[..., 1, 0], result[..., 2, 0], result[..., 2, 1] = vectors[..., 2], -vectors[..., 1], vectors[..., 0]
    return result


def _cross(a: Floats, b: Floats) -> Floats:
    product: Floats = np.einsum("ijk,ik->ij", skew(a), b)
    return product


def _name_first(model: FrameModel, bad: Bools, what: str) -> None:
    if bad.any():
        raise FrameError(f"{model.element_labels[int(np.flatnonzero(bad)[0])]} {what}")
