from __future__ import annotations

import numpy as np
import pytest

from fitwright.mechanics.framing.line import working_line
from fitwright.mechanics.framing.marks import LONGEST_MM, Groups, Wanted, stations
from tests.unit.mechanics.framing.pieces import TABLE, made


def wanted() -> Wanted:
    _, piece = made(TABLE)
    return Wanted({m.index: working_line(m, piece.members) for m in piece.members[:2]})


def test_tickets_lead_to_their_stations() -> None:
    asked = wanted()
    ticket, close = asked.at(0, 333.0), asked.at(0, 333.5)
    places = stations(asked)
    assert places.s[places.of[ticket]] == pytest.approx(333)
    assert places.of[close] == places.of[ticket]
    assert places.member[places.of[ticket]] == 0


def test_ends_stay_exact_when_asked_for_beside_them() -> None:
    asked = wanted()
    ticket = asked.at(0, 699.0)
    places = stations(asked)
    assert places.s[places.of[ticket]] == 700


def test_long_runs_are_divided() -> None:
    places = stations(wanted())
    lengths = np.linalg.norm(places.points[places.pairs[:, 1]] - places.points[places.pairs[:, 0]], axis=1)
    assert lengths.max() <= LONGEST_MM
    assert lengths.sum() == pytest.approx(1400)


def test_groups_chain() -> None:
    groups = Groups.of(5)
    groups.tie(0, 1)
    groups.tie(1, 4)
    groups.tie(2, 0)
    node, leaders = groups.numbers()
    assert node[0] == node[1] == node[2] == node[4] != node[3]
    assert len(leaders) == 2
    assert 4 in leaders
