"""Names, marks and set-ups that readings may use, and the nearest right one for a wrong one."""

from __future__ import annotations

import pytest

from fitwright.job.readings import parse_of
from fitwright.truing.errors import TruingError
from fitwright.truing.naming import Names
from tests.unit.truing.samples import rack


@pytest.fixture(scope="module")
def names() -> Names:
    return Names(rack().piece, rack().set_ups)


def test_a_mark_is_the_first_of_it_and_a_number_behind_it_another(names: Names) -> None:
    assert names.member("A1") == names.member("hoop 1") == names.member("a1/1")
    assert names.member("A1/2") == names.member("Hoop 2")


@pytest.mark.parametrize(
    ("said", "in_full"),
    [
        ("bend 1 of A1", "bend 1 of hoop 1"),
        ("bend 2 of hoop", "bend 2 of hoop 1"),
        ("bend 1 of A1/2", "bend 1 of hoop 2"),
        ("bend 1 of hoop 2", "bend 1 of hoop 2"),
        ("diagonal 1 of the whole", "diagonal 1 of the whole"),
        ("paint thickness", "paint thickness"),
    ],
)
def test_what_is_read_is_told_in_full(names: Names, said: str, in_full: str) -> None:
    of, full = parse_of(said), parse_of(in_full)
    assert of is not None
    assert names.in_full(of) == full


def test_a_set_up_by_its_name_with_or_without_its_comma(names: Names) -> None:
    whole = names.group("the whole")
    assert names.groups[whole].name == "the whole"
    for number, group in enumerate(names.groups):
        assert names.group(group.name.replace(",", "").upper()) == number


def test_the_whole_piece_is_every_member(names: Names) -> None:
    assert len(names.members("")) == len(rack().piece.members)


@pytest.mark.parametrize(
    ("words", "says"), [("hop 1", "did you mean hoop 1"), ("A1/9", "there are 2"), ("Z9", "there are")]
)
def test_what_is_not_there(names: Names, words: str, says: str) -> None:
    with pytest.raises(TruingError, match=says):
        names.member(words)
