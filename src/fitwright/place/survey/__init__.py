"""What a survey is worth: how nearly each length is known, and whether the lengths agree with one another."""

from fitwright.place.survey.closing import Closure, closures
from fitwright.place.survey.tape import spread_of

__all__ = ["Closure", "closures", "spread_of"]
