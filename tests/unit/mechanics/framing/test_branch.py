from __future__ import annotations

from fitwright.mechanics.framing.branch import second_stops_short
from fitwright.piece import Piece
from tests.unit.mechanics.framing.pieces import FLUSH, TABLE, made


def ends(piece: Piece) -> dict[tuple[str, str], int | None]:
    """What is said of every joint, by the names of its two members."""
    members = piece.members
    return {
        (members[j.first].name, members[j.second].name): second_stops_short(j, members[j.first], members[j.second])
        for j in piece.joints
    }


def test_at_a_corner_the_rail_stops_at_the_leg_that_runs_on() -> None:
    found = ends(made(FLUSH.replace(", ends: free", ""))[1])
    corners = {names: end for names, end in found.items() if names[0].startswith("leg")}
    assert corners
    assert set(corners.values()) <= {0, 1}


def test_a_tee_is_as_it_was_found() -> None:
    assert set(ends(made(TABLE)[1]).values()) == {None}
