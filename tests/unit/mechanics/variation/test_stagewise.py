"""Readings before the piece is finished: what is joined by then, and what a loose part feels."""

from __future__ import annotations

import numpy as np
import pytest

from fitwright.mechanics.variation.model import Outcome
from fitwright.mechanics.variation.reading import Reading, distance
from fitwright.mechanics.variation.stagewise import felt_after, joined_after
from tests.unit.mechanics.variation.samples import RACK, setting_of


def test_stages_that_join_some_members() -> None:
    setting = setting_of(RACK)
    names = {m.name: m.index for m in setting.framed.piece.members}
    assert joined_after(setting, [names["hoop 1"]]) == 0
    assert joined_after(setting, [names["hoop 1"], names["hoop 2"]]) == len(setting.stages)


def test_a_loose_straight_part_feels_its_own_length_alone() -> None:
    setting = setting_of(RACK)
    k = next(m.index for m in setting.framed.piece.members if m.name == "rail")
    nodes, at = setting.parts.nodes_of[k], setting.parts.model.nodes
    size, probes = distance((int(nodes[0]), at[nodes[0]]), (int(nodes[-1]), at[nodes[-1]]))
    row = felt_after(setting, 0, [Reading(Outcome("", "", size), probes)])[0]
    felt = {e.key: float(row[i]) for i, e in enumerate(setting.found) if abs(row[i]) > 1e-6}
    assert felt == pytest.approx({f"tip:{k}:0": 1.0, f"tip:{k}:1": 1.0})


def test_after_the_last_stage_it_is_what_the_virtual_builds_feel() -> None:
    setting = setting_of(RACK)
    chosen = [r for r in setting.readings if r.outcome.kind in ("width", "diagonals", "opening")]
    rows = [i for i, r in enumerate(setting.readings) if r in chosen]
    assert np.abs(felt_after(setting, len(setting.stages), chosen) - setting.felt[rows]).max() < 1e-6
