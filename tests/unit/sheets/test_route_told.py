"""The way in, in words: a piece that cannot be stood up where it is to stand."""

from __future__ import annotations

from fractions import Fraction

from fitwright.job.obstacles import Corridor, Door
from fitwright.place.route import Answer, Route, find_route
from fitwright.sheets.route_told import turned, unturned
from fitwright.units import Style
from tests.demos import assessed

STYLE = Style.inch(Fraction(1, 16))
HATCH = Door("hatch", width=1000, height=1000)


def way(room: float | None) -> Route:
    """Of the rack, which comes in lying, to a room so high [mm]."""
    last = () if room is None else (Corridor("room", width=1200, height=room, length=3000),)
    found = find_route((HATCH, *last), assessed("drying-rack").piece)
    assert found is not None
    return found


def test_what_is_lacking_to_stand_it_up() -> None:
    low = way(1960.0)
    assert low.answer is Answer.NO
    assert low.unturned is not None
    lacking = STYLE.length(low.unturned.needs - 1960.0)
    assert unturned(low, low.unturned, STYLE).startswith(f"{lacking} of height lacking to turn it over")
    assert "✗ takes" in turned(low.unturned, low, STYLE)


def test_a_room_whose_height_is_not_known_is_told() -> None:
    unknown = way(None)
    assert unknown.unturned is None
    (turn,) = unknown.turnovers
    said = turned(turn, unknown, STYLE)
    assert said.startswith("in its place: turn it from on its back to upright, which takes")
    assert said.endswith("not known how high it is there")
