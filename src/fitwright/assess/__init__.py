"""Everything that follows from a job and a shop, computed once and only when asked for.

One class over the other in the order of the data: given, shape, frame, trades, saw, plan, readings, findings. Each file
holds what one of them adds; whoever uses an assessment sees one object.
"""

from fitwright.assess.whole import Assessment, assess

__all__ = ["Assessment", "assess"]
