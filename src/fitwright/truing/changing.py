"""New numbers beside old ones, for what is not made yet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from fitwright.making.bench.groups import Group
from fitwright.piece.model import Piece
from fitwright.truing.model import Changed, Truing
from fitwright.truing.numbers import Number, Numbers

SAME_MM, SAME_RAD = 0.2, 0.0008
"""Less is no change: half of the finest step that is printed."""
SHOWN = 4
ORDER = ("cut", "bend", "bench", "timber", "feet")
WHY = {
    "cut": "follows what it is fitted between",
    "bend": "matched to the first one made",
    "bench": "follows the parts that it holds",
    "timber": "follows the frame as it comes out",
}


def changes(old: Numbers, new: Numbers, truing: Truing, piece: Piece, groups: Sequence[Group]) -> tuple[Changed, ...]:
    """What changes of what is not made yet; one line where all pieces of a mark change alike.

    old, new: numbers as drawn and as they follow from the readings. groups: the set-ups on the bench.
    """
    to_make = _to_make(truing, piece, groups)
    pairs = [
        (number, new[key])
        for key, number in old.items()
        if key in new and number.name in to_make and _differs(number, new[key])
    ]
    fresh = [
        number for key, number in new.items() if key not in old and number.name in to_make and number.sheet == "bench"
    ]
    grouped = sorted(_grouped(pairs, truing), key=lambda one: ORDER.index(one.sheet))
    told = grouped + [
        Changed("bench", one.mark, f"{one.name}: {one.what}", None, one.value, "needed now")
        for one in fresh
        if one.mark
    ]
    return (*told, *_commands(truing), *_shims(truing))


def _to_make(truing: Truing, piece: Piece, groups: Sequence[Group]) -> frozenset[str]:
    """Names of parts, panels and set-ups that are yet to be made."""
    made = truing.made
    members = {m.name for m in piece.members if m.index not in made.members}
    panels = {p.name for p in piece.panels if p.name not in made.panels}
    tacked = set(made.tacked)
    set_ups = {g.name for g in groups if not any(set(g.members) <= set(group) for group in tacked)}
    return frozenset(members | panels | set_ups)


def _differs(old: Number, new: Number) -> bool:
    return abs(new.value - old.value) > (SAME_RAD if old.angle else SAME_MM)


def _grouped(pairs: Sequence[tuple[Number, Number]], truing: Truing) -> Iterator[Changed]:
    """One line for all numbers of a mark that change alike."""

    def alike(pair: tuple[Number, Number]) -> tuple[str, str, bool, float, float]:
        old, new = pair
        step = 3 if old.angle else 1
        return old.sheet, old.mark, old.angle, round(old.value, step), round(new.value, step)

    for _, same in groupby(sorted(pairs, key=alike), key=alike):
        each = list(same)
        old, new = each[0]
        names = listed(dict.fromkeys(number.name for number, _ in each))
        what = listed(dict.fromkeys(number.what for number, _ in each))
        yield Changed(old.sheet, old.mark, f"{names}: {what}", old.value, new.value, _why(old, truing), old.angle)


def listed(words: Iterable[str]) -> str:
    """Words in a row; of many, the first and how many more."""
    names = list(words)
    if len(names) > SHOWN:
        return f"{', '.join(names[: SHOWN - 1])} and {len(names) - SHOWN + 1} more"
    return ", ".join(names)


def _why(number: Number, truing: Truing) -> str:
    if number.sheet == "timber" and truing.paint is not None:
        return f"{WHY['timber']}, and {truing.paint * 1000:.0f} µm of paint on both sides"
    return WHY["bend" if number.what == "blank" else number.sheet]


def _commands(truing: Truing) -> Iterator[Changed]:
    for one in truing.commands:
        what = f"{one.member}: bend {one.number}, bend to"
        yield Changed("bend", one.mark, what, one.old, one.old + one.by, one.why, angle=True)


def _shims(truing: Truing) -> Iterator[Changed]:
    for touch in truing.touches:
        if touch.kind == "shim":
            yield Changed("feet", touch.subject, "packing", None, touch.amount, "so that it stands flat")
