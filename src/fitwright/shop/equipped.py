"""The shop as it is today: its profile with what the records say is on the rack, and what was learnt from them."""

from __future__ import annotations

import hashlib
from dataclasses import astuple

from fitwright.shop.learning.learning import learn
from fitwright.shop.learning.model import Learnt
from fitwright.shop.model import Shop
from fitwright.shop.records.errors import Busy, CannotOpen
from fitwright.shop.records.rack import with_rack
from fitwright.shop.records.snapshot import Snapshot, snapshot
from fitwright.shop.records.where import Where


def equipped(shop: Shop, place: Where) -> tuple[Shop, Learnt | None]:
    """The shop with stock and prices from its records, its dies as measured; and what was learnt.

    None is learnt, and the shop is as its file says, where nothing was recorded: no file is made by looking.
    Raises RecordsError where there are records that cannot be read.
    """
    return equipped_with(shop, snapshot(place))


def equipped_or_told(shop: Shop, place: Where) -> tuple[Shop, Learnt | None, str]:
    """The same, and "" where the records were read; the shop as its file says, and why, where no server was reached.

    A network that is down must not keep a maker from cutting; what was not taken into account has to be said loudly.
    Raises RecordsError for all else that is wrong with the records.
    """
    try:
        return *equipped(shop, place), ""
    except (CannotOpen, Busy) as wrong:
        if place.file is not None:
            raise
        return shop, None, str(wrong)


def equipped_with(shop: Shop, kept: Snapshot) -> tuple[Shop, Learnt | None]:
    """The same from records already read."""
    if kept == Snapshot():
        return shop, None
    learnt = learn(shop, kept.trials, kept.readings, kept.hours, kept.stock)
    return learnt.on(with_rack(shop, kept.stock, kept.prices)), learnt


def digest(kept: Snapshot) -> str:
    """A few letters that change with anything that was recorded, "" where nothing was."""
    return "" if kept == Snapshot() else hashlib.sha256(repr(astuple(kept)).encode()).hexdigest()[:6]
