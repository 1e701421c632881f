"""What it costs: the list of what is to be bought."""

from fitwright.pricing.buying import Bought, buying_list

__all__ = ["Bought", "buying_list"]
