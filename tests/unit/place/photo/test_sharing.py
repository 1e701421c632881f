from __future__ import annotations

from fitwright.place.photo.sharing import Sharing


def test_numbers_that_are_the_same_are_counted_once() -> None:
    sharing = Sharing()
    first, second = sharing.more(3), sharing.more(3)
    sharing.same(first[1], second[1])
    sharing.same(second[1], first[2])
    unknown, group = sharing.counted()
    assert unknown[1] == unknown[2] == unknown[4]
    assert len(set(unknown.tolist())) == 4
    assert len(group) == 4


def test_what_shares_hangs_together() -> None:
    sharing = Sharing()
    first, second, third = sharing.more(2), sharing.more(2), sharing.more(2)
    sharing.same(first[0], second[1])
    unknown, group = sharing.counted()
    assert group[unknown[first[1]]] == group[unknown[second[0]]]
    assert group[unknown[third[0]]] != group[unknown[first[0]]]
    sharing.belong((third[0], first[0]))
    assert set(sharing.counted()[1].tolist()) == {0}
