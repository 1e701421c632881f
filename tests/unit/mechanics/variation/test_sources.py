from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fitwright.mechanics.variation import Making, Sensitivity, with_making
from tests.unit.mechanics.variation.samples import RACK, setting_of

BASE = Making(stop_reach=1000.0)


def made(making: Making) -> Sensitivity:
    return with_making(setting_of(RACK), making).sensitivity


def kinds(felt: Sensitivity) -> dict[str, int]:
    return {kind: sum(source.kind == kind for source in felt.sources) for kind in felt.kinds}


def test_one_set_up_for_all_bends_of_one_die_and_angle() -> None:
    found = kinds(made(BASE))
    assert found["bend_angle_setup"] == 1
    assert found["bend_angle"] == found["bend_position"] == 4


def test_the_set_up_is_the_sum_of_its_bends() -> None:
    felt = made(BASE)
    whole = felt.matrix[:, [s.kind == "bend_angle_setup" for s in felt.sources]].sum(axis=1)
    each = felt.matrix[:, [s.kind == "bend_angle" for s in felt.sources]].sum(axis=1)
    assert whole == pytest.approx(each)


def test_short_pieces_share_a_stop_and_long_ones_are_cut_to_a_mark() -> None:
    felt = made(BASE)
    assert kinds(felt)["tape"] == 2  # the hoops
    stops = [source.name for source in felt.sources if source.kind == "saw_stop"]
    assert len(stops) == 3  # ledges, ties, rail


def test_one_stop_for_all() -> None:
    found = kinds(made(replace(BASE, one_stop=True)))
    assert "tape" not in found
    assert found["saw_stop"] == 4


def test_trimmed_legs_forget_where_the_bend_was() -> None:
    felt = made(replace(BASE, trim_after_bending=True))
    before = made(BASE)
    row = felt.row("height, front left")
    mask = [s.kind == "bend_position" for s in felt.sources]
    mask_before = [s.kind == "bend_position" for s in before.sources]
    after = np.abs(felt.matrix[row, mask]).max()
    assert after < 0.2 * np.abs(before.matrix[row, mask_before]).max()
    assert kinds(felt)["trim"] == 4


def test_matched_frames_stray_together() -> None:
    apart, matched = made(BASE), made(replace(BASE, match_frames=True))
    assert kinds(matched)["bend_angle"] == 2
    row = apart.row("front against back, bottom")
    assert matched.spread[row] < apart.spread[row]


def test_checked_bends_have_no_set_up_error() -> None:
    felt = made(replace(BASE, check_bends=True))
    assert "bend_angle_setup" not in kinds(felt)


def test_fitted_shelves_feel_only_their_own_errors() -> None:
    felt = made(replace(BASE, fit_shelves=True))
    rows = [outcome.kind == "play" for outcome in felt.outcomes]
    felt_kinds = {felt.sources[i].kind for i in np.flatnonzero(np.abs(felt.matrix[rows]).max(axis=0) > 0)}
    assert felt_kinds == {"shelf_size", "tape"}
