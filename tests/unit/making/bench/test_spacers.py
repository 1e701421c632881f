from __future__ import annotations

from itertools import product

import pytest

from fitwright.making.bench.groups import groups_of
from fitwright.making.bench.pose import posed
from fitwright.making.bench.spacers import _one_a_straight, _options, spacers_of, standing
from tests.demos import assessed
from tests.unit.making.bench.samples import STAND, built

INCH = 25.4


def test_ledges_are_set_by_few_lengths() -> None:
    """Four ledges a side at a pitch of 9 in: 1 1/4 in of angle leaves 7 3/4 in between them."""
    job = assessed("drying-rack")
    order = groups_of(job.piece)
    sets, lengths, proven = spacers_of(posed(job.piece, order, len(order) - 1))
    assert proven
    cut = sorted({round(one.length / INCH, 3) for one in sets if one.length})
    assert len(cut) == lengths == 3
    assert 7.75 in cut


def test_no_choice_of_references_needs_fewer_lengths() -> None:
    _, piece = built(STAND)
    order = groups_of(piece)
    pose = posed(piece, order, len(order) - 1)
    all_ = _one_a_straight(standing(pose))
    ways = {k: found for k in range(len(all_)) if (found := _options(all_, k))}
    least = min(
        len({round(gap, 1) for *_, gap in choice if gap})
        for choice in product(*ways.values())
        if _hangs_on_ends(dict(zip(ways, choice, strict=True)))
    )
    _, lengths, proven = spacers_of(pose)
    assert proven
    assert lengths == pytest.approx(least)


def _hangs_on_ends(choice: dict[int, tuple[str, int | None, float]]) -> bool:
    """Whether every upright's chain of references comes to an end of the straight."""
    for k in choice:
        at: int | None = k
        for _ in choice:
            at = choice[at][1] if at in choice else None
        if at is not None:
            return False
    return True


def test_nothing_is_set_from_what_is_set_from_it() -> None:
    _, piece = built(STAND)
    order = groups_of(piece)
    sets, _, _ = spacers_of(posed(piece, order, len(order) - 1))
    after = {id(one.what): None if one.other is None else id(one.other) for one in sets}
    for start in after:
        seen, at = set(), start
        while at is not None and at in after:
            assert at not in seen
            seen.add(at)
            at = after[at]  # type: ignore[assignment]
