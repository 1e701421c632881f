"""Shapes of the space section: the opening as measured, gaps, neighbours, walls."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, Tag

from fitwright.job.shape.route import RouteItem
from fitwright.job.shape.values import (
    Fixed,
    LengthText,
    NumberText,
    OneOf,
    Point,
    PointOnPlan,
    Shape,
    by_form,
)

WALLS = ("left", "right", "back")
FLAT_WORDS = ("left", "right", "front", "back")
REACHED_FROM = (*FLAT_WORDS, "top")


class MeasuredShape(Shape):
    """One measurement of an opening."""

    at: LengthText = Field(
        description="Where it was taken: height above the floor, or for a height the distance from the left."
    )
    size: LengthText = Field(alias="is", description="What was measured.")
    station: LengthText | None = Field(
        None, description="How far from the front it was taken; for a depth how far from the left."
    )
    within: LengthText | None = Field(None, description="How nearly it is known, 19 times in 20.")


MeasuredItem = Annotated[
    Annotated[LengthText, Tag("<value>")] | Annotated[MeasuredShape, Tag("<mapping>")],
    by_form("a length, or {at: height, is: length}"),
]
Measured = Annotated[
    Annotated[LengthText, Tag("<value>")] | Annotated[list[MeasuredItem], Tag("<list>")],
    by_form("one length, or a list such as [33, 33 1/8, 33]"),
]


class LeanShape(Shape):
    """How far each wall leans into the opening, from the floor to its full height; negative: out of it."""

    left: LengthText | None = None
    right: LengthText | None = None
    back: LengthText | None = None


class SkewShape(Shape):
    """How far each wall runs into the opening from its front end to its back end; the back one from left to right."""

    left: LengthText | None = None
    right: LengthText | None = None
    back: LengthText | None = None


class PlanShape(Shape):
    """The opening from above: its sides and diagonals at one height."""

    front: LengthText = Field(description="From front left to front right.")
    back: LengthText = Field(description="From back left to back right.")
    left: LengthText = Field(description="From front left to back left.")
    right: LengthText = Field(description="From front right to back right.")
    diagonals: Annotated[list[LengthText], Field(min_length=1, max_length=2)] = Field(
        description="From front left to back right, then from front right to back left."
    )
    at: LengthText | None = Field(None, description="Height above the floor; on the floor when not given.")


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
    skew: SkewShape | None = Field(
        None, description="How far each wall runs in from front to back, the back one from left to right."
    )
    plan: PlanShape | None = Field(None, description="Sides and diagonals from above, in place of skew.")


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


class LevelShape(Shape):
    """The height of the floor at one place."""

    at: PointOnPlan = Field(description="From the left wall and from the front line.")
    height: LengthText = Field(alias="is", description="How high the floor is there; level with 0, higher is more.")


class SkirtingShape(Shape):
    """space.skirting: a board along the foot of the walls."""

    height: LengthText = Field(description="How high.")
    thickness: LengthText = Field(description="How far it stands out from the wall.")
    on: Annotated[list[Annotated[str, OneOf(WALLS)]], Field(min_length=1)] = Field(description="Along which walls.")


class ThingShape(Shape):
    """A box in the place: by two corners, or on a wall by its lower corner and its size."""

    low: Point | None = Field(None, alias="from", description="One corner: from the left, from the front, up.")
    high: Point | None = Field(None, alias="to", description="The opposite corner.")
    on: Annotated[str, OneOf(WALLS)] | None = Field(None, description="The wall that it is on.")
    at: PointOnPlan | None = Field(
        None, description="Its lower corner on the wall: from the left (on a side wall from the front), up."
    )
    size: Annotated[list[LengthText], Fixed(3, "a size [wide, high, out from the wall]")] | None = Field(
        None, description="How wide, how high, how far out from the wall."
    )
    reach: Annotated[str, OneOf(REACHED_FROM)] | None = Field(
        None, description="The side from which it has to stay in reach."
    )
    room: LengthText | None = Field(None, description="Room for the hand in front of it; the usual when not given.")


class DoorShape(Shape):
    """space.doors: a leaf that swings over the floor."""

    hinge: PointOnPlan = Field(description="Where it hangs: from the left wall, from the front line.")
    width: LengthText = Field(description="From the hinge to its edge.")
    height: LengthText | None = Field(None, description="How high; to the top when not given.")
    thickness: LengthText | None = Field(None, description="Of the leaf; 1 3/8 in or 40 mm when not given.")
    shut: Annotated[str, OneOf(FLAT_WORDS)] = Field(description="Where it points from the hinge when it is shut.")
    opens: Annotated[str, OneOf(FLAT_WORDS)] = Field(description="Where it swings to.")
    turns: NumberText | None = Field(None, description="How far it has to open, in degrees; 90 when not given.")


class CleanShape(Shape):
    """space.clean: room for cleaning."""

    below: LengthText | None = Field(None, description="Free height under the piece.")
    behind: LengthText | None = Field(None, description="Free depth behind the piece.")


class SpaceShape(Shape):
    """space: the surveyed place."""

    opening: OpeningShape | None = Field(None, description="The opening, as measured.")
    clear: ClearShape | None = Field(None, description="The gap wanted on each side.")
    stand: StandShape | None = Field(None, description="The gap at which the piece is set.")
    neighbours: dict[str, NeighbourShape] = Field({}, description="What stands beside it, by name.")
    walls: WallsShape | None = Field(None, description="Walls that the piece touches.")
    within: LengthText | None = Field(None, description="How nearly the lengths of the survey are known.")
    floor: list[LevelShape] = Field([], description="Heights of the floor at several places.")
    uneven: LengthText | None = Field(None, description="How far the floor may be off between those places.")
    level: LengthText | None = Field(None, description="How far out of level it may stand, over its longer side.")
    aisle: LengthText | None = Field(None, description="Free floor before the opening, front to back.")
    skirting: SkirtingShape | None = Field(None, description="The board along the foot of the walls.")
    things: dict[str, ThingShape] = Field({}, description="Pipes, outlets, sills and the like, by name.")
    doors: dict[str, DoorShape] = Field({}, description="Doors that swing past, by name.")
    clean: CleanShape | None = Field(None, description="Room wanted for cleaning.")
    route: list[RouteItem] = Field([], description="What stands on the way from the shop to the place, in order.")
