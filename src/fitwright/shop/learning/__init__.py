"""Learning from the shop's records: springback, dies, hours, spreads; each starts from physics or a default."""

from fitwright.shop.learning.doubts import Drift, Outlier, drift, outliers
from fitwright.shop.learning.errors import LearningError
from fitwright.shop.learning.hours import HoursFactor
from fitwright.shop.learning.learning import learn
from fitwright.shop.learning.model import Learnt
from fitwright.shop.learning.pieces import Estimate
from fitwright.shop.learning.springback import BendLaw, BendTrial, Overbend, SlopePrior
from fitwright.shop.learning.worth import Worth, trials_worth

__all__ = [
    "BendLaw",
    "BendTrial",
    "Drift",
    "Estimate",
    "HoursFactor",
    "LearningError",
    "Learnt",
    "Outlier",
    "Overbend",
    "SlopePrior",
    "Worth",
    "drift",
    "learn",
    "outliers",
    "trials_worth",
]
