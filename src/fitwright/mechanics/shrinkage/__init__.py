"""Weld shrinkage: what each weld does to the frame, in which order it does least, and how far it may be off."""

from __future__ import annotations

from fitwright.mechanics.shrinkage.contact import seam_of, seams
from fitwright.mechanics.shrinkage.errors import ShrinkageError
from fitwright.mechanics.shrinkage.heat import Arc, Process, arc_for, arc_time, heat_input, process_called
from fitwright.mechanics.shrinkage.ordering import Progress
from fitwright.mechanics.shrinkage.pulled import FACTOR, Movement, Order, Pull, Pulled, pull_of
from fitwright.mechanics.shrinkage.runs import Bead, Run, runs_of
from fitwright.mechanics.shrinkage.saying import in_style
from fitwright.mechanics.shrinkage.seam import Seam, WeldKind, wall
from fitwright.mechanics.shrinkage.spread import Reading, Spread, narrowed
from fitwright.mechanics.shrinkage.tacks import tack_places
from fitwright.mechanics.shrinkage.tendon import PullRange, blodgett_bow, bow_range, pull_range, tendon_force
from fitwright.mechanics.shrinkage.transverse import angular_change, restrained_share, transverse_shrinkage

__all__ = [
    "FACTOR",
    "Arc",
    "Bead",
    "Movement",
    "Order",
    "Process",
    "Progress",
    "Pull",
    "PullRange",
    "Pulled",
    "Reading",
    "Run",
    "Seam",
    "ShrinkageError",
    "Spread",
    "WeldKind",
    "angular_change",
    "arc_for",
    "arc_time",
    "blodgett_bow",
    "bow_range",
    "heat_input",
    "in_style",
    "narrowed",
    "process_called",
    "pull_of",
    "pull_range",
    "restrained_share",
    "runs_of",
    "seam_of",
    "seams",
    "tack_places",
    "tendon_force",
    "transverse_shrinkage",
    "wall",
]
