from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fitwright.mechanics.variation import (
    Making,
    VariationError,
    VirtualBuilds,
    draw,
    estimate,
    virtual_builds,
    with_making,
)
from tests.unit.mechanics.variation.samples import RACK, TABLE, setting_of


@pytest.fixture(scope="module")
def rack() -> VirtualBuilds:
    return virtual_builds(setting_of(RACK), 40_000, seed=3)


def test_every_demand_has_a_chance(rack: VirtualBuilds) -> None:
    assert {chance.name for chance in rack.chances} == {
        "fits",
        "fits as wanted",
        "stands flat",
        "shelves drop in",
        "welds fill",
    }
    assert {chance.subject for chance in rack.chances} == {"across", "along", "above", "rock", "shelves", "joints"}
    assert all(0 <= chance.value <= 1 for chance in rack.chances)
    assert rack.overall <= min(c.value for c in rack.chances if c.name not in ("fits as wanted", "welds fill"))
    assert rack.governing is rack.chances[0]


def test_shares_sum_to_one(rack: VirtualBuilds) -> None:
    for chance in rack.chances:
        assert sum(share.share for share in chance.shares) == pytest.approx(1)
        assert len(chance.deciders) == 3
    for outcome in rack.outcomes:
        assert sum(share.share for share in outcome.shares) == pytest.approx(1)


def test_histograms_hold_every_build(rack: VirtualBuilds) -> None:
    for chance in rack.chances:
        assert chance.histogram.counts.sum() == rack.builds
        assert len(chance.histogram.edges) == len(chance.histogram.counts) + 1
        assert len(chance.histogram.counts) <= 62


def test_the_same_seed_gives_the_same_builds(rack: VirtualBuilds) -> None:
    again = virtual_builds(setting_of(RACK), 40_000, seed=3)
    other = virtual_builds(setting_of(RACK), 40_000, seed=4)
    assert [c.value for c in again.chances] == [c.value for c in rack.chances]
    assert [c.value for c in other.chances] != [c.value for c in rack.chances]


def test_progress_and_stopping() -> None:
    told: list[float] = []
    virtual_builds(setting_of(TABLE), 30_000, progress=told.append)
    assert told == sorted(told)
    assert told[-1] == 1
    stopped = virtual_builds(setting_of(TABLE), 10_000_000, stop=lambda: True)
    assert 1 <= stopped.builds < 100_000


def test_no_builds_at_all() -> None:
    with pytest.raises(VariationError, match="1 or more"):
        virtual_builds(setting_of(TABLE), 0)


def test_one_build() -> None:
    assert virtual_builds(setting_of(TABLE), 1).builds == 1


def test_every_change_this_piece_allows(rack: VirtualBuilds) -> None:
    keys = {change.key for change in rack.changes}
    assert keys == {
        "check_bends", "trim_after_bending", "one_stop", "match_frames", "shim", "level", "fit_shelves", "all",
    }  # fmt: skip


def test_shims_and_levelling_feet_cure_the_rock(rack: VirtualBuilds) -> None:
    flat = rack.chance("stands flat")
    assert flat is not None
    assert flat.value < 0.9
    for change in rack.changes:
        if change.key in ("shim", "level"):
            assert change.chances["stands flat"] > 0.99


def test_shelves_cut_to_the_frame_drop_in(rack: VirtualBuilds) -> None:
    drop = rack.chance("shelves drop in")
    fitted = next(change for change in rack.changes if change.key == "fit_shelves")
    assert drop is not None
    assert fitted.chances["shelves drop in"] > max(0.99, drop.value)


def test_the_best_nominal_is_better(rack: VirtualBuilds) -> None:
    (best,) = rack.best
    assert best.subject == "across"
    assert best.chance >= best.chance_now
    assert (best.tight, best.loose) == (20.0, 40.0)


def test_a_change_is_what_making_it_so_gives(rack: VirtualBuilds) -> None:
    """The chance told beforehand is that of builds made that way."""
    change = next(change for change in rack.changes if change.key == "check_bends")
    done = virtual_builds(with_making(setting_of(RACK), replace(Making(1000.0), check_bends=True)), 40_000, seed=8)
    drop = done.chance("shelves drop in")
    assert drop is not None
    assert change.chances["shelves drop in"] == pytest.approx(drop.value, abs=0.015)


def test_the_quick_estimate_agrees(rack: VirtualBuilds) -> None:
    quick = estimate(setting_of(RACK), 20_000, seed=1)
    for chance in rack.chances:
        same = quick.chance(chance.name, chance.subject)
        assert same is not None
        assert same.value == pytest.approx(chance.value, abs=0.015)
    assert quick.changes == ()


def test_drawn_errors_make_their_outcomes() -> None:
    felt = setting_of(RACK).sensitivity
    errors, outcomes = draw(felt, 50, seed=2)
    assert errors.shape == (50, len(felt.sources))
    assert outcomes == pytest.approx(felt.nominal + errors @ felt.matrix.T)
    assert np.array_equal(draw(felt, 50, seed=2)[0], errors)


def test_a_piece_nothing_is_demanded_of_but_feet() -> None:
    builds = virtual_builds(setting_of(TABLE), 5_000)
    assert {chance.name for chance in builds.chances} == {"stands flat", "welds fill"}
    assert not builds.best
