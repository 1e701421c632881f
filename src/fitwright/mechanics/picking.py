"""Some of a frame's elements."""

from __future__ import annotations

from dataclasses import fields, replace

from fitwright.mechanics.model import FrameModel, Ints

OF_ELEMENTS = {"elements", "y_axis", "e", "g", "area", "i_y", "i_z", "i_yz", "j", "shear_y", "shear_z", "softening"}
OF_ELEMENTS |= {"offsets", "shear_centre", "releases", "mass_per_mm"}


def picked(model: FrameModel, index: Ints) -> FrameModel:
    """The model with only the elements in index (p,), which may repeat; the nodes stay."""
    rows = {field.name: getattr(model, field.name)[index] for field in fields(model) if field.name in OF_ELEMENTS}
    return replace(model, **rows, element_labels=tuple(model.element_labels[i] for i in index))
