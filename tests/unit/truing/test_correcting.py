"""Choosing corrections: the least that does it, in whole steps."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fitwright.truing.correcting import chosen
from fitwright.truing.options import Option
from fitwright.truing.wanting import Wants
from tests.unit.truing.samples import rack


@pytest.fixture(scope="module")
def wants() -> Wants:
    assert rack().making is not None
    return Wants(rack().making)  # type: ignore[arg-type]


def option(wants: Wants, row: int, key: str, effort: float = 0.01, size: float = 1.0) -> Option:
    """An option that moves one outcome that counts by so much for one unit."""
    effect = np.zeros(len(wants.setting.outcomes))
    effect[wants.rows[row]] = size
    return Option("pull", key, key, effect, 0.5, 20.0, effort)


def off(wants: Wants, **by_row: float) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    found = np.zeros(len(wants.setting.outcomes))
    for name, value in by_row.items():
        found[wants.rows[int(name[1:])]] = value
    return found


def test_nothing_off_nothing_to_do(wants: Wants) -> None:
    assert chosen(wants, off(wants), [option(wants, 0, "a")]) == ()


def test_an_amount_in_whole_steps_against_what_is_off(wants: Wants) -> None:
    (one,) = chosen(wants, off(wants, r0=-3.2), [option(wants, 0, "a"), option(wants, 1, "b")])
    assert (one.option.key, one.amount) == ("a", 3.0)


def test_of_two_that_do_the_same_the_one_with_less_effort(wants: Wants) -> None:
    (one,) = chosen(wants, off(wants, r0=4.0), [option(wants, 0, "hard", 0.3), option(wants, 0, "easy", 0.01)])
    assert one.option.key == "easy"


def test_not_worth_its_effort(wants: Wants) -> None:
    assert chosen(wants, off(wants, r0=1.0), [option(wants, 0, "a", effort=2.0)]) == ()


def test_what_is_due_is_done_in_any_case_by_its_own_amount(wants: Wants) -> None:
    due = replace(option(wants, 0, "a", effort=9.0), only=-0.7, due=True)
    (one,) = chosen(wants, off(wants), [due])
    assert one.amount == -0.7


def test_feet_come_last(wants: Wants) -> None:
    shim = replace(option(wants, 1, "foot", effort=0.001), kind="shim", one_way=True)
    picked = chosen(wants, off(wants, r0=3.0, r1=-3.0), [shim, option(wants, 0, "pull")])
    assert [one.option.kind for one in picked] == ["pull", "shim"]


def test_packing_is_not_taken_out(wants: Wants) -> None:
    shim = replace(option(wants, 0, "foot"), kind="shim", one_way=True)
    assert chosen(wants, off(wants, r0=3.0), [shim]) == ()
