"""price: the way to the place, the margin, extras, and lines of the quote."""

from __future__ import annotations

import re
from decimal import Decimal

from fitwright.job.mistakes import excerpt
from fitwright.job.price import Extra, PriceSpec
from fitwright.job.resolve.scope import Scope
from fitwright.job.shape.price import ExtraShape, PriceShape
from fitwright.job.written import Written

DISTANCE = re.compile(r"(\d{1,5}(?:\.\d{1,3})?)\s*(km|mi|mile|miles)")
KM_PER_MILE = Decimal("1.609344")  # source: NIST Handbook 44 (2024), Appendix C, exact
FARTHEST_KM = 20_000
MOST_MARGIN = Decimal("0.95")


def resolve_price(price: PriceShape | None, scope: Scope) -> PriceSpec:
    """The price section; without one, nothing is said and the shop's own ways hold."""
    if price is None:
        return PriceSpec()
    return PriceSpec(
        distance_km=None if price.distance is None else _distance(price.distance, scope),
        margin=None if price.margin is None else _margin(price.margin, scope),
        extras=tuple(_extra(extra, scope) for extra in price.extras),
        scope=tuple(line.text for line in price.scope),
        excluded=tuple(line.text for line in price.excluded),
    )


def _extra(extra: ExtraShape, scope: Scope) -> Extra:
    return Extra(extra.what.text, scope.money(extra.price))


def _distance(written: Written, scope: Scope) -> Decimal:
    said = DISTANCE.fullmatch(written.text.strip())
    if said is None:
        scope.wrong_at(written, f"{excerpt(written.text)} is not a distance: write 14 km or 9 miles")
        return Decimal(0)
    km = Decimal(said[1]) * (1 if said[2] == "km" else KM_PER_MILE)
    if km > FARTHEST_KM:
        scope.wrong_at(written, f"{excerpt(written.text)} is farther than any way: at most {FARTHEST_KM} km")
    return km


def _margin(written: Written, scope: Scope) -> Decimal:
    share = Decimal(str(round(scope.share(written), 6)))
    if share > MOST_MARGIN:
        scope.wrong_at(written, f"{excerpt(written.text)} leaves nothing for the cost: at most {MOST_MARGIN:.0%}")
    return share
