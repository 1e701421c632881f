"""What is made already: what has a reading, and what its step says is done."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from fitwright.job.model import Job
from fitwright.job.readings import Of, Quantity
from fitwright.making.bench.groups import Group
from fitwright.mechanics.variation import Variation
from fitwright.mechanics.variation.sources import bends_of
from fitwright.mechanics.variation.stagewise import joined_after
from fitwright.piece.model import Piece
from fitwright.truing.functional import Functional

AFTER_WELDING = (
    Quantity.FOOT_HEIGHT,
    Quantity.FOOT_GAP,
    Quantity.FOR_SHELF,
    Quantity.ABOVE_SHELF,
    Quantity.CLEAR,
    Quantity.WALL_GAP,
)
OVERALL = (Quantity.WIDTH, Quantity.DEPTH, Quantity.HEIGHT, Quantity.DIAGONAL)


@dataclass(frozen=True)
class Made:
    """What is made: members brought to shape, stages joined (how many), and panels by name.

    tacked: groups of members that are joined to one another already. legs: (member, end) of end legs that were read.
    welded: whether it is more than tacked.
    """

    members: frozenset[int] = frozenset()
    stages: int = 0
    tacked: tuple[tuple[int, ...], ...] = ()
    panels: frozenset[str] = frozenset()
    legs: frozenset[tuple[int, int]] = frozenset()
    welded: bool = False

    @property
    def joined(self) -> frozenset[int]:
        """Members that are joined to others."""
        return frozenset(k for group in self.tacked for k in group)

    @property
    def loose(self) -> frozenset[int]:
        """Members that are made and not joined yet."""
        return self.members - self.joined


LOOSE = (Quantity.BEND, Quantity.ROTATION, Quantity.CUT_LENGTH, Quantity.LEG, Quantity.SPREAD)


def before_joining(job: Job, piece: Piece) -> Job | None:
    """The job as it was when its parts were loose: readings of single parts, and steps done before the first of them.

    None where no such readings were taken, or nothing else yet: then nothing was built around them.
    """
    names = {m.name.lower() for m in piece.members} | {
        mark.mark.lower() for mark in piece.marks if mark.kind == "member"
    }
    loose = tuple(r for r in job.readings if r.of.quantity in LOOSE or _of_one(r.of, names))
    if not loose or len(loose) == len(job.readings):
        return None
    days = [reading.when for reading in loose if reading.when is not None]
    done = tuple(p for p in job.progress if p.done is not None and days and p.done.date() < min(days))
    return replace(job, readings=loose, progress=done)


def _of_one(of: Of, names: set[str]) -> bool:
    """Whether a width, depth or height is that of one part by its name or mark."""
    return of.quantity in OVERALL and of.thing.lower().partition("/")[0] in names


def made_so_far(setting: Variation, job: Job, groups: Sequence[Group], read: Sequence[tuple[Of, Functional]]) -> Made:
    """What is made, by the readings believed or not, and by the steps that are ticked off in the job file."""
    piece = setting.framed.piece
    members: set[int] = set()
    legs = {(f.members[0], end) for of, f in read if of.quantity is Quantity.LEG for end in _ends(setting, of, f)}
    tacked: list[tuple[int, ...]] = []
    for of, functional in read:
        if of.quantity is Quantity.PAINT or not functional.members:
            continue
        if len(functional.members) > 1:
            tacked.append(functional.members)
        members |= set(functional.members)
    welded = any(of.quantity in AFTER_WELDING or (of.quantity in OVERALL and not of.thing) for of, _ in read)
    panels: set[str] = set()
    for entry in job.progress:
        if entry.done is not None:
            _ticked(entry.step, piece, groups, members, tacked, panels)
            welded = welded or entry.step == "weld"
    stages = max((joined_after(setting, group) for group in tacked), default=0)
    return Made(frozenset(members), stages, tuple(dict.fromkeys(tacked)), frozenset(panels), frozenset(legs), welded)


def _ends(setting: Variation, of: Of, functional: Functional) -> list[int]:
    """Which end leg of a member a leg is: 0, 1 or none."""
    last = len(bends_of(setting.framed, functional.members[0])) + 1
    return [end for end, number in ((0, 1), (1, last)) if of.number == number]


def _ticked(
    step: str,
    piece: Piece,
    groups: Sequence[Group],
    members: set[int],
    tacked: list[tuple[int, ...]],
    panels: set[str],
) -> None:
    kind, _, what = step.partition(" ")
    if kind in ("bend", "saw"):
        bent = kind == "bend"
        members |= {
            m.index
            for m in piece.members
            if m.path.bent == bent and what in (piece.mark_of.get(m.name, ""), m.stock.label)
        }
    elif kind == "tack":
        for group in groups:
            if group.name == what:
                members |= set(group.members)
                tacked.append(group.members)
    elif kind == "weld":
        everything = tuple(m.index for m in piece.members if m.sleeve_of is None)
        members |= set(everything)
        tacked.append(everything)
    elif kind == "screw":
        panels |= {panel.name for panel in piece.panels if panel.part == what}


def joined_to(made: Made, member: int) -> tuple[int, ...]:
    """The largest group that a member is joined in already; itself alone where it is in none."""
    mine: Iterable[tuple[int, ...]] = (group for group in made.tacked if member in group)
    return max(mine, key=len, default=(member,))
