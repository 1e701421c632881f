"""Cutting stock to length: the cheapest plan with its proof, the cut list by stop setting, and what may be wrong."""

from fitwright.making.cutting.as_json import plan_as_json
from fitwright.making.cutting.cut_list import CutGroup, SawnPiece, cut_list
from fitwright.making.cutting.lists import ListError, plan_from_csv, read_bars, read_cuts
from fitwright.making.cutting.plan import CuttingPlan, PlannedBar, PlannedCut, Progress, plan_cuts
from fitwright.making.cutting.request import Bar, Cut, CuttingError, CutTooLong, NoPlanInTime, NotEnoughOnHand
from fitwright.making.cutting.review import KEPT, longest_finding, proof_finding, turn_finding, waste_finding
from fitwright.making.cutting.sleeve_fit import sleeve_finding

__all__ = [
    "KEPT",
    "Bar",
    "Cut",
    "CutGroup",
    "CutTooLong",
    "CuttingError",
    "CuttingPlan",
    "ListError",
    "NoPlanInTime",
    "NotEnoughOnHand",
    "PlannedBar",
    "PlannedCut",
    "Progress",
    "SawnPiece",
    "cut_list",
    "longest_finding",
    "plan_as_json",
    "plan_cuts",
    "plan_from_csv",
    "proof_finding",
    "read_bars",
    "read_cuts",
    "sleeve_finding",
    "turn_finding",
    "waste_finding",
]
