"""What can be measured on the real parts while building, in a closed vocabulary, and the measurements taken."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from fitwright.job.mistakes import nearest

SIDES = {"front": "back", "back": "front", "left": "right", "right": "left"}
LEVELS = ("bottom", "middle", "top")
WHOLE = "the piece"


class Quantity(StrEnum):
    """What is measured; the words of each are in `FORMS`."""

    BEND = "bend"
    ROTATION = "rotation"
    CUT_LENGTH = "cut length"
    LEG = "leg"
    SPREAD = "spread"
    WIDTH = "width"
    DEPTH = "depth"
    HEIGHT = "height"
    DIAGONAL = "diagonal"
    ALONG = "along"
    ABOVE_BENCH = "height above the bench"
    TWIST = "twist"
    FOOT_HEIGHT = "height of foot"
    FOOT_GAP = "gap under foot"
    FOR_SHELF = "opening for"
    ABOVE_SHELF = "opening above"
    CLEAR = "clear"
    PAINT = "paint thickness"
    JOINT_GAP = "gap at"
    WALL_GAP = "gap"


ANGLES = (Quantity.BEND, Quantity.ROTATION)


@dataclass(frozen=True)
class Of:
    """What is measured.

    thing: a mark ("A1", its second one "A1/2"), a part or one of its pieces ("hoop 1"), a set-up on the bench, "" for
    the whole piece. number: of a bend, leg, diagonal or foot, 0 where there is none. place: "front left", "top", "ends"
    or "across", say. other: the second member of a joint. axis: "length" or "width" for distances along a side.
    """

    quantity: Quantity
    thing: str = ""
    number: int = 0
    place: str = ""
    other: str = ""
    axis: str = ""

    @property
    def angle(self) -> bool:
        """Whether it is an angle; else a length."""
        return self.quantity in ANGLES

    def __str__(self) -> str:
        return WORDS[self.quantity](self)


@dataclass(frozen=True)
class Reading:
    """One measurement.

    value: [mm] or, of an angle, [rad]; within: how nearly it was measured (95 %), in the same unit, None for the usual.
    step: of the build, where it was asked for. line: in the job file, 0 where it is not from a file.
    """

    of: Of
    value: float
    within: float | None = None
    when: date | None = None
    step: str = ""
    note: str = ""
    line: int = 0


_LEVEL = "(?P<place>(?:bottom|middle|top|front|back|left|right)(?: (?:bottom|middle|top|front|back|left|right)){0,2})"
_THING = "(?P<thing>.+?)"
_FACE = "(?P<place>bottom|middle|top|front|back|left|right)"

FORMS: tuple[tuple[Quantity, str, str], ...] = (
    (Quantity.BEND, "bend 2 of A1", rf"(?:angle of )?bend (?P<number>\d+) of {_THING}"),
    (Quantity.ROTATION, "rotation at bend 2 of A1", rf"rotation (?:at|before) bend (?P<number>\d+) of {_THING}"),
    (Quantity.CUT_LENGTH, "cut length of A1", rf"cut length of {_THING}"),
    (Quantity.LEG, "leg 1 of A1", rf"leg (?P<number>\d+) of {_THING}"),
    (Quantity.SPREAD, "spread at the ends of A1", rf"spread at the (?P<place>ends|bends) of {_THING}"),
    (Quantity.FOOT_HEIGHT, "height of foot 3", r"height of foot (?P<number>\d+)"),
    (Quantity.FOOT_GAP, "gap under foot 3", r"gap under foot (?P<number>\d+)"),
    (Quantity.ABOVE_BENCH, "height above the bench of the whole", rf"height above the bench of {_THING}"),
    (
        Quantity.ALONG,
        "width along the left of hoop 1",
        rf"(?P<axis>length|width) along the (?P<place>front|back|left|right) of {_THING}",
    ),
    (Quantity.DIAGONAL, "diagonal 1 at the front", rf"diagonal (?P<number>[12]) at the {_FACE}(?: of {WHOLE})?"),
    (Quantity.DIAGONAL, "diagonal 1 of hoop 1", rf"diagonal (?P<number>[12]) of {_THING}"),
    (Quantity.TWIST, "twist of hoop 1", rf"twist of {_THING}"),
    (Quantity.WIDTH, "width at the top of A1", rf"width(?: at the {_LEVEL})? of {_THING}"),
    (Quantity.DEPTH, "depth at the bottom left of the piece", rf"depth(?: at the {_LEVEL})? of {_THING}"),
    (Quantity.HEIGHT, "height at the front left of the piece", rf"height(?: at the {_LEVEL})? of {_THING}"),
    (Quantity.FOR_SHELF, "opening for shelf 2", rf"opening(?: (?P<place>across|along))? for {_THING}"),
    (Quantity.ABOVE_SHELF, "opening above shelf 2", rf"opening above {_THING}"),
    (Quantity.CLEAR, "clear width of boots", rf"clear (?P<axis>width|depth|height) of {_THING}"),
    (Quantity.PAINT, "paint thickness", rf"paint thickness(?: of {WHOLE})?"),
    (Quantity.JOINT_GAP, "gap at ledge 1 on hoop 1", rf"gap at {_THING} on (?P<other>.+)"),
    (Quantity.WALL_GAP, "gap left", r"gap (?P<place>left|right|behind|above)"),
)
EXAMPLES = tuple(example for _, example, _ in FORMS)
_PATTERNS = tuple((quantity, re.compile(pattern, re.IGNORECASE)) for quantity, _, pattern in FORMS)


def parse_of(text: str) -> Of | None:
    """What words of the vocabulary mean; None for any others. Case and spaces between words do not matter.

    >>> str(parse_of("angle of bend 2 of A1"))
    'bend 2 of A1'
    """
    said = " ".join(text.split())
    for quantity, pattern in _PATTERNS:
        match = pattern.fullmatch(said)
        if match:
            found = match.groupdict()
            thing = found.get("thing") or ""
            whole = thing.lower() == WHOLE or quantity is Quantity.PAINT
            return Of(
                quantity,
                "" if whole else thing,
                int(found.get("number") or 0),
                _place((found.get("place") or "").lower()),
                found.get("other") or "",
                (found.get("axis") or "").lower(),
            )
    return None


def likeliest(text: str) -> str | None:
    """The example that wrong words most resemble, by what stands before the thing; None where nothing is close."""
    said = " ".join(text.split())
    heads = {example.partition(" of ")[0]: example for example in reversed(EXAMPLES)}
    words = {example.split()[0]: example for example in reversed(EXAMPLES)}
    for given, known in ((said, dict(zip(EXAMPLES, EXAMPLES, strict=True))), (said.partition(" of ")[0], heads)):
        if found := nearest(given, known):
            return known[found]
    first = nearest(said.partition(" ")[0], words)
    return None if first is None else words[first]


def _place(said: str) -> str:
    """A place with its words in one order: level, then front or back, then left or right."""
    order = (*LEVELS, "front", "back", "left", "right")
    words = said.split()
    return " ".join(sorted(words, key=order.index)) if all(word in order for word in words) else said


def _at(of: Of) -> str:
    return f" at the {of.place}" if of.place else ""


def _thing(of: Of) -> str:
    return of.thing or WHOLE


WORDS: dict[Quantity, Callable[[Of], str]] = {
    Quantity.BEND: lambda of: f"bend {of.number} of {_thing(of)}",
    Quantity.ROTATION: lambda of: f"rotation at bend {of.number} of {_thing(of)}",
    Quantity.CUT_LENGTH: lambda of: f"cut length of {_thing(of)}",
    Quantity.LEG: lambda of: f"leg {of.number} of {_thing(of)}",
    Quantity.SPREAD: lambda of: f"spread at the {of.place} of {_thing(of)}",
    Quantity.WIDTH: lambda of: f"width{_at(of)} of {_thing(of)}",
    Quantity.DEPTH: lambda of: f"depth{_at(of)} of {_thing(of)}",
    Quantity.HEIGHT: lambda of: f"height{_at(of)} of {_thing(of)}",
    Quantity.DIAGONAL: lambda of: f"diagonal {of.number}{_at(of)}{f' of {of.thing}' if of.thing else ''}",
    Quantity.ALONG: lambda of: f"{of.axis} along the {of.place} of {_thing(of)}",
    Quantity.ABOVE_BENCH: lambda of: f"height above the bench of {_thing(of)}",
    Quantity.TWIST: lambda of: f"twist of {_thing(of)}",
    Quantity.FOOT_HEIGHT: lambda of: f"height of foot {of.number}",
    Quantity.FOOT_GAP: lambda of: f"gap under foot {of.number}",
    Quantity.FOR_SHELF: lambda of: f"opening{f' {of.place}' if of.place else ''} for {_thing(of)}",
    Quantity.ABOVE_SHELF: lambda of: f"opening above {_thing(of)}",
    Quantity.CLEAR: lambda of: f"clear {of.axis} of {_thing(of)}",
    Quantity.PAINT: lambda of: "paint thickness",
    Quantity.JOINT_GAP: lambda of: f"gap at {_thing(of)} on {of.other}",
    Quantity.WALL_GAP: lambda of: f"gap {of.place}",
}


def parts_named(of: Of) -> Iterator[str]:
    """The names in it that should be a part, one of its pieces or a mark: all but set-ups and the whole piece."""
    loose = (
        Quantity.BEND,
        Quantity.ROTATION,
        Quantity.CUT_LENGTH,
        Quantity.LEG,
        Quantity.SPREAD,
        Quantity.FOR_SHELF,
        Quantity.ABOVE_SHELF,
        Quantity.CLEAR,
        Quantity.JOINT_GAP,
    )
    if of.quantity in loose:
        yield from (name for name in (of.thing, of.other) if name)
