from __future__ import annotations

from dataclasses import fields

import numpy as np

from fitwright.mechanics import FrameModel, frame_model
from fitwright.mechanics.picking import OF_ELEMENTS, picked

MODEL = frame_model(
    [[0, 0, 0], [400, 0, 0], [400, 9, 0]],
    [[0, 1], [1, 2]],
    e=2e5,
    g=8e4,
    area=[200, 300],
    i_y=2e4,
    i_z=3e4,
    j=6e4,
    element_labels=["a", "b"],
)


def test_picked_may_repeat() -> None:
    some = picked(MODEL, np.array([1, 1, 0]))
    assert some.element_labels == ("b", "b", "a")
    assert some.elements.tolist() == [[1, 2], [1, 2], [0, 1]]
    assert some.area.tolist() == [300, 300, 200]
    assert some.nodes is MODEL.nodes


def test_every_array_with_a_row_an_element_is_picked() -> None:
    """A field added to the model and forgotten here would keep its old length."""
    rows = {f.name for f in fields(FrameModel) if getattr(getattr(MODEL, f.name), "shape", (0,))[0] == 2}
    assert rows == OF_ELEMENTS
