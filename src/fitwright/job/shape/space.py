"""Shapes of the space section: the opening as measured, gaps, neighbours, walls."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, Tag

from fitwright.job.shape.values import LengthText, OneOf, Shape, by_form


class MeasuredShape(Shape):
    """One measurement of an opening."""

    at: LengthText = Field(
        description="Where it was taken: height above the floor, or for a height the distance from the left."
    )
    size: LengthText = Field(alias="is", description="What was measured.")


MeasuredItem = Annotated[Annotated[LengthText, Tag("<value>")] | Annotated[MeasuredShape, Tag("<mapping>")], by_form]
Measured = Annotated[Annotated[LengthText, Tag("<value>")] | Annotated[list[MeasuredItem], Tag("<list>")], by_form]


class LeanShape(Shape):
    """How far each wall leans into the opening, from the floor to its full height; negative: out of it."""

    left: LengthText | None = None
    right: LengthText | None = None
    back: LengthText | None = None


class OpeningShape(Shape):
    """space.opening: several measurements, for an opening is never square."""

    width: Measured | None = Field(
        None, description="One size; or [bottom, middle, top]; or a list of {at: height, is: size}."
    )
    depth: Measured | None = Field(
        None, description="One size; or [bottom, middle, top]; or a list of {at: height, is: size}."
    )
    height: Measured | None = Field(
        None, description="One size; or [left, middle, right]; or a list of {at: distance from the left, is: size}."
    )
    lean: LeanShape | None = Field(None, description="How far each wall leans in over its full height.")


class ClearShape(Shape):
    """space.clear: the gap wanted on each side."""

    left: LengthText | None = None
    right: LengthText | None = None
    back: LengthText | None = None
    front: LengthText | None = None
    top: LengthText | None = None


class StandShape(Shape):
    """space.stand: the gap at which the piece is set, on one side or the other."""

    left: LengthText | None = None
    right: LengthText | None = None
    back: LengthText | None = None


class MatchShape(Shape):
    """What of the piece has to agree with the neighbour's own."""

    height: LengthText | None = Field(None, description="The piece's height that must equal the neighbour's.")
    depth: LengthText | None = Field(None, description="The piece's depth that must equal the neighbour's.")


class NeighbourShape(Shape):
    """Something that stands beside the place."""

    side: Annotated[str, OneOf(("left", "right", "back"))] = Field(description="On which side it stands.")
    height: LengthText | None = Field(None, description="How high it is.")
    depth: LengthText | None = Field(None, description="How deep it is.")
    match: MatchShape | None = Field(None, description="What has to agree with it.")
    within: LengthText | None = Field(None, description="How nearly; 1/8 in or 3 mm when not given.")


class WallsShape(Shape):
    """space.walls: walls that the piece touches, at a coordinate of the piece."""

    back: LengthText | None = None
    left: LengthText | None = None
    right: LengthText | None = None


class SpaceShape(Shape):
    """space: the surveyed place."""

    opening: OpeningShape | None = Field(None, description="The opening, as measured.")
    clear: ClearShape | None = Field(None, description="The gap wanted on each side.")
    stand: StandShape | None = Field(None, description="The gap at which the piece is set.")
    neighbours: dict[str, NeighbourShape] = Field({}, description="What stands beside it, by name.")
    walls: WallsShape | None = Field(None, description="Walls that the piece touches.")
