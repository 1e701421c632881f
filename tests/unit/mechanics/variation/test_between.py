from __future__ import annotations

import pytest

from tests.unit.mechanics.variation.samples import RACK, setting_of


def test_a_shelf_has_play_between_the_uprights_front_and_back() -> None:
    plays = [o for o in setting_of(RACK).outcomes if o.kind == "play"]
    assert len(plays) == 2
    assert [o.nominal for o in plays] == pytest.approx([1.2, 1.2], abs=0.02)


def test_a_longer_shelf_has_less_play_by_as_much() -> None:
    setting = setting_of(RACK)
    felt = setting.sensitivity
    column = [source.kind for source in felt.sources].index("shelf_size")
    for row, outcome in enumerate(felt.outcomes):
        assert felt.matrix[row, column] == (-1 if outcome.kind == "play" else 0)


def test_the_clear_size_of_an_opening() -> None:
    clear = {o.name: o.nominal for o in setting_of(RACK).outcomes if o.kind == "opening"}
    assert clear["box, clear width"] == pytest.approx(540, abs=0.02)
