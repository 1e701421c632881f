"""What a job wishes of its photo: held dims, room in the opening, sizes on sale; and the dims that follow."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from fitwright.job.marks import DimMark
from fitwright.job.model import Job, Space
from fitwright.place.photo.proposal import Proportion, Proposed, Reading, Why, Wishes, propose
from fitwright.place.photo.reckoning import reckoned
from fitwright.place.photo.solving import Solved
from fitwright.shop import Shop
from fitwright.stock import Stock, parse_stock

USUAL_STEP = {"inch": 25.4 / 16, "mm": 1.0, "cm": 1.0}
SAME = 1e-6


@dataclass(frozen=True)
class DimProposal:
    """A dim as the old piece has it, as it is proposed and as the job has it now, all [mm].

    old: with its plus or minus (95 %); where no length is known, as shares of the first measure.
    spread: that plus or minus at the size of the new piece [mm]. step: what it is rounded to [mm].
    """

    mark: DimMark
    old: Reading
    proposed: Proposed
    now: float
    spread: float
    step: float

    @property
    def taken(self) -> bool:
        """Whether the job has it as proposed."""
        return abs(self.now - self.proposed.value) < SAME * max(1.0, self.now)

    @property
    def agrees(self) -> bool:
        """Whether the job's dim is what the photo shows, as near as the photo can tell and the step allows.

        What is held, has reached a bound or comes in sizes is not asked.
        """
        if self.proposed.why is not Why.PHOTO:
            return True
        return abs(self.now - self.proposed.shown) <= self.spread + self.step / 2 + SAME


@dataclass(frozen=True)
class PhotoDims:
    """The dims that a photo proposes. scale: size of the new piece beside the old one; sized: whether that has a
    meaning, which it has not where no length on the old piece is known."""

    rows: tuple[DimProposal, ...]
    scale: float
    sized: bool

    def __getitem__(self, name: str) -> DimProposal:
        return next(one for one in self.rows if one.mark.name == name)


def photo_dims(job: Job, shop: Shop, solved: Solved) -> PhotoDims | None:
    """The dims that the photo proposes for a job; None where it names none.

    Raises WishError for wishes that cannot be met, MarksError for measures that do not hang together.
    """
    marks = solved.photo.dims
    if not marks:
        return None
    old, sized = reckoned(solved)
    now = {name: _now(job, name) for name in marks}
    wishes = wished(job, shop, marks, now)
    proposal = propose(old, wishes)
    rows = tuple(
        DimProposal(
            mark, old[name], proposal[name], now[name], old[name].plus_minus * proposal.scale,
            wishes.steps.get(name, wishes.step),
        )
        for name, mark in marks.items()
    )  # fmt: skip
    return PhotoDims(rows, proposal.scale, sized)


def wished(job: Job, shop: Shop, marks: Mapping[str, DimMark], now: Mapping[str, float]) -> Wishes:
    """The wishes of a job's photo section; now: what its dims are [mm]."""
    rooms = {name: room for name, mark in marks.items() if mark.fits and (room := room_for(job.space, mark.fits))}
    most = {name: min(one for one in (mark.most, rooms.get(name)) if one) for name, mark in marks.items()
            if mark.most or name in rooms}  # fmt: skip
    return Wishes(
        held={name: now[name] for name, mark in marks.items() if mark.held},
        proportions=[Proportion(name, mark.keep, mark.weight) for name, mark in marks.items() if mark.keep],
        least={name: mark.least for name, mark in marks.items() if mark.least},
        most={name: value for name, value in most.items() if not marks[name].held},
        stock={name: sizes for name, mark in marks.items() if not mark.held and (sizes := _on_sale(job, shop, name))},
        step=USUAL_STEP[job.style.unit],
        steps={name: mark.step for name, mark in marks.items() if mark.step},
        same_size=bool(job.photo and job.photo.same_size),
    )


def room_for(space: Space, side: str) -> float | None:
    """What the opening leaves for the piece in one direction [mm]: its smallest less what is kept clear; None where
    that was not surveyed."""
    opening = space.opening
    if opening is None:
        return None
    sizes, sides = {
        "width": (opening.widths, ("left", "right")),
        "depth": (opening.depths, ("front", "back")),
        "height": (opening.tops, ("top",)),
    }[side]
    if not sizes:
        return None
    return min(size for _, size in sizes) - sum(space.clear.get(one, 0.0) for one in sides)


def sizes_on_sale(shop: Shop, stock: Stock, dimension: str) -> tuple[float, ...]:
    """The sizes [mm] in which the shop can have stock of one shape, that of this stock among them.

    >>> from fitwright.shop import default_shop
    >>> sizes = sizes_on_sale(default_shop("inch"), parse_stock("round tube 1 1/8 x 16 ga", unit="inch"), "od")
    >>> [round(size / 25.4, 3) for size in sizes][:3]
    [0.875, 1.0, 1.125]
    """
    labels = tuple(dict.fromkeys(bar.label for bar in shop.stock_lengths))
    others = [one.section.dimensions for one in _parsed(labels, shop.unit) if one.section.shape == stock.section.shape]
    return tuple(sorted({one[dimension] for one in (*others, stock.section.dimensions)}))


@lru_cache(maxsize=8)
def _parsed(labels: tuple[str, ...], unit: str) -> tuple[Stock, ...]:
    return tuple(parse_stock(label, unit=unit) for label in labels)


def _on_sale(job: Job, shop: Shop, name: str) -> tuple[float, ...]:
    short, dot, dimension = name.partition(".")
    return sizes_on_sale(shop, job.stock[short], dimension) if dot else ()


def _now(job: Job, name: str) -> float:
    short, dot, dimension = name.partition(".")
    value = job.stock[short].section.dimensions[dimension] if dot else job.dims[name].value
    return value if math.isfinite(value) else 0.0
