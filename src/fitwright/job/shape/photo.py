"""Shapes of the photo section: spots, edges, planes, known lengths and measures, in pixels and in the job's unit."""

from __future__ import annotations

from typing import Annotated

from pydantic import Discriminator, Field, Tag

from fitwright.job.shape.values import (
    Axis,
    Fixed,
    LengthText,
    NumberText,
    OneOf,
    Point,
    Shape,
    Switch,
    Text,
    by_form,
)
from fitwright.job.written import Mapped

SIDES_OF_OPENING = ("width", "depth", "height")

Pixel = Annotated[list[NumberText], Fixed(2, "a place on the picture [u, v]")]
Mark = Annotated[
    Annotated[Text, Tag("<value>")] | Annotated[Pixel, Tag("<list>")],
    by_form("the name of a spot, or a place on the picture [u, v]"),
]
Marks = list[Mark]


class SpotShape(Shape):
    """photo.spots: a place on the picture with more said about it."""

    at: Pixel = Field(description="Pixels from the left and from the top of the upright picture.")
    place: Point | None = Field(None, alias="is", description="The same point on the piece, to lay it over the photo.")
    click: NumberText | None = Field(None, description="How well this one is marked, in pixels (one sigma).")


class EdgeShape(Shape):
    """photo.edges: an edge of known direction, marked at two or more spots along it."""

    along: Text = Field(description="x, y or z; straight where no more is known; or a name of your own, for a slant.")
    marks: Marks = Field(description="Spots by name, or as [u, v]; more than two tell of the lens.")
    snap: Switch = Field(False, description="Look for the edge itself in the picture, near the marks.")


class PlaneShape(Shape):
    """photo.planes: spots that lie in one plane."""

    across: Axis = Field(description="The axis that goes straight through the plane; z for a level one.")
    marks: Marks = Field(description="Spots by name, or as [u, v].")


class LensShape(Shape):
    """photo.lens: what is known of the camera, where the picture itself does not say it."""

    focal: NumberText | None = Field(None, description="Focal length in pixels.")
    focal_35mm: NumberText | None = Field(None, description="Focal length on 35 mm film with the same view, in mm.")
    centre: Pixel | None = Field(None, description="Where the axis of the lens meets the picture.")
    barrel: NumberText | None = Field(
        None, description="How far the corner is drawn in: -0.05 for 5 %; 0 for a picture already straightened."
    )


class LengthShape(Shape):
    """A length from one spot to another."""

    start: Mark = Field(alias="from", description="A spot.")
    finish: Mark = Field(alias="to", description="Another spot.")
    along: Text | None = Field(None, description="The direction in which it runs: x, y, z or one of your own.")
    across: Text | None = Field(None, description="Only how far apart the spots are in this direction.")


class HeightShape(Shape):
    """A height over the floor."""

    height: Mark = Field(description="The spot whose height is wanted.")
    foot: Mark = Field(description="The spot on the floor straight below it.")


class SpacingShape(Shape):
    """The even step of repeated members."""

    spacing: Marks = Field(description="The same place on each of three or more, in order.")
    along: Axis = Field(description="The axis along which they are repeated.")


class ArcShape(Shape):
    """The radius of a bend."""

    arc: Marks = Field(description="Five or more spots along the arc.")
    plane: Text = Field(description="The plane, marked under planes, in which it lies.")


class TubeShape(Shape):
    """The diameter of a round tube from its two outlines."""

    sides: Annotated[list[Marks], Fixed(2, "the two sides of a tube")] = Field(description="Spots along each outline.")
    along: Text = Field(description="The direction in which the tube runs.")
    through: Mark = Field(description="A spot on its middle line that edges or planes tie to the rest.")


class SizedShape(Shape):
    """What was measured on the real thing."""

    size: LengthText = Field(alias="is", description="What it measures.")
    within: LengthText | None = Field(None, description="How nearly (95 %); 1/16 in or 1 mm when not given.")


class KnownLengthShape(LengthShape, SizedShape):
    """A known length from one spot to another."""


class KnownHeightShape(HeightShape, SizedShape):
    """A known height over the floor."""


class KnownSpacingShape(SpacingShape, SizedShape):
    """A known step of repeated members."""


class KnownArcShape(ArcShape, SizedShape):
    """A known radius."""


class KnownTubeShape(TubeShape, SizedShape):
    """A tube of known diameter."""


KIND_KEYS = ("height", "spacing", "arc", "sides")


def quantity_of(value: object) -> str:
    """Which quantity a mapping is, by the key that only it has; a length when it has none."""
    if isinstance(value, Mapped):
        return next((f"<{key}>" for key in KIND_KEYS if key in value), "<length>")
    return "<length>"


by_quantity = Discriminator(quantity_of)

Measure = Annotated[
    Annotated[LengthShape, Tag("<length>")]
    | Annotated[HeightShape, Tag("<height>")]
    | Annotated[SpacingShape, Tag("<spacing>")]
    | Annotated[ArcShape, Tag("<arc>")]
    | Annotated[TubeShape, Tag("<sides>")],
    by_quantity,
]
KnownMeasure = Annotated[
    Annotated[KnownLengthShape, Tag("<length>")]
    | Annotated[KnownHeightShape, Tag("<height>")]
    | Annotated[KnownSpacingShape, Tag("<spacing>")]
    | Annotated[KnownArcShape, Tag("<arc>")]
    | Annotated[KnownTubeShape, Tag("<sides>")],
    by_quantity,
]
SpotEntry = Annotated[
    Annotated[Pixel, Tag("<list>")] | Annotated[SpotShape, Tag("<mapping>")],
    by_form("a place on the picture [u, v], or {at: [u, v], is: [x, y, z]}"),
]


class DimMarkShape(Shape):
    """photo.dims: what a dim of the job takes from the photo."""

    shown: Text = Field(alias="from", description="A measure, or arithmetic on measures such as uprights + tube.")
    held: Switch = Field(False, description="It stays as it is in the job, and the others follow it.")
    keep: Text | None = Field(None, description="The dim to which its proportion has to stay as in the photo.")
    weight: NumberText | None = Field(None, description="How much that matters beside the others; 1 is the usual.")
    least: LengthText | None = Field(None, description="The least that will do.")
    most: LengthText | None = Field(None, description="The most that will do.")
    fits: Annotated[str, OneOf(SIDES_OF_OPENING)] | None = Field(
        None, description="The side of the surveyed opening in which it has to find room, with what is kept clear."
    )
    step: LengthText | None = Field(None, description="What it is rounded to; 1/16 in or 1 mm when not given.")


DimEntry = Annotated[
    Annotated[Text, Tag("<value>")] | Annotated[DimMarkShape, Tag("<mapping>")],
    by_form("measures of the photo, or {from: uprights + tube, held: yes}"),
]


class PhotoShape(Shape):
    """photo: the reference photo and what is marked on it."""

    picture: Text | None = Field(None, description="The file of the picture, beside the job file.")
    size: Pixel | None = Field(None, description="Width and height in pixels, where the picture is not at hand.")
    click: NumberText | None = Field(None, description="How well spots are marked, in pixels (one sigma).")
    cropped: Switch | None = Field(None, description="Whether the picture's edges were cut off.")
    lens: LensShape | None = Field(None, description="What is known of the camera.")
    spots: dict[str, SpotEntry] = Field({}, description="Places on the picture by name.")
    edges: list[EdgeShape] = Field([], description="Edges that run along a direction.")
    planes: dict[str, PlaneShape] = Field({}, description="Planes by name; floor is where heights begin.")
    known: dict[str, KnownMeasure] = Field({}, description="What was measured on the real thing, by name.")
    measures: dict[str, Measure] = Field({}, description="What is to be measured, by name.")
    dims: dict[str, DimEntry] = Field(
        {},
        description="Dims of this job, and sizes of its stock such as frame.od, that are proposed from the measures.",
    )
    same_size: Switch = Field(False, description="As large as the old piece, where no held dim decides.")
