"""How it gets there: through doors, round corners, up stairs, into van and lift, and what it weighs to carry."""

from fitwright.place.route.carrying import Carry, carries
from fitwright.place.route.model import Answer, Passage
from fitwright.place.route.whole import Easing, Route, find_route

__all__ = ["Answer", "Carry", "Easing", "Passage", "Route", "carries", "find_route"]
