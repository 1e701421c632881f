"""The plan: the whole build as steps in order, and when each is done."""

from fitwright.making.plan.build import build_steps
from fitwright.making.plan.errors import PlanError
from fitwright.making.plan.given import (
    SET_IN,
    BendLine,
    Bent,
    CheckLine,
    CoatGiven,
    Coped,
    FinishGiven,
    Fitted,
    Given,
    Line,
    PanelsGiven,
    SawSetting,
    SetUp,
    TrimLine,
    Welded,
)
from fitwright.making.plan.model import (
    After,
    AskedReading,
    Caution,
    Moment,
    Number,
    Reading,
    Schedule,
    Scheduled,
    Step,
    WorkingHours,
)
from fitwright.making.plan.rates import Rate, usual_rates
from fitwright.making.plan.schedule import schedule_of

__all__ = [
    "SET_IN",
    "After",
    "AskedReading",
    "BendLine",
    "Bent",
    "Caution",
    "CheckLine",
    "CoatGiven",
    "Coped",
    "FinishGiven",
    "Fitted",
    "Given",
    "Line",
    "Moment",
    "Number",
    "PanelsGiven",
    "PlanError",
    "Rate",
    "Reading",
    "SawSetting",
    "Schedule",
    "Scheduled",
    "SetUp",
    "Step",
    "TrimLine",
    "Welded",
    "WorkingHours",
    "build_steps",
    "schedule_of",
    "usual_rates",
]
