"""The piece about which readings are taken."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from fitwright.job.readings import Of
from fitwright.making.bench.groups import Group
from fitwright.making.bending import BendSheet
from fitwright.mechanics.variation import Variation
from fitwright.truing.errors import TruingError
from fitwright.truing.naming import Names
from fitwright.units import Style


@dataclass(frozen=True, eq=False)
class Subject:
    """A piece about which readings are taken.

    groups: the set-ups on the bench; sheets: bend sheets by mark.
    """

    setting: Variation
    groups: tuple[Group, ...]
    sheets: Mapping[str, BendSheet]
    style: Style

    @cached_property
    def names(self) -> Names:
        """What its parts are called."""
        return Names(self.setting.framed.piece, self.groups)

    @cached_property
    def column(self) -> Mapping[str, int]:
        """The number of each elementary error, by its key."""
        return {effect.key: i for i, effect in enumerate(self.setting.found)}

    @property
    def last(self) -> int:
        """How many stages there are."""
        return len(self.setting.stages)


def counted(of: Of, count: int, what: str, first: int = 1) -> None:
    """Raises TruingError for a number that is not there, with those that are."""
    if not first <= of.number <= count:
        there = f"{what} {first} to {count} are there" if count >= first else "it has none"
        raise TruingError(f"{of}: {there}")
