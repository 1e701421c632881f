from __future__ import annotations

import numpy as np
import pytest

from fitwright.mechanics.variation.chances import shares
from fitwright.mechanics.variation.model import Outcome, Sensitivity, Source, VariationError

FELT = Sensitivity(
    (Outcome("a", "width", 100.0), Outcome("b", "depth", 50.0)),
    (Source("one", "tape", 2.0), Source("two", "tape", 1.0), Source("three", "survey", 1.0)),
    np.array([[1.0, 2.0, 0.0], [0.0, 0.0, 3.0]]),
)


def test_shares_of_one_outcome() -> None:
    (share,) = shares(FELT, [(np.array([1.0, 0.0]), 1.0)])
    assert share.kind == "tape"
    assert share.share == pytest.approx(1)


def test_shares_of_a_sum() -> None:
    found = shares(FELT, [(np.array([1.0, 1.0]), 1.0)])
    assert [s.kind for s in found] == ["survey", "tape"]
    assert [s.share for s in found] == pytest.approx([9 / 17, 8 / 17])


def test_shares_of_two_that_decide_in_turn() -> None:
    found = shares(FELT, [(np.array([1.0, 0.0]), 0.25), (np.array([0.0, 1.0]), 0.75)])
    assert [s.kind for s in found] == ["survey", "tape"]
    assert [s.share for s in found] == pytest.approx([0.75, 0.25])


def test_root_of_squares_and_worst_case() -> None:
    assert FELT.spread == pytest.approx([8**0.5, 3])
    assert FELT.worst(1.0) == pytest.approx([4, 3])


def test_some_outcomes_only() -> None:
    assert FELT.only([1]).spread == pytest.approx([3])


def test_an_outcome_that_is_not_there() -> None:
    with pytest.raises(VariationError, match="a, b"):
        FELT.row("c")
