"""A job as the other rooms see it: lengths are numbers in mm, stock names `Stock`, mistakes already told."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from enum import StrEnum

from fitwright.job.marks import Photo
from fitwright.stock import Stock
from fitwright.units import Style

Point = tuple[float, float, float]


@dataclass(frozen=True)
class Where:
    """Where in the job file a thing stands: its dotted name and its line, for messages."""

    name: str
    line: int


class Drawn(StrEnum):
    """What the points of a path lie on."""

    CENTRE = "centre"
    OUTSIDE = "outside"


class End(StrEnum):
    """How the maker wants an end of a member; AUTO is found from what the end meets."""

    AUTO = "auto"
    FREE = "free"
    SQUARE = "square"
    LEVEL = "level"
    PLUMB = "plumb"
    FLATTENED = "flattened"


@dataclass(frozen=True)
class Along:
    """Repeat by translation: offsets [mm] along an axis 0, 1 or 2."""

    axis: int
    offsets: tuple[float, ...]


@dataclass(frozen=True)
class Around:
    """Repeat by turning `count` times, evenly over the full turn, about a vertical line through (x, y) [mm]."""

    x: float
    y: float
    count: int


@dataclass(frozen=True)
class Mirror:
    """Keep the part and add its mirror image across the plane where coordinate `axis` is `at` [mm]."""

    axis: int
    at: float


Placing = Along | Around | Mirror


@dataclass(frozen=True)
class Butt:
    """A closed member's butt: at `fraction` of the first leg's straight, with its sleeve, if any, and length [mm]."""

    fraction: float = 0.5
    sleeve: Stock | None = None
    length: float | None = None


@dataclass(frozen=True)
class MemberSpec:
    """A member as drawn.

    points: vertices [mm]; radii: bend radius at each vertex [mm], 0 for a sharp (mitred) corner and at open ends.
    ring: True when the closed path is one full circle, to be rolled.
    legs: for angle, the two directions in which the legs leave the heel; wide: for flat, rectangular tube and lumber,
    the direction of the wider side; both as vectors, None when not said.
    follows: what line of the section the path is: "centre", "heel", or directions of the faces that it runs on.
    """

    name: str
    where: Where
    stock: Stock
    points: tuple[Point, ...]
    radii: tuple[float, ...]
    drawn: Drawn = Drawn.CENTRE
    closed: bool = False
    ring: bool = False
    legs: tuple[Point, Point] | None = None
    wide: Point | None = None
    follows: str | tuple[Point, ...] = "centre"
    ends: tuple[End, End] = (End.AUTO, End.AUTO)
    butt: Butt = Butt()
    placings: tuple[Placing, ...] = ()
    fastened: str = "welded"


class PanelKind(StrEnum):
    """Slats on battens, one solid board or glued-up top, or sheet."""

    SLATS = "slats"
    SOLID = "solid"
    SHEET = "sheet"


@dataclass(frozen=True)
class Battens:
    """Cross pieces under the slats: stock, how many, distance of the first from the end of the boards [mm]."""

    stock: Stock
    count: int
    inset: float
    length: float | None = None


@dataclass(frozen=True)
class PanelSpec:
    """A flat rectangular panel from one corner to the opposite one.

    low, high: corners of the face that rests (the lower face of a level panel) [mm]; they agree in one coordinate,
    `normal`, toward which (sign `grows`, +1 or -1) the thickness goes. along: axis of the grain or of the boards.
    removable: direction in which it is taken out (a unit vector), None when fixed. gap: wanted between slats [mm].
    """

    name: str
    where: Where
    kind: PanelKind
    stock: Stock
    low: Point
    high: Point
    normal: int
    grows: int
    along: int
    gap: float = 0.0
    battens: Battens | None = None
    removable: Point | None = None
    placings: tuple[Placing, ...] = ()
    fastened: str = "rests"


@dataclass(frozen=True)
class HardwareSpec:
    """Bought things: kind is caster, foot, screw, bolt, anchor or fitting; at: points [mm].

    A caster or foot is placed by the point on top, where it is fixed; its height goes down from there.
    properties: what is known of it, in mm, N, kg and plain words: wheel, width, height, lead (swivel offset), rated,
    diameter, thread, length, size, swivel, brake, size_x, size_y, size_z.
    """

    name: str
    where: Where
    kind: str
    at: tuple[Point, ...]
    label: str
    properties: Mapping[str, float | str | bool]
    mass: float = 0.0
    price: Decimal | None = None
    each: int = 1
    placings: tuple[Placing, ...] = ()


@dataclass(frozen=True)
class OpeningSpec:
    """A box that every part must keep clear (a bin, a drawer, knees): opposite corners [mm]."""

    name: str
    where: Where
    low: Point
    high: Point
    placings: tuple[Placing, ...] = ()


PartSpec = MemberSpec | PanelSpec | HardwareSpec | OpeningSpec


@dataclass(frozen=True)
class JointSpec:
    """An override: how the two named parts meet.

    kind: "mitre", "through" (the first runs through, the second is trimmed to it), "butt", "bolted", "lap", "cross" or
    "none".
    """

    where: Where
    between: tuple[str, str]
    kind: str
    sleeve: Stock | None = None
    length: float | None = None


@dataclass(frozen=True)
class Loads:
    """Loads by part name [N], each spread over the part; a horizontal push [N] at a height [mm]."""

    on: Mapping[str, float] = field(default_factory=dict)
    push: float | None = None
    push_height: float | None = None


@dataclass(frozen=True)
class Rules:
    """The job's own rules: safety factor on yield, tight margin as a fraction of the limit, sag limit as span/N.

    chance: the least chance that each demand on the finished piece is to have; rock: how far a foot may be off the
    floor [mm], None for the usual; care: what is done while making so that it comes out right.
    """

    safety: float = 1.67
    tight: float = 0.10
    sag: float = 240.0
    clear_tight: float = 3.0
    chance: float = 0.95
    rock: float | None = None
    care: tuple[str, ...] = ()


@dataclass(frozen=True)
class Brief:
    """Client's side of the job."""

    use: str = ""
    loads: Loads = Loads()
    rules: Rules = Rules()
    budget: Decimal | None = None
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True)
class Neighbour:
    """Something beside the place; match: what must agree ("height" or "depth") and the job's value for it [mm]."""

    name: str
    where: Where
    side: str
    height: float | None
    depth: float | None
    match: Mapping[str, float]
    within: float


@dataclass(frozen=True)
class Opening:
    """The opening as measured, from the floor up, in pairs of (height, size) [mm].

    widths, depths: (height above the floor, size); tops: (distance from the left wall, height).
    lean: how far each wall (left, right, back) leans into the opening at its full height [mm].
    """

    widths: tuple[tuple[float, float], ...] = ()
    depths: tuple[tuple[float, float], ...] = ()
    tops: tuple[tuple[float, float], ...] = ()
    lean: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True)
class Space:
    """The surveyed place. clear: the gap wanted on each side; stand: the gap at which the piece is set, where said.

    walls: planes that the piece touches, by side (left, right, back), at a piece coordinate [mm].
    """

    opening: Opening | None = None
    clear: Mapping[str, float] = field(default_factory=dict)
    stand: Mapping[str, float] = field(default_factory=dict)
    neighbours: tuple[Neighbour, ...] = ()
    walls: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True)
class Dim:
    """A named dimension: what was written, its value in mm (lengths) or as a plain number, and which it is."""

    name: str
    text: str
    value: float
    is_length: bool
    uses: tuple[str, ...]
    line: int


@dataclass(frozen=True)
class Job:
    """One commission, resolved."""

    name: str
    client: str
    style: Style
    due: date | None
    notes: str
    brief: Brief
    space: Space
    dims: Mapping[str, Dim]
    stock: Mapping[str, Stock]
    parts: tuple[PartSpec, ...]
    joints: tuple[JointSpec, ...]
    finish: Mapping[str, str]
    photo: Photo | None = None
    readings: Mapping[str, object] = field(default_factory=dict)
