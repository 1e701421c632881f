"""The picture of a piece bent by its loads, in exaggerated scale, over its plain outline."""

from __future__ import annotations

from dataclasses import dataclass
from math import floor, log10, pi

import numpy as np
from numpy.typing import NDArray

from fitwright.checks.frame_results import FrameResults
from fitwright.sheets.drawing import Drawing, LineKind, Sketch
from fitwright.sheets.drawing.directions import ISOMETRIC
from fitwright.sheets.drawing.model import View
from fitwright.sheets.packet.pictures import fitted
from fitwright.units import Style

Floats = NDArray[np.float64]

ROUND_FACTORS = (5, 2, 1)
UP_RIGHT, UP_LEFT = pi / 4, 3 * pi / 4


@dataclass(frozen=True, eq=False)
class Bent:
    """One case to be drawn.

    ends: (m, 2, 3) where the exaggerated ends of the elements are [mm]; factor: of the exaggeration.
    most: element and end that move most, and by how much [mm]; stressed: element and end with the largest stress.
    """

    results: FrameResults
    ends: Floats
    factor: float
    most: tuple[int, int]
    movement: float
    stressed: tuple[int, int]


def bent_by(results: FrameResults, case: int, stressed: tuple[int, int]) -> Bent:
    """The piece bent by one case, exaggerated by a round factor."""
    _, usual = results.deflected(case)
    ends, factor = results.deflected(case, round_factor(usual))
    moved = np.linalg.norm(results.framed.moved_ends(results.displacements[:, :, case]), axis=2)
    element, end = np.unravel_index(int(np.argmax(moved)), moved.shape)
    return Bent(results, ends, factor, (int(element), int(end)), float(moved.max()), stressed)


def round_factor(factor: float) -> float:
    """The largest of 1, 2 and 5, times a power of ten, that is no larger.

    >>> round_factor(17.6), round_factor(0.0432)
    (10.0, 0.02)
    """
    power = 10.0 ** floor(log10(factor))
    return float(f"{next((step for step in ROUND_FACTORS if step * power <= factor), 1) * power:.6g}")


def bent_picture(bent: Bent, isometric: View, style: Style, room: tuple[float, float]) -> Drawing:
    """Outline in thin lines, the working lines of the bent members in thick ones; where it moves and is stressed most.

    isometric: the plain piece; room: (width, height) [mm of paper].
    Raises DrawingError when it fits at no usual scale.
    """
    sketch = Sketch(style)
    for stroke in isometric.strokes:
        sketch.polyline([(float(x), float(y)) for x, y in stroke.points], LineKind.THIN)
    for own in bent.results.framed.elements_of.values():
        chain = ISOMETRIC.flat(np.concatenate([bent.ends[own][:, 0], bent.ends[own][-1:, 1]]))
        sketch.polyline([(float(x), float(y)) for x, y in chain], LineKind.FRAME)
    for text, (element, end), way in (("moves most", bent.most, UP_RIGHT), ("most stressed", bent.stressed, UP_LEFT)):
        x, y = ISOMETRIC.flat(bent.ends[element, end])
        sketch.mark(text, (float(x), float(y)), way)
    return fitted(sketch, room)
