"""What a reading says about the errors of making: what it would be as drawn, and how each error moves it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from fitwright.mechanics.model import Floats, Ints
from fitwright.mechanics.variation import Variation
from fitwright.mechanics.variation.model import Outcome
from fitwright.mechanics.variation.reading import Probe
from fitwright.mechanics.variation.reading import Reading as Read
from fitwright.mechanics.variation.stagewise import felt_after

STEP = 1e-5
Exact = Callable[[Floats], float]


@dataclass(frozen=True, eq=False)
class Places:
    """Sizes (k,) at several places of which the least is read, with what each feels (k, e)."""

    sizes: Floats
    rows: Floats

    def value(self, errors: Floats) -> float:
        """The least with errors (e,)."""
        return float((self.sizes + self.rows @ errors).min())

    def slope(self, errors: Floats) -> Floats:
        """(e,) of the place that is the least."""
        return np.asarray(self.rows[int(np.argmin(self.sizes + self.rows @ errors))])


@dataclass(frozen=True, eq=False)
class Functional:
    """A reading as a function of the elementary errors (e,) of `Variation.found`.

    drawn: what it would be with none [mm, rad]. row: (e,) its first order. stage: after how many stages it is read, 0
    for loose parts. members: the parts that it is about. unknown: what else it depends on and nobody knows, by name,
    with how much (the plane from which heights are taken). exact: the same in full geometry, from the errors; None
    where the first order is all there is. places: where the least of several is read.
    """

    drawn: float
    row: Floats
    stage: int
    members: tuple[int, ...]
    unknown: Mapping[str, float] = field(default_factory=dict)
    exact: Exact | None = None
    places: Places | None = None

    def value(self, errors: Floats) -> float:
        """What is read with errors (e,)."""
        if self.places is not None:
            return self.places.value(errors)
        return self.drawn + float(self.row @ errors) if self.exact is None else self.exact(errors)

    def slope(self, errors: Floats) -> Floats:
        """(e,) how each error moves it near errors (e,)."""
        if self.places is not None:
            return self.places.slope(errors)
        return self.row if self.exact is None else slope(self.exact, errors, np.flatnonzero(self.row))


def slope(exact: Exact, errors: Floats, which: Iterable[int] | Ints) -> Floats:
    """(e,) central differences over the errors named."""
    found = np.zeros(len(errors))
    for number in (int(n) for n in which):
        step = np.zeros(len(errors))
        step[number] = STEP
        found[number] = (exact(errors + step) - exact(errors - step)) / (2 * STEP)
    return found


@dataclass(frozen=True, eq=False)
class Asked:
    """A functional before its row is worked out: probes on the parts at a stage, and errors that reach it directly."""

    drawn: float
    stage: int
    members: tuple[int, ...]
    probes: tuple[Probe, ...] = ()
    direct: Mapping[str, float] = field(default_factory=dict)
    row: Floats | None = None
    unknown: Mapping[str, float] = field(default_factory=dict)
    exact: Exact | None = None
    places: Places | None = None


def worked_out(setting: Variation, asked: Sequence[Asked]) -> tuple[Functional, ...]:
    """Functionals of what is asked; the frame is solved once for each stage that is needed."""
    rows: dict[int, Floats] = {}
    column = {effect.key: i for i, effect in enumerate(setting.found)}
    for number, one in enumerate(asked):
        base = np.zeros(len(setting.found)) if one.row is None else one.row.copy()
        for key, amount in one.direct.items():
            base[column[key]] += amount
        rows[number] = base
    for stage in sorted({one.stage for one in asked if one.probes and one.exact is None}):
        here = [n for n, one in enumerate(asked) if one.probes and one.stage == stage and one.exact is None]
        felt = felt_after(setting, stage, [Read(Outcome("", "", 0.0), asked[n].probes) for n in here])
        for n, row in zip(here, felt, strict=True):
            rows[n] += row
    found = []
    for number, one in enumerate(asked):
        row = rows[number]
        if one.exact is not None:
            row = slope(one.exact, np.zeros(len(row)), np.flatnonzero(one.row if one.row is not None else row))
        found.append(Functional(one.drawn, row, one.stage, one.members, one.unknown, one.exact, one.places))
    return tuple(found)
