"""One way of making the job: what is set otherwise in its file, and what it then comes to."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from fitwright.errors import FitwrightError
from fitwright.job.rewriting import JobFile
from fitwright.shop import Shop
from fitwright.shop.learning import Learnt


@dataclass(frozen=True)
class Setting:
    """One value of the job file set otherwise: its path and the value as it would be written."""

    path: tuple[str, ...]
    value: str

    @property
    def words(self) -> str:
        """As it is told: `depth 24` or `frame round tube 1 1/8 x 14 ga`.

        >>> Setting(("dims", "rail_height"), "66").words
        'rail height 66'
        """
        return f"{' '.join(self.path[1:] or self.path).replace('_', ' ')} {self.value}"


@dataclass(frozen=True)
class Point:
    """A way to try: its number, how it is told, and what is set otherwise."""

    number: int
    words: str
    settings: tuple[Setting, ...]


@dataclass(frozen=True)
class Figures:
    """What a job comes to.

    net: price before tax, None where a price is missing; total with tax; cost; hours of work; mass [kg].
    sag, sway: the worst of each [mm], None where there is none; give: how much of what is allowed the worst of them
    is, 1 for all of it: what is stiff has a small one. chance: that it comes out right as a whole, 0 to 1.
    verdict: of the worst finding, and which that is.
    """

    net: Decimal | None
    total: Decimal | None
    cost: Decimal
    hours: float
    mass: float
    sag: float | None
    sway: float | None
    give: float | None
    chance: float | None
    verdict: str
    finding: str


@dataclass(frozen=True)
class Tried:
    """A point with what it comes to, or with why it cannot be worked out."""

    point: Point
    figures: Figures | None
    wrong: str = ""


@dataclass(frozen=True, eq=False)
class Base:
    """What all ways have in common: the job file's text, the shop, and what its records say."""

    text: str
    shop: Shop
    learnt: Learnt | None = None


Judge = Callable[[str, Shop, Learnt | None], Figures]
"""Works a whole job file out in a shop; a function of a module, so that another process can find it."""


def changed(text: str, settings: Sequence[Setting]) -> str:
    """The job file with values set otherwise, everything else in it as it was. Raises JobFileError."""
    file = JobFile(text)
    for setting in settings:
        file.set(setting.path, setting.value)
    return file.text()


def tried(point: Point, base: Base, judge: Judge) -> Tried:
    """A point worked out; what goes wrong with it is kept in words, whatever it is, and ends nothing else."""
    try:
        return Tried(point, judge(changed(base.text, point.settings), base.shop, base.learnt))
    except FitwrightError as wrong:
        return Tried(point, None, str(wrong))
    except Exception as wrong:  # one bad point of a thousand must not lose the others
        return Tried(point, None, f"{type(wrong).__name__}: {wrong}")
