"""Shapes of space.route: what stands on the way from the shop to the place. The kind is found from the key."""

from __future__ import annotations

from typing import Annotated

from pydantic import Discriminator, Field, Tag, WithJsonSchema

from fitwright.job.mistakes import nearest
from fitwright.job.shape.values import CountText, LengthText, MassText, Shape, Text
from fitwright.job.written import Mapped, Written

AngleText = Annotated[
    Written, WithJsonSchema({"type": ["string", "number"], "examples": ["90", "45 deg", "180 deg"], "title": "angle"})
]
KINDS = ("door", "corridor", "corner", "stairs", "lift", "van", "step")


class ObstacleShape(Shape):
    """What every obstacle may say."""

    spare: LengthText | None = Field(
        None, description="Room wanted on each side, for hands; 1 in or 25 mm if not said."
    )


class DoorShape(ObstacleShape):
    """A door: the clear opening, with the leaf as far open as it goes."""

    door: Text = Field(description="Its name.")
    width: LengthText = Field(description="Clear width between the jambs.")
    height: LengthText = Field(description="Clear height under the head.")
    jamb: LengthText | None = Field(None, description="How deep the jamb is; 4 3/4 in or 120 mm when not given.")
    swing: LengthText | None = Field(None, description="How far the open leaf stands into the width.")
    before: LengthText | None = Field(None, description="How far the next wall is straight in front of it.")
    after: LengthText | None = Field(None, description="How far the next wall is straight behind it.")


class CorridorShape(ObstacleShape):
    """A straight passage."""

    corridor: Text = Field(description="Its name.")
    width: LengthText = Field(description="Clear width, past radiators and rails.")
    height: LengthText = Field(description="Clear height, under lamps.")
    length: LengthText = Field(description="How long it is.")


class CornerShape(ObstacleShape):
    """A corner between two passages."""

    corner: Text = Field(description="Its name.")
    width: LengthText = Field(description="Width of the passage that one comes by.")
    onward: LengthText = Field(description="Width of the passage that one goes on by.")
    height: LengthText = Field(description="Clear height.")
    turn: AngleText | None = Field(None, description="By how much the way turns; 90 degrees when not given.")


class LandingShape(Shape):
    """A landing between two flights."""

    length: LengthText = Field(description="Along the way up, from the last nosing to the wall.")
    width: LengthText = Field(description="Across the way up.")
    after: CountText = Field(description="How many steps lie below it.")
    turn: AngleText | None = Field(None, description="By how much the stair turns there: 0, 90 or 180; 90 if not said.")
    gap: LengthText | None = Field(None, description="Between the flights, for a stair that turns back on itself.")


class StairsShape(ObstacleShape):
    """Stairs, straight or with one landing."""

    stairs: Text = Field(description="Their name.")
    width: LengthText = Field(description="Clear width between wall and handrail.")
    headroom: LengthText = Field(description="Least height plumb above the nosings.")
    rise: LengthText = Field(description="Rise of a step.")
    run: LengthText = Field(description="Run of a step, from nosing to nosing.")
    steps: CountText = Field(description="How many steps.")
    landing: LandingShape | None = Field(None, description="A landing between two flights.")


class LiftShape(ObstacleShape):
    """A lift: its door and its car."""

    lift: Text = Field(description="Its name.")
    door_width: LengthText = Field(description="Clear width of the door.")
    door_height: LengthText = Field(description="Clear height of the door.")
    width: LengthText = Field(description="Inside width of the car, along the door.")
    depth: LengthText = Field(description="Inside depth of the car, from the door.")
    height: LengthText = Field(description="Inside height of the car.")
    load: MassText | None = Field(None, description="What it is rated for.")


class ArchesShape(Shape):
    """Wheel arches."""

    apart: LengthText = Field(description="How far apart they are.")
    height: LengthText = Field(description="How high they are.")


class VanShape(ObstacleShape):
    """A van: its rear door and its load space."""

    van: Text = Field(description="Its name.")
    door_width: LengthText = Field(description="Clear width of the rear door.")
    door_height: LengthText = Field(description="Clear height of the rear door.")
    length: LengthText = Field(description="Inside length of the load space.")
    width: LengthText = Field(description="Inside width.")
    height: LengthText = Field(description="Inside height.")
    arches: ArchesShape | None = Field(None, description="Wheel arches.")
    bed: LengthText | None = Field(
        None, description="Height of its floor above the ground; 24 in or 600 mm if not said."
    )


class StepShape(ObstacleShape):
    """A single step, a threshold or a kerb."""

    step: Text = Field(description="Its name.")
    height: LengthText = Field(description="How high it is.")


def kind_of(value: object) -> str:
    """Which obstacle a mapping is, by the key that names it, or by what a key was meant to be."""
    if not isinstance(value, Mapped):
        return "<door>"
    found = next((key for key in value if key in KINDS), None)
    meant = found or next((near for key in value if (near := nearest(key, KINDS))), KINDS[0])
    return f"<{meant}>"


RouteItem = Annotated[
    Annotated[DoorShape, Tag("<door>")]
    | Annotated[CorridorShape, Tag("<corridor>")]
    | Annotated[CornerShape, Tag("<corner>")]
    | Annotated[StairsShape, Tag("<stairs>")]
    | Annotated[LiftShape, Tag("<lift>")]
    | Annotated[VanShape, Tag("<van>")]
    | Annotated[StepShape, Tag("<step>")],
    Discriminator(kind_of),
]
