"""What stands on the way from the shop to the place, as surveyed; all lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass

SPARE_MM = {"inch": 25.4, "mm": 25.0, "cm": 25.0}
"""Room for knuckles on each side when nothing else is said (common practice)."""


@dataclass(frozen=True)
class Obstacle:
    """One thing to get through, by its name; spare: the room wanted on each side, for hands [mm]; line in the file."""

    name: str
    spare: float = 25.0
    line: int = 0


@dataclass(frozen=True)
class Door(Obstacle):
    """A clear opening in a wall as thick as its jamb is deep.

    before, after: how far it is straight on to the next wall, None where there is room; swing: how far the open leaf
    stands into the way, already taken off `width` when the width was measured clear of it.
    """

    width: float = 0.0
    height: float = 0.0
    jamb: float = 120.0
    before: float | None = None
    after: float | None = None
    swing: float = 0.0

    @property
    def clear(self) -> float:
        """Width between the jamb and the open leaf [mm]."""
        return self.width - self.swing


@dataclass(frozen=True)
class Corridor(Obstacle):
    """A straight passage."""

    width: float = 0.0
    height: float = 0.0
    length: float = 0.0


@dataclass(frozen=True)
class Corner(Obstacle):
    """Two passages that meet; turn: by how much the way turns there [rad]."""

    first: float = 0.0
    second: float = 0.0
    turn: float = 0.0
    height: float = 0.0


@dataclass(frozen=True)
class Landing:
    """A landing in the middle of a stair.

    length: along the way up; turn: of the stair there [rad]; after: how many steps lie below it; gap: between flights.
    """

    length: float
    width: float
    turn: float
    after: int
    gap: float = 0.0


@dataclass(frozen=True)
class Stairs(Obstacle):
    """A flight, or two with a landing between; headroom is measured plumb above the nosings."""

    width: float = 0.0
    headroom: float = 0.0
    rise: float = 0.0
    run: float = 0.0
    steps: int = 1
    landing: Landing | None = None


@dataclass(frozen=True)
class Lift(Obstacle):
    """A lift car and its door; load: what it is rated for [kg], None where it is not known."""

    door_width: float = 0.0
    door_height: float = 0.0
    width: float = 0.0
    depth: float = 0.0
    height: float = 0.0
    load: float | None = None


@dataclass(frozen=True)
class Van(Obstacle):
    """A load space behind a door; arches: how far apart the wheel arches are, and how high, None for a flat floor.

    bed: how high the floor is above the ground.
    """

    door_width: float = 0.0
    door_height: float = 0.0
    length: float = 0.0
    width: float = 0.0
    height: float = 0.0
    arches: tuple[float, float] | None = None
    bed: float = 600.0


@dataclass(frozen=True)
class Step(Obstacle):
    """A single step, a threshold or a kerb to lift it over."""

    height: float = 0.0


Way = tuple[Obstacle, ...]
