from __future__ import annotations

import pytest

from fitwright.mechanics.variation import with_spreads
from fitwright.mechanics.variation.setting import variation
from fitwright.place import fit
from tests.unit.mechanics.variation.samples import RACK, TABLE, frame_of, job_of, setting_of


def test_gaps_add_up_to_those_of_the_fit() -> None:
    placed = fit(job_of(RACK), frame_of(RACK).piece)
    assert placed is not None
    found = {gap.side: gap.value for gap in placed.gaps}
    gaps = [o for o in setting_of(RACK).outcomes if o.kind == "gap"]

    def least(side: str) -> float:
        return min(o.nominal for o in gaps if o.name.startswith(f"gap {side}"))

    assert least("left") + least("right") == pytest.approx(found["left"] + found["right"])
    assert least("back") + least("front") == pytest.approx(found["back"] + found["front"])
    assert least("top") == pytest.approx(found["top"])


def test_the_survey_is_felt_once_on_one_side() -> None:
    setting = setting_of(RACK)
    felt = setting.sensitivity
    columns = [i for i, source in enumerate(felt.sources) if source.kind == "survey" and "width" in source.name]
    assert len(columns) == 2
    for row, outcome in enumerate(felt.outcomes):
        total = felt.matrix[row, columns].sum()
        assert total == pytest.approx(1.0 if outcome.name.startswith("gap right") else 0.0, abs=1e-12)


def test_a_survey_without_error_leaves_the_shop_alone() -> None:
    setting = variation(frame_of(RACK), job_of(RACK), spreads=with_spreads({"survey": 0.0}))
    assert "survey" not in setting.sensitivity.kinds


def test_without_a_place_there_is_nothing_to_fit_into() -> None:
    setting = setting_of(TABLE)
    assert not setting.demands
    assert all(o.kind != "gap" for o in setting.outcomes)
