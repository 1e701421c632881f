"""What welding does to the shape, as lines."""

from __future__ import annotations

import numpy as np

from fitwright.assess import assess
from fitwright.job import parse_job
from fitwright.shop import default_shop
from fitwright.web.packed import pulled_shape
from tests.demos import assessed


def test_the_pulled_shape_lies_near_the_drawn_one() -> None:
    assessment = assessed("coat-rail")
    shape = pulled_shape(assessment)
    assert shape is not None
    size = float(assessment.piece.envelope.size.max())
    low, high = assessment.piece.envelope.low, assessment.piece.envelope.high
    assert (shape.lines.reshape(-1, 3) > low - 0.1 * size).all()
    assert (shape.lines.reshape(-1, 3) < high + 0.1 * size).all()
    assert "times as much" in shape.said


def test_what_is_exaggerated_is_told_by_how_much() -> None:
    """The largest movement is drawn as a share of the piece's largest side."""
    assessment = assessed("coat-rail")
    shape, plan = pulled_shape(assessment), assessment.welding
    assert shape is not None
    assert plan is not None
    most = max(float(np.linalg.norm(group.proposed.moved, axis=1).max()) for group in plan.pull.groups)
    scale = 0.06 * float(assessment.piece.envelope.size.max()) / most
    assert f"drawn {scale:.0f} times as much" in shape.said


def test_what_is_not_welded_is_not_pulled() -> None:
    job = parse_job(
        "job: {name: Frame, unit: mm}\nstock: {leg: lumber 2x4 pine}\n"
        "parts:\n  leg: {stock: leg, path: [[0, 0, 0], [0, 0, 700]], ends: free, repeat: {x: [0, 500]}}\n"
    )
    assert pulled_shape(assess(job, default_shop("mm"))) is None
