from __future__ import annotations

import numpy as np
import pytest

from fitwright.mechanics.variation import Stage, Stop, VariationError, variation
from tests.unit.mechanics.variation.samples import RACK, TABLE, frame_of, job_of, setting_of


def test_what_matters_is_found_from_the_job() -> None:
    kinds = {outcome.kind for outcome in setting_of(RACK).outcomes}
    assert kinds == {
        "width", "depth", "height", "diagonals", "parallel", "twist", "opening", "foot", "play", "gap", "joint",
    }  # fmt: skip


def test_widths_are_between_the_uprights() -> None:
    sizes = {outcome.name: outcome.nominal for outcome in setting_of(RACK).outcomes}
    assert sizes["width, front bottom"] == pytest.approx(570, abs=0.01)
    assert sizes["depth, left middle"] == pytest.approx(400 - 30, abs=30.1)


def test_an_even_piece_feels_both_sides_alike() -> None:
    """Mirrored in its middle the rack is itself: so are its errors, width by width."""
    felt = setting_of(RACK).sensitivity
    for level in ("bottom", "middle", "top"):
        left, right = felt.row(f"depth, left {level}"), felt.row(f"depth, right {level}")
        assert felt.spread[left] == pytest.approx(felt.spread[right], rel=0.02)


def test_moving_all_stops_together_moves_no_size() -> None:
    setting = setting_of(RACK)
    keys = {effect.key: i for i, effect in enumerate(setting.found)}
    shift = np.zeros(len(keys))
    for number, stage in enumerate(setting.stages):
        for row, stop in enumerate(stage.stops):
            if not stop.turn:
                shift[keys[f"stop:{number}:{row}"]] = stop.along @ np.array([0.3, -0.7, 0.5])
    felt = setting.felt @ shift
    for outcome, change in zip(setting.outcomes, felt, strict=True):
        assert change == pytest.approx(0, abs=2e-2), outcome.name


def test_a_rail_cut_short_leaves_its_gap_to_the_welds() -> None:
    """A millimetre short, shared by both ends, in a set-up whose stops hold all it meets."""
    setting = setting_of(RACK)
    keys = [effect.key for effect in setting.found]
    (rail,) = [m.index for m in setting.framed.piece.members if m.name == "rail"]
    short = -(setting.felt[:, keys.index(f"tip:{rail}:0")] + setting.felt[:, keys.index(f"tip:{rail}:1")]) / 2
    for outcome, change in zip(setting.outcomes, short, strict=True):
        if outcome.kind == "joint" and "rail on" in outcome.name:
            assert change == pytest.approx(-0.5, abs=0.02)
        elif outcome.kind != "joint":
            assert change == pytest.approx(0, abs=0.02), outcome.name


def test_a_shim_raises_its_foot_against_the_others() -> None:
    felt = setting_of(RACK).sensitivity
    shims = [i for i, action in enumerate(felt.actions) if action.kind == "shim"]
    feet = [i for i, outcome in enumerate(felt.outcomes) if outcome.kind == "foot"]
    assert len(shims) == len(feet) == 4
    # three quarters of a millimetre off the mean plane less what the tilt takes: a quarter each on a rectangle
    assert np.abs(felt.corrections[np.ix_(feet, shims)]) == pytest.approx(0.25, abs=0.01)


def test_pulling_feet_together_narrows_the_piece() -> None:
    felt = setting_of(RACK).sensitivity
    pull = [action.name for action in felt.actions].index("front left to front right, bottom")
    assert felt.corrections[felt.row("width, front bottom"), pull] < 0
    assert felt.actions[pull].unit == "N"


def test_every_bend_can_be_touched_up() -> None:
    felt = setting_of(RACK).sensitivity
    assert sum(action.kind == "bend" for action in felt.actions) == 4
    assert felt.corrections.shape == (len(felt.outcomes), len(felt.actions))


def test_another_sequence_gives_other_errors() -> None:
    usual = setting_of(TABLE).sensitivity
    straight = variation(frame_of(TABLE), job_of(TABLE), sequence=()).sensitivity
    row = usual.row("diagonals, top")
    assert usual.spread[row] != pytest.approx(straight.spread[straight.row("diagonals, top")], rel=1e-3)


def test_stages_in_full() -> None:
    parts = setting_of(TABLE).parts
    stops = tuple(Stop(n, way, "bench_stop") for n in range(parts.model.node_count) for way in np.eye(3))
    stage = Stage("jig", stops, tuple(range(len(parts.meetings))))
    setting = variation(frame_of(TABLE), job_of(TABLE), stages=[stage])
    assert setting.stages == (stage,)
    assert setting.sensitivity.spread.max() > 0


@pytest.mark.parametrize("sequence", [((0, 99),), ((0, 1), (1, 2))])
def test_groups_that_cannot_be(sequence: tuple[tuple[int, ...], ...]) -> None:
    with pytest.raises(VariationError):
        variation(frame_of(TABLE), job_of(TABLE), sequence=sequence)


def test_feet_that_screw_are_levelled() -> None:
    assert variation(frame_of(TABLE), job_of(TABLE)).making.level
    assert not variation(frame_of(RACK), job_of(RACK)).making.level
