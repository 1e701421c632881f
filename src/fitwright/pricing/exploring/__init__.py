"""The same job made otherwise: one alternative at a time, or many over a grid or a sample, each worked out whole."""

from fitwright.pricing.exploring.alternatives import alternatives_of
from fitwright.pricing.exploring.front import best_few, not_beaten
from fitwright.pricing.exploring.points import grid, sampled
from fitwright.pricing.exploring.running import explore
from fitwright.pricing.exploring.trying import Base, Figures, Judge, Point, Setting, Tried, changed, tried
from fitwright.pricing.exploring.varying import Vary, VaryError, read_vary

__all__ = [
    "Base",
    "Figures",
    "Judge",
    "Point",
    "Setting",
    "Tried",
    "Vary",
    "VaryError",
    "alternatives_of",
    "best_few",
    "changed",
    "explore",
    "grid",
    "not_beaten",
    "read_vary",
    "sampled",
    "tried",
]
