"""What is set up on the bench, where, and with what; lengths in mm, places counted from the bench's named corner."""

from __future__ import annotations

from dataclasses import dataclass, field

from fitwright.findings import Finding

Point = tuple[float, float]
Line = tuple[Point, ...]


@dataclass(frozen=True)
class GroupWish:
    """A set-up that the maker asks for: its name, the parts in it, and which side of the piece faces up.

    parts: names of parts ("hoop", all of them) or of members ("hoop 2"). up: "top", "bottom", "front", "back", "left",
    "right", or "" to have it found. flip: "when tacked", "when welded", "never", or "" for the usual.
    """

    name: str
    parts: tuple[str, ...]
    up: str = ""
    flip: str = ""


@dataclass(frozen=True)
class Subassembly:
    """Parts tacked together in one set-up.

    members: indices of all its members, those of earlier subassemblies too. up: the direction of the piece that points
    up on the bench (3,); up_words: the same in words. flips: what is turned over, and when, in words. of: names of the
    earlier subassemblies that it takes as they are. same_as: the earlier subassembly that it is made like, or "".
    """

    name: str
    members: tuple[int, ...]
    up: tuple[float, float, float]
    up_words: str
    flips: tuple[str, ...]
    of: tuple[str, ...] = ()
    same_as: str = ""


@dataclass(frozen=True)
class Stop:
    """Something fixed that a part bears on.

    kind: name of the pin, stop or bar as the shop calls it. hole: "C-4", or a distance from the edges where there is
    none. at: middle of its hole; towards: unit vector from the stop to the part; reach: from `at` to its face [mm].
    part: mark; face: which face of the part in words. gap: what is between stop and part, filled by a block [mm].
    block: letter of that block, or "". role: "first" and "second" locate the base, "shape" holds a bent leg, "member"
    any other part.
    """

    kind: str
    hole: str
    at: Point
    towards: Point
    reach: float
    part: str
    member: int
    face: str
    gap: float = 0.0
    block: str = ""
    role: str = "member"
    round: bool = True
    width: float = 0.0
    set_by_hand: bool = False

    @property
    def standard(self) -> bool:
        """Whether the part bears on it without a made block."""
        return self.gap == 0.0

    @property
    def contact(self) -> Point:
        """Where the part is touched, by the stop or by its block [mm]."""
        out = self.reach + self.gap
        return (self.at[0] + out * self.towards[0], self.at[1] + out * self.towards[1])


@dataclass(frozen=True)
class Block:
    """A block made for a set-up: its letter, length [mm], how many, from which stock, whether it stands, and why."""

    letter: str
    length: float
    quantity: int
    stock: str
    upright: bool
    why: str


@dataclass(frozen=True)
class Support:
    """A place where a block stands upright under a part that lies above the bench."""

    at: Point
    part: str
    member: int
    height: float
    block: str


@dataclass(frozen=True)
class Spacer:
    """What sets a standing part along the part that it stands on: a block between it and what it is set from.

    length 0 where it stands flush with that; start, end: where the block lies in the bench's plan [mm].
    """

    part: str
    member: int
    on: str
    source: str
    length: float
    block: str
    start: Point
    end: Point


@dataclass(frozen=True)
class Clamp:
    """A clamp: the shop's name of it, where it is held, where its pad presses, on which part."""

    kind: str
    hole: str
    at: Point
    pad: Point
    part: str
    member: int


@dataclass(frozen=True)
class SquareUp:
    """A part that stands or lies above the bench and is squared up before it is tacked: with what, against what."""

    part: str
    member: int
    square: str
    at: Point
    words: str


@dataclass(frozen=True)
class Check:
    """A number to read with a tape after tacking, outside to outside, with how far off it may be [mm].

    kind: "diagonal", "width" or "height". start and end: where the tape goes, in the bench's plan [mm].
    """

    name: str
    kind: str
    length: float
    tolerance: float
    start: Point
    end: Point
    basis: str


@dataclass(frozen=True)
class Outline:
    """One part as it is seen from above: closed lines [mm], and whether it lies on the bench."""

    part: str
    member: int
    lines: tuple[Line, ...]
    axes: tuple[Line, ...]
    low: float
    high: float
    placed: Point


@dataclass(frozen=True)
class BenchPlan:
    """One set-up on the bench.

    corner: the named corner of the bench from which holes and lengths are counted. turn: quarter turns of the parts.
    origin: the hole or the distances nearest to the part's own corner. steps: order of placing, in words.
    made: specially made blocks between stops and parts; bound: how few there can be at least; proven: that they agree,
    and that the spacers have as few lengths as can be.
    conditioning: smallest singular value of the base's locating Jacobian, 1 at best for a square one.
    """

    subassembly: Subassembly
    bench: str
    corner: str
    size: Point
    holes: tuple[Point, ...]
    hole_names: tuple[str, ...]
    hole_diameter: float
    turn: int
    stops: tuple[Stop, ...]
    blocks: tuple[Block, ...]
    supports: tuple[Support, ...]
    spacers: tuple[Spacer, ...]
    squares: tuple[SquareUp, ...]
    clamps: tuple[Clamp, ...]
    steps: tuple[str, ...]
    checks: tuple[Check, ...]
    outlines: tuple[Outline, ...]
    made: int
    bound: int
    proven: bool
    conditioning: float
    overhang: float
    findings: tuple[Finding, ...] = field(default=())

    @property
    def name(self) -> str:
        """The subassembly's name."""
        return self.subassembly.name
