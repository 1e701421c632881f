"""From what is written to what is meant: lengths in mm, stock by name, parts placed; every mistake kept."""

from fitwright.job.resolve.whole import resolve

__all__ = ["resolve"]
