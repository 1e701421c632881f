"""A linear 3-D beam frame: assembled at once, factorised once, solved for many right-hand sides."""

from __future__ import annotations

from fitwright.mechanics.assembly import stiffness
from fitwright.mechanics.beam import Beams, beams
from fitwright.mechanics.bends import bend_softening, chords
from fitwright.mechanics.buckling import Buckling, buckling
from fitwright.mechanics.contact import Feet, Floor, Stance, feet, floor, on_feet, stand
from fitwright.mechanics.factor import Factor, factorise
from fitwright.mechanics.influence import (
    gap_forces,
    influence,
    misfit_forces,
    probes,
    strain_forces,
    support_influence,
)
from fitwright.mechanics.loads import (
    Loads,
    add,
    along,
    at_nodes,
    at_points,
    combine,
    forces,
    self_weight,
    side_by_side,
    strains,
)
from fitwright.mechanics.mechanism import Mechanism
from fitwright.mechanics.misfit import misfits
from fitwright.mechanics.model import FrameError, FrameModel, frame_model
from fitwright.mechanics.refine import refine
from fitwright.mechanics.response import Response, solve
from fitwright.mechanics.stations import peak_forces, section_forces
from fitwright.mechanics.supports import Supports, supports

__all__ = [
    "Beams",
    "Buckling",
    "Factor",
    "Feet",
    "Floor",
    "FrameError",
    "FrameModel",
    "Loads",
    "Mechanism",
    "Response",
    "Stance",
    "Supports",
    "add",
    "along",
    "at_nodes",
    "at_points",
    "beams",
    "bend_softening",
    "buckling",
    "chords",
    "combine",
    "factorise",
    "feet",
    "floor",
    "forces",
    "frame_model",
    "gap_forces",
    "influence",
    "misfit_forces",
    "misfits",
    "on_feet",
    "peak_forces",
    "probes",
    "refine",
    "section_forces",
    "self_weight",
    "side_by_side",
    "solve",
    "stand",
    "stiffness",
    "strain_forces",
    "strains",
    "support_influence",
    "supports",
]
