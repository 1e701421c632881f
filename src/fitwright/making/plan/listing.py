"""Collecting steps: each gets its number, its time from the rates, its cautions."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from fitwright.making.plan.cautions import cautions_at
from fitwright.making.plan.given import Given
from fitwright.making.plan.model import After, AskedReading, Number, Reading, Step
from fitwright.making.plan.rates import Rate
from fitwright.units import Style

Waits = Iterable[int | After | None]


@dataclass
class Listing:
    """Steps so far, in build order; `add` returns the number of the one added."""

    given: Given
    style: Style
    rates: Mapping[str, Rate]
    steps: list[Step] = field(default_factory=list)

    def add(
        self,
        kind: str,
        title: str,
        count: float,
        *,
        settings: float = 0.0,
        numbers: Sequence[Number] = (),
        setup: Sequence[str] = (),
        checks: Sequence[str] = (),
        after: Waits = (),
        hands: int = 1,
        readings: Sequence[Reading] = (),
        sheet: str = "",
        marks: Sequence[str] = (),
        extra: float = 0.0,
        asks: Iterable[AskedReading] = (),
        about: str = "",
    ) -> int:
        """Add a step; count and settings: what its rate is multiplied with; extra: minutes on top.

        about: what tells it from other steps of its kind.
        """
        rate = self.rates[kind]
        number = len(self.steps) + 1
        self.steps.append(
            Step(
                number=number,
                kind=kind,
                title=title,
                numbers=tuple(numbers),
                setup=tuple(setup),
                checks=tuple(checks),
                minutes=rate.minutes(count, settings) + round(extra),
                cautions=cautions_at(kind, self.given.true),
                after=_merged(after),
                hands=hands,
                whole=rate.whole,
                station=rate.station,
                task=rate.task,
                readings=tuple(readings),
                sheet=sheet,
                marks=tuple(marks),
                asks=tuple(asks),
                key=self._key(f"{kind} {about}".strip()),
            )
        )
        return number

    def _key(self, words: str) -> str:
        """The words, with a number where an earlier step has the same."""
        same = sum(step.key == words or step.key.startswith(f"{words}, ") for step in self.steps)
        return f"{words}, {same + 1}" if same else words

    def of(self, *kinds: str) -> list[int]:
        """Numbers of the steps of some kinds so far."""
        return [step.number for step in self.steps if step.kind in kinds]


def _merged(after: Waits) -> tuple[After, ...]:
    """One entry for each step waited for, with its longest wait."""
    found: dict[int, After] = {}
    for one in after:
        if one is None:
            continue
        told = After(one) if isinstance(one, int) else one
        if told.number not in found or found[told.number].wait < told.wait:
            found[told.number] = told
    return tuple(found[number] for number in sorted(found))
