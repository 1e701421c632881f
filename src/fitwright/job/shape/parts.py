"""Shapes of the parts: members, panels, hardware and openings to keep clear. The kind is found from the keys."""

from __future__ import annotations

from itertools import islice
from typing import Annotated

from pydantic import Discriminator, Field, Tag

from fitwright.job.mistakes import nearest
from fitwright.job.shape.values import (
    DIRECTION_WORDS,
    Axis,
    CountText,
    Direction,
    LengthText,
    LoadText,
    MassText,
    MoneyText,
    OneOf,
    Point,
    PointOnPlan,
    Shape,
    ShareText,
    StockName,
    Switch,
    Text,
    by_form,
)
from fitwright.job.written import Listed, Mapped

END_WORDS = ("auto", "free", "square", "level", "plumb", "flattened")
FASTENED = ("welded", "bolted", "screwed", "rests")

KIND_KEYS = {
    "member": ("path", "outside", "ring"),
    "panel": ("slats", "solid", "sheet"),
    "hardware": ("caster", "foot", "screw", "bolt", "anchor", "fitting"),
    "opening": ("opening",),
}
"""By kind of part, the keys of which a part of that kind has exactly one."""

TRIED_KEYS = 4

KIND_OF_KEY = {key: kind for kind, keys in KIND_KEYS.items() for key in keys}


class EveryShape(Shape):
    """Offsets at even steps."""

    start: LengthText | None = Field(None, alias="from", description="The first offset; 0 when not given.")
    every: LengthText = Field(description="The step.")
    count: CountText = Field(description="How many, the first one counted.")


Offsets = Annotated[
    Annotated[list[LengthText], Tag("<list>")] | Annotated[EveryShape, Tag("<mapping>")],
    by_form("offsets such as [0, 10, 30], or even steps such as {every: 10, count: 3}"),
]


class SlantedShape(Shape):
    """Moved by even steps in any direction."""

    every: Point = Field(description="The step, [x, y, z].")
    count: CountText = Field(description="How many, the first one counted.")


class AroundShape(Shape):
    """Turned about a vertical line, evenly over the full turn."""

    centre: PointOnPlan = Field(description="Where the line stands on plan, [x, y].")
    count: CountText = Field(description="How many, the first one counted.")


class RepeatShape(Shape):
    """Copies by moving; several axes make a grid."""

    x: Offsets | None = Field(None, description="Offsets to the right: a list, or {from, every, count}.")
    y: Offsets | None = Field(None, description="Offsets to the back: a list, or {from, every, count}.")
    z: Offsets | None = Field(None, description="Offsets upward: a list, or {from, every, count}.")
    slanted: SlantedShape | None = Field(None, description="Even steps in any direction, as the rungs of a ladder.")
    around: AroundShape | None = Field(None, description="Copies by turning about a vertical line.")


class MirrorShape(Shape):
    """Mirror images beside the part itself; two axes make four."""

    x: LengthText | None = Field(None, description="Where the mirror stands, as x.")
    y: LengthText | None = Field(None, description="Where the mirror stands, as y.")
    z: LengthText | None = Field(None, description="Where the mirror lies, as z.")


class PlacedShape(Shape):
    """What every kind of part may have."""

    repeat: RepeatShape | None = Field(None, description="Copies of the part.")
    mirror: MirrorShape | None = Field(None, description="Mirror images of the part and its copies.")


class RingShape(Shape):
    """A full circle."""

    centre: Point = Field(description="Its centre, [x, y, z].")
    diameter: LengthText | None = Field(None, description="Of the centreline. Give this or radius.")
    radius: LengthText | None = Field(None, description="Of the centreline. Give this or diameter.")
    axis: Axis = Field("z", description="The axis it turns about; z makes a level ring.")


class ButtShape(Shape):
    """Where a closed member's two ends meet."""

    at: ShareText | None = Field(None, description="Share of the straight of the first leg; 1/2 when not given.")
    sleeve: StockName | None = Field(None, description="The stock of the sleeve inside.")
    length: LengthText | None = Field(None, description="Length of the sleeve.")


class StartFinishShape(Shape):
    """The ends of a member, each by itself."""

    start: Annotated[str, OneOf(END_WORDS)] = "auto"
    finish: Annotated[str, OneOf(END_WORDS)] = "auto"


EndWord = Annotated[str, OneOf(END_WORDS)]
Ends = Annotated[
    Annotated[EndWord, Tag("<value>")]
    | Annotated[StartFinishShape, Tag("<mapping>")]
    | Annotated[Annotated[list[EndWord], Field(min_length=2, max_length=2)], Tag("<list>")],
    by_form("one word such as square, two such as [square, free], or {start: square, finish: free}"),
]
Radius = Annotated[
    Annotated[LengthText, Tag("<value>")] | Annotated[list[LengthText], Tag("<list>")],
    by_form("one length for every corner, or a list such as [4, 0, 4]"),
]
DIRECTION_OR_LINE = ("centre", "heel", *DIRECTION_WORDS[:6])

Follows = Annotated[
    Annotated[Text, Tag("<value>")] | Annotated[list[Direction], Tag("<list>")],
    by_form("centre, heel or one side, or a list of sides such as [left, back]"),
]


class MemberShape(PlacedShape):
    """A member: one section along a path."""

    stock: StockName = Field(description="Which stock it is made of: a short name under stock.")
    path: Annotated[list[Point], Field(min_length=2)] | None = Field(
        None, description="Points [x, y, z] on the centreline."
    )
    outside: Annotated[list[Point], Field(min_length=2)] | None = Field(
        None, description="Points [x, y, z] on the outside faces, as overall sizes are measured."
    )
    ring: RingShape | None = Field(None, description="A full circle, rolled.")
    radius: Radius | None = Field(
        None,
        description="Bend radius of the centreline: one for all corners, or a list for each in order (0: mitred).",
    )
    corners: Annotated[str, OneOf(("mitred",))] | None = Field(
        None, description="mitred: the same as radius 0, and what holds without a radius."
    )
    closed: Switch = Field(False, description="Whether the path runs back to its first point.")
    legs: Annotated[list[Direction], Field(min_length=2, max_length=2)] | None = Field(
        None, description="For angle: the two directions in which the legs leave the heel."
    )
    wide: Direction | None = Field(
        None, description="For flat, rectangular tube and lumber: where the wider side points."
    )
    follows: Follows | None = Field(
        None,
        description="What runs along the path: centre, heel (angle, its default), or the face or faces, as directions.",
    )
    ends: Ends | None = Field(
        None, description=f"How the ends are cut: {', '.join(END_WORDS)}; one word, two, or {{start, finish}}."
    )
    butt: ButtShape | None = Field(None, description="Where a closed member's ends meet, and the sleeve in it.")
    fastened: Annotated[str, OneOf(("welded", "bolted"))] = Field("welded", description="How it is held.")


class BattensShape(Shape):
    """Cross pieces under slats."""

    stock: StockName = Field(description="Which stock.")
    count: CountText | None = Field(None, description="How many; 2 when not given.")
    inset: LengthText | None = Field(None, description="From the end of the boards to the first batten; 2 in or 50 mm.")
    length: LengthText | None = Field(None, description="Their length; the panel's width when not given.")


class PanelShape(PlacedShape):
    """A flat rectangular panel: slats, a solid board, or sheet."""

    slats: StockName | None = Field(None, description="Boards side by side, of this stock.")
    solid: StockName | None = Field(None, description="One board or glued-up top, of this stock.")
    sheet: StockName | None = Field(None, description="Sheet or plywood, of this stock.")
    low: Point = Field(alias="from", description="One corner of the face that rests.")
    high: Point = Field(
        alias="to", description="The opposite corner; it agrees with the first in exactly one coordinate."
    )
    grows: Direction | None = Field(
        None, description="Where the thickness goes from the face that rests; up when not given."
    )
    along: Axis | None = Field(None, description="Where boards or grain run; the longer side when not given.")
    gap: LengthText | None = Field(None, description="Wanted between slats; 0 when not given.")
    battens: BattensShape | None = Field(None, description="Cross pieces under slats.")
    removable: Direction | None = Field(None, description="The direction in which it is taken out.")
    fastened: Annotated[str, OneOf(FASTENED)] = Field("rests", description="How it is held.")


class BoughtShape(Shape):
    """What every piece of hardware may say of itself."""

    label: Text | None = Field(None, description="What to call it on the buying list.")


class CasterShape(BoughtShape):
    """A caster, placed by the point on top where it is fixed."""

    wheel: LengthText | None = Field(None, description="Wheel diameter.")
    width: LengthText | None = Field(None, description="Wheel width.")
    height: LengthText = Field(description="From the floor to where it is fixed.")
    lead: LengthText | None = Field(None, description="From the swivel's axis to the wheel's.")
    rated: LoadText | None = Field(None, description="Load that it is rated for.")
    swivel: Switch | None = Field(None, description="Whether it swivels.")
    brake: Switch | None = Field(None, description="Whether it has a brake.")
    thread: Text | None = Field(None, description="Its stem's thread, as 3/8-16 or M10.")
    size_x: LengthText | None = Field(None, description="Plate size left to right.")
    size_y: LengthText | None = Field(None, description="Plate size front to back.")


class FootShape(BoughtShape):
    """A foot or glide, placed by the point on top where it is fixed."""

    height: LengthText = Field(description="From the floor to where it is fixed.")
    diameter: LengthText | None = Field(None, description="Of the pad.")
    thread: Text | None = Field(None, description="Its stem's thread, as 3/8-16 or M10.")
    length: LengthText | None = Field(None, description="Of the stem.")
    rated: LoadText | None = Field(None, description="Load that it is rated for.")


class FastenerShape(BoughtShape):
    """A screw, bolt or anchor."""

    size: Text | None = Field(None, description="As it is bought, such as '#8 x 1 1/4' (in quotes) or M8 x 60.")
    length: LengthText | None = Field(None, description="Its length.")
    diameter: LengthText | None = Field(None, description="Its diameter.")
    thread: Text | None = Field(None, description="Its thread, as 1/4-20 or M6.")
    rated: LoadText | None = Field(None, description="Load that it is rated for.")


class FittingShape(BoughtShape):
    """Anything else that is bought: a hook, a hinge, a bracket; a box of its size stands where it is."""

    size: Text | None = Field(None, description="As it is bought.")
    length: LengthText | None = Field(None, description="Its length.")
    diameter: LengthText | None = Field(None, description="Its diameter.")
    height: LengthText | None = Field(None, description="Its height.")
    thread: Text | None = Field(None, description="Its thread.")
    rated: LoadText | None = Field(None, description="Load that it is rated for.")
    size_x: LengthText | None = Field(None, description="Size left to right.")
    size_y: LengthText | None = Field(None, description="Size front to back.")
    size_z: LengthText | None = Field(None, description="Size upward.")


Fastener = Annotated[
    Annotated[Text, Tag("<value>")] | Annotated[FastenerShape, Tag("<mapping>")],
    by_form("its size in words, or keys such as {thread: M6, length: 40 mm}"),
]
Fitting = Annotated[
    Annotated[Text, Tag("<value>")] | Annotated[FittingShape, Tag("<mapping>")],
    by_form("its name in words, or keys such as {label: hook, height: 30 mm}"),
]


def _one_or_many(value: object) -> str | None:
    """Whether a place is one point or a list of points."""
    return "<points>" if isinstance(value, Listed) and value and isinstance(value[0], Listed) else "<point>"


Places = Annotated[
    Annotated[Point, Tag("<point>")] | Annotated[list[Point], Tag("<points>")], Discriminator(_one_or_many)
]


class HardwareShape(PlacedShape):
    """Bought things: exactly one of caster, foot, screw, bolt, anchor, fitting."""

    caster: CasterShape | None = Field(None, description="A caster; `at` is the point on top, where it is fixed.")
    foot: FootShape | None = Field(None, description="A foot; `at` is the point on top, where it is fixed.")
    screw: Fastener | None = Field(None, description="A screw: its size, or what is known of it.")
    bolt: Fastener | None = Field(None, description="A bolt: its size, or what is known of it.")
    anchor: Fastener | None = Field(None, description="A wall or floor anchor: its size, or what is known of it.")
    fitting: Fitting | None = Field(None, description="Anything else: its name, or what is known of it.")
    at: Places | None = Field(None, description="Where: one point or a list of points.")
    count: CountText | None = Field(None, description="How many at each point; 1 when not given.")
    mass: MassText | None = Field(None, description="Mass of one.")
    price: MoneyText | None = Field(None, description="Price of one.")


class BoxShape(Shape):
    """A box by two opposite corners."""

    low: Point = Field(alias="from", description="One corner.")
    high: Point = Field(alias="to", description="The opposite corner.")


class OpeningPartShape(PlacedShape):
    """A box that every part must keep clear: a bin, a drawer, knees."""

    opening: BoxShape = Field(description="The box.")


def kinds_in(part: Mapped) -> tuple[str, ...]:
    """The kinds that a part's keys say it is; a good part has one."""
    return tuple(dict.fromkeys(KIND_OF_KEY[key] for key in part if key in KIND_OF_KEY))


def tried_keys(part: Mapped) -> tuple[str, ...]:
    """The keys of a part of no kind that may be a kind misspelt: the first few that no part has."""
    return tuple(islice((key for key in part if key not in MemberShape.model_fields), TRIED_KEYS))


def kind_of(value: object) -> str | None:
    """The kind of a part by its keys, or by what a key was meant to be; what pydantic picks a shape by."""
    if not isinstance(value, Mapped):
        return "member"
    kinds = kinds_in(value)
    if kinds:
        return kinds[0]
    meant = (nearest(key, KIND_OF_KEY) for key in tried_keys(value))
    return next((KIND_OF_KEY[key] for key in meant if key), "member")


SHAPE_OF_KIND: dict[str, type[PlacedShape]] = {
    "member": MemberShape,
    "panel": PanelShape,
    "hardware": HardwareShape,
    "opening": OpeningPartShape,
}

PartShape = Annotated[
    Annotated[MemberShape, Tag("member")]
    | Annotated[PanelShape, Tag("panel")]
    | Annotated[HardwareShape, Tag("hardware")]
    | Annotated[OpeningPartShape, Tag("opening")],
    Discriminator(kind_of),
]
