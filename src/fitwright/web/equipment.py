"""The shops that jobs are assessed in, each with what its records say, read again when either has changed."""

from __future__ import annotations

import hashlib
import time
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeVar

from fitwright.errors import FitwrightError
from fitwright.shop import Shop, default_shop, load_shop
from fitwright.shop.equipped import equipped_or_told
from fitwright.shop.learning import Learnt
from fitwright.shop.records import Where, where
from fitwright.shop.records.snapshot import state_of
from fitwright.units import Unit

T = TypeVar("T")

KEPT = 16
SERVER_LASTS = 10.0
"""How long what a database server said is taken as its state [s]; a file says itself when it changes."""


@dataclass(frozen=True)
class Equipped:
    """A shop as it is today, and what its records taught; None where nothing was recorded.

    unreached: why the server with its records was not, or empty.
    """

    shop: Shop
    learnt: Learnt | None
    unreached: str = ""


@dataclass
class Equipment:
    """Shops by their file and by the state of their records."""

    clock: Callable[[], float] = time.monotonic
    _profiles: OrderedDict[str, Shop] = field(default_factory=OrderedDict)
    _equipped: OrderedDict[str, Equipped] = field(default_factory=OrderedDict)
    _asked: dict[str, tuple[float, str]] = field(default_factory=dict)

    def stamp(self, shop_file: Path | None) -> str:
        """What tells the state of a shop and its records from every other one; empty for the shipped shop alone."""
        profile = _digest(shop_file.read_bytes()) if shop_file is not None and shop_file.exists() else ""
        try:
            records = self._records(where(of_shop=self._profile(shop_file, None).records if profile else ""))
        except FitwrightError as wrong:  # told by `of`
            records = str(wrong)
        return _digest(f"{profile}/{records}".encode()) if profile or records else ""

    def of(self, shop_file: Path | None, unit: Unit) -> Equipped:
        """The shop of a file, else the shipped one for a unit, with its records. Raises ShopError, RecordsError."""
        key = f"{shop_file}/{'' if shop_file else unit}/{self.stamp(shop_file)}"
        if key not in self._equipped:
            shop = self._profile(shop_file, unit)
            place = where(of_shop=shop.records)
            found = Equipped(*equipped_or_told(shop, place))
            if found.unreached and found.unreached not in self._records(place):
                return found  # the server went away since its state was asked for: this is not what that state holds
            _keep(self._equipped, key, found)
        return self._equipped[key]

    def _profile(self, shop_file: Path | None, unit: Unit | None) -> Shop:
        if shop_file is None:
            return default_shop(unit or "mm")
        key = f"{shop_file}/{_digest(shop_file.read_bytes())}" if shop_file.exists() else ""
        if key not in self._profiles:
            _keep(self._profiles, key, load_shop(shop_file))
        return self._profiles[key]

    def _records(self, place: Where) -> str:
        """The state of the records; a server's is asked for once in a while."""
        if place.file is not None:
            return state_of(place)
        asked, state = self._asked.get(place.server, (0.0, ""))
        if not state or self.clock() - asked > SERVER_LASTS:
            state = state_of(place)
            self._asked[place.server] = self.clock(), state
        return state


def _keep(among: OrderedDict[str, T], key: str, what: T) -> None:
    among[key] = what
    while len(among) > KEPT:
        among.popitem(last=False)


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()[:6]
