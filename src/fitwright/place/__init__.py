"""What it was, where it goes, how it gets there."""

from fitwright.place.model import Fit, Gap
from fitwright.place.space import fit
from fitwright.place.told import space_findings

__all__ = ["Fit", "Gap", "fit", "space_findings"]
