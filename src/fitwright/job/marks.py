"""What a maker marks on the reference photo, as the other rooms see it: pixels on the picture, lengths in mm.

Pixels count from the centre of the top left one, u to the right and v down, on the picture turned upright.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from fitwright.job.arithmetic import Formula

Direction = str
"""x, y or z of the piece, or a name that the maker gives to another direction of parallel edges."""

STRAIGHT = "straight"
"""Instead of a direction: an edge known to be straight and no more, which tells of the lens."""

AXES = ("x", "y", "z")
FLOOR = "floor"


@dataclass(frozen=True)
class Spot:
    """A place on the picture. click: spread (one sigma) of the click [px], where it is not the photo's own.

    place: the same point on the piece [mm], where it is known, for laying the piece over the picture.
    """

    u: float
    v: float
    click: float | None = None
    place: tuple[float, float, float] | None = None


@dataclass(frozen=True)
class EdgeMark:
    """An edge that runs along a direction, marked at two or more spots. snap: find the edge itself in the picture."""

    along: Direction
    spots: tuple[str, ...]
    snap: bool = False


@dataclass(frozen=True)
class PlaneMark:
    """A plane square to an axis, and the spots that lie in it; the one called floor is where heights begin."""

    across: str
    spots: tuple[str, ...]


@dataclass(frozen=True)
class Length:
    """From one spot to another.

    along: the line between them runs in this direction, which is a mark too. across: only how far apart they are in
    this direction. Neither: the straight distance.
    """

    start: str
    finish: str
    along: Direction | None = None
    across: Direction | None = None


@dataclass(frozen=True)
class Height:
    """How high a spot is over the one straight below it on the floor."""

    top: str
    foot: str


@dataclass(frozen=True)
class Spacing:
    """The even step of three or more repeated members, marked in order at the same place of each, along an axis."""

    spots: tuple[str, ...]
    along: str


@dataclass(frozen=True)
class Arc:
    """The radius of an arc that lies in a marked plane, from five or more spots along it."""

    spots: tuple[str, ...]
    plane: str


@dataclass(frozen=True)
class Tube:
    """The diameter of a round tube from its two outlines; through: a spot on the middle line of the tube."""

    sides: tuple[tuple[str, ...], tuple[str, ...]]
    along: Direction
    through: str


Quantity = Length | Height | Spacing | Arc | Tube


@dataclass(frozen=True)
class Known:
    """A quantity measured on the real thing [mm], and the spread (one sigma) of that."""

    quantity: Quantity
    value: float
    sigma: float


@dataclass(frozen=True)
class DimMark:
    """A dim of the job, or a size of its stock such as frame.od, that is proposed from the photo.

    text, formula: arithmetic on measures. held: it stays as it is in the job, and the others follow it.
    keep: the dim to which its proportion matters most; weight: how much, 1 the usual. least, most: bounds [mm].
    fits: the side of the surveyed opening (width, depth, height) in which it has to find room. step: what it is rounded
    to [mm]; None for a shop's usual one.
    """

    name: str
    text: str
    formula: Formula
    held: bool = False
    keep: str | None = None
    weight: float = 1.0
    least: float | None = None
    most: float | None = None
    fits: str | None = None
    step: float | None = None


@dataclass(frozen=True)
class LensMark:
    """What is known of the camera: focal length [px], that of a 35 mm camera with the same view [mm], centre [px].

    barrel: a straight line's bow as in `place.photo.lens`, 0 for a picture already straightened.
    """

    focal: float | None = None
    focal_35mm: float | None = None
    centre: tuple[float, float] | None = None
    barrel: float | None = None


@dataclass(frozen=True)
class Photo:
    """The marks on one photograph. picture: its file, beside the job file; size: width and height [px] without it.

    click: spread (one sigma) of a click [px]; None: what is usual for the size of the picture.
    cropped: whether the edges of the picture were cut off; None: not known. same_size: the new piece is to be as large
    as the old one where no held dim decides.
    """

    picture: str = ""
    size: tuple[int, int] | None = None
    click: float | None = None
    lens: LensMark = LensMark()
    cropped: bool | None = None
    spots: Mapping[str, Spot] = field(default_factory=dict)
    edges: tuple[EdgeMark, ...] = ()
    planes: Mapping[str, PlaneMark] = field(default_factory=dict)
    known: Mapping[str, Known] = field(default_factory=dict)
    measures: Mapping[str, Quantity] = field(default_factory=dict)
    dims: Mapping[str, DimMark] = field(default_factory=dict)
    same_size: bool = False
