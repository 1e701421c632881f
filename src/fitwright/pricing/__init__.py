"""What it costs: the list of what is to be bought, the cost line by line, the price, the quote."""

from fitwright.pricing.buying import Bought, buying_list
from fitwright.pricing.costing import Worked, cost_of
from fitwright.pricing.dominating import Weight
from fitwright.pricing.errors import PricingError
from fitwright.pricing.findings import price_findings
from fitwright.pricing.hours import Spread
from fitwright.pricing.model import Cost, CostLine, Group, Kind, Missing
from fitwright.pricing.price import Price, own_margin, price_at
from fitwright.pricing.quoting import PriceMissing, Quote, quote_of

__all__ = [
    "Bought",
    "Cost",
    "CostLine",
    "Group",
    "Kind",
    "Missing",
    "Price",
    "PriceMissing",
    "PricingError",
    "Quote",
    "Spread",
    "Weight",
    "Worked",
    "buying_list",
    "cost_of",
    "own_margin",
    "price_at",
    "price_findings",
    "quote_of",
]
