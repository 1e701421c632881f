"""A job as the other rooms see it: lengths are numbers in mm, stock names `Stock`, mistakes already told."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from enum import StrEnum

from fitwright.job.marks import Photo
from fitwright.job.obstacles import Way
from fitwright.job.price import PriceSpec
from fitwright.job.progress import Progress
from fitwright.job.readings import Reading
from fitwright.job.subassemblies import SubassemblySpec
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
class Slanted:
    """Repeat by `count` even steps of (x, y, z) [mm], the first one as drawn: the rungs of a ladder that leans."""

    step: Point
    count: int


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


Placing = Along | Slanted | Around | Mirror


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
class RollsOver:
    """What casters have to cross [mm]: a threshold's height, a gap's width; None where nothing is said."""

    threshold: float | None = None
    gap: float | None = None


@dataclass(frozen=True)
class Brief:
    """Client's side of the job."""

    use: str = ""
    loads: Loads = Loads()
    rules: Rules = Rules()
    budget: Decimal | None = None
    cautions: tuple[str, ...] = ()
    rolls_over: RollsOver = RollsOver()


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
class Measured:
    """One measured size of an opening [mm].

    what: "width", "depth" or "height"; at: its height above the floor, for a height its distance from the left;
    station: how far from the front it was taken, for a depth how far from the left; within: what it is known to, 19
    times in 20, None for what a tape is good for.
    """

    what: str
    at: float
    size: float
    station: float = 0.0
    within: float | None = None


@dataclass(frozen=True)
class PlanSurvey:
    """The opening's outline from above, measured at one height [mm].

    lengths: front, back, left, right, and the diagonals "front left to back right" and "front right to back left".
    """

    lengths: Mapping[str, float]
    at: float = 0.0


@dataclass(frozen=True)
class Opening:
    """The opening as measured, from the floor up, in pairs of (height, size) [mm].

    widths, depths: (height above the floor, size); tops: (distance from the left wall, height); the smallest where
    several were measured at one place. lean: how far each wall (left, right, back) leans into the opening at its full
    height [mm]. measures: every size by itself. skew: how far each wall runs into the opening from its front end to its
    back end, the back wall from its left end to its right end [mm].
    """

    widths: tuple[tuple[float, float], ...] = ()
    depths: tuple[tuple[float, float], ...] = ()
    tops: tuple[tuple[float, float], ...] = ()
    lean: Mapping[str, float] = field(default_factory=dict)
    measures: tuple[Measured, ...] = ()
    skew: Mapping[str, float] = field(default_factory=dict)
    plan: PlanSurvey | None = None


@dataclass(frozen=True)
class Thing:
    """A box in the place: a pipe, an outlet, a sill, a step [mm], in the opening's coordinates.

    on: the wall that it is on, None for none; low and high then count along the wall from its left or front end, up,
    and out from the wall. reach: the side from which it must stay in reach, None where it need not; room: for the hand
    in front of it, None for the usual.
    """

    name: str
    where: Where
    low: Point
    high: Point
    on: str | None = None
    reach: str | None = None
    room: float | None = None


@dataclass(frozen=True)
class Door:
    """A leaf that swings over the floor: hinge (x, y) [mm], where it lies when shut, how it opens, how far [rad]."""

    name: str
    where: Where
    hinge: tuple[float, float]
    width: float
    height: float
    thickness: float
    shut: str
    opens: str
    turns: float


@dataclass(frozen=True)
class Skirting:
    """A board along the foot of walls: how high and how thick [mm], on which of left, right and back."""

    height: float
    thickness: float
    on: tuple[str, ...]


@dataclass(frozen=True)
class Space:
    """The surveyed place. clear: the gap wanted on each side; stand: the gap at which the piece is set, where said.

    route: what stands on the way from the shop, in order.
    walls: planes that the piece touches, by side (left, right, back), at a piece coordinate [mm]. within: what a length
    of the survey is known to, 19 times in 20, None for what a tape is good for. floor: heights of the floor at places,
    ((x, y), height); uneven: how far it may be off between them. aisle: free floor before the opening. clean: room
    wanted below and behind for cleaning. level: how far out of level it may stand, over its longer side.
    """

    opening: Opening | None = None
    clear: Mapping[str, float] = field(default_factory=dict)
    stand: Mapping[str, float] = field(default_factory=dict)
    neighbours: tuple[Neighbour, ...] = ()
    walls: Mapping[str, float] = field(default_factory=dict)
    within: float | None = None
    floor: tuple[tuple[tuple[float, float], float], ...] = ()
    uneven: float | None = None
    aisle: float | None = None
    skirting: Skirting | None = None
    things: tuple[Thing, ...] = ()
    doors: tuple[Door, ...] = ()
    clean: Mapping[str, float] = field(default_factory=dict)
    level: float | None = None
    route: Way = ()


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
    price: PriceSpec = field(default_factory=PriceSpec)
    readings: tuple[Reading, ...] = ()
    subassemblies: tuple[SubassemblySpec, ...] = ()
    progress: tuple[Progress, ...] = ()
