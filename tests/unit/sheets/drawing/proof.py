"""Proof that nothing on a sheet is written over anything else."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from fitwright.sheets.drawing.clearing import crossed, overlapping
from fitwright.sheets.drawing.ink import Ink, dressing
from fitwright.sheets.drawing.model import Drawing
from fitwright.sheets.drawing.pens import LineKind

Floats = NDArray[np.float64]


def written_over(ink: Ink) -> list[str]:
    """Texts that overlap, and thin lines (dimension lines, extension lines, leaders) or arrows that run through one."""
    boxes = np.array([text.box for text in ink.texts]).reshape(-1, 4, 2)
    faults = [f"{ink.texts[i].text} over {ink.texts[j].text}" for i, j in overlapping(boxes)]
    thin = [line.points for line in ink.lines if line.kind is LineKind.THIN]
    faults += [f"line {thin[i].round(1).tolist()} through {ink.texts[j].text}" for i, j in crossed(thin, boxes)]
    arrows = [np.concatenate([fill.points, fill.points[:1]]) for fill in ink.fills]
    return faults + [f"arrow {i} on {ink.texts[j].text}" for i, j in crossed(arrows, boxes)]


def leaders_crossing(drawing: Drawing) -> list[tuple[int, int]]:
    """Pairs of leaders whose first legs cross."""
    marked = [dressing(replace(view, dimensions=(), notes=())) for view in drawing.views]
    legs = [line.points[:2] for ink in marked for line in ink.lines]
    return [(i, j) for i in range(len(legs)) for j in range(i) if _cross(legs[i], legs[j])]


def _cross(a: Floats, b: Floats) -> bool:
    return _side(a[0], b) * _side(a[1], b) < -1e-9 and _side(b[0], a) * _side(b[1], a) < -1e-9


def _side(point: Floats, line: Floats) -> float:
    run, to = line[1] - line[0], point - line[0]
    return float(run[0] * to[1] - run[1] * to[0])
