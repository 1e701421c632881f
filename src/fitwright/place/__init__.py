"""What it was, where it goes, how it gets there."""

from fitwright.place.space import Fit, Gap, fit, space_findings

__all__ = ["Fit", "Gap", "fit", "space_findings"]
