from __future__ import annotations

import math
from decimal import Decimal

import pytest

from fitwright.job.dims import settle
from fitwright.job.resolve.scope import Scope, known, offered
from fitwright.job.written import START, Mapped, Written
from fitwright.units import Style


@pytest.fixture
def scope() -> Scope:
    dims, _ = settle({"width": Written("800")}, {}, 1.0)
    return Scope(Style.metric(), dims, Mapped("", START))


def test_a_length_in_mm(scope: Scope) -> None:
    assert scope.length(Written("width - 1 in")) == 774.6
    assert not scope.mistakes


def test_two_ways_of_writing_a_length_are_the_same_length(scope: Scope) -> None:
    assert scope.length(Written("0.1 + 0.2")) == scope.length(Written("0.3"))


def test_a_wrong_length_leaves_its_mistake_and_is_not_known(scope: Scope) -> None:
    assert math.isnan(scope.length(Written("widht")))
    assert not known(scope.length(Written("-5"), least=0.0))
    assert [mistake.nearest for mistake in scope.mistakes] == ["width", None]


def test_the_longest_length(scope: Scope) -> None:
    assert scope.length(Written("100 m")) == 100_000
    scope.length(Written("100.1 m"))
    assert "at most 100 m" in scope.mistakes[0].what


def test_counts_are_whole(scope: Scope) -> None:
    assert scope.count(Written("width / 200")) == 4
    assert scope.count(Written("3 * 0.1 * 10")) == 3
    scope.count(Written("width / 300"))
    assert "has to be whole" in scope.mistakes[0].what


def test_shares(scope: Scope) -> None:
    assert scope.share(Written("10 %")) == pytest.approx(0.1)
    assert scope.share(Written("1/4")) == 0.25


def test_money(scope: Scope) -> None:
    assert scope.money(Written("€ 1,250.50")) == Decimal("1250.50")
    for wrong in ("-1", "NaN", "1e99", "9" * 30):
        scope.money(Written(wrong))
    assert len(scope.mistakes) == 4


def test_names_are_offered_up_to_twenty() -> None:
    assert offered(["a", "b"]) == ("a", "b")
    assert len(offered([str(n) for n in range(99)])) == 21
