from __future__ import annotations

import numpy as np
import pytest

from fitwright.mechanics.variation import Chance, Histogram
from fitwright.sheets.drawing import Drawing, LineKind
from fitwright.sheets.packet.distribution import Limit, distribution_picture, limits_of
from fitwright.units import Style

WIDE, HIGH = 80.0, 40.0


def _chance(edges: list[float], counts: list[int], low: float | None = None, high: float | None = None) -> Chance:
    picture = Histogram(np.array(edges), np.array(counts), low, high)
    return Chance("fits", "across", 0.75, 0.95, 0.0, 1.0, 1.0, (), picture)


def _drawn(chance: Chance, *limits: Limit) -> Drawing:
    return distribution_picture(chance, limits or limits_of([chance]), Style.metric(), (WIDE, HIGH))


def _area(outline: np.ndarray[tuple[int, ...], np.dtype[np.float64]]) -> float:
    x, y = outline.T
    return float(abs(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1))) / 2)


def _hatched(drawing: Drawing) -> float:
    (view,) = drawing.views
    skyline = max((s.points for s in view.strokes if s.kind is LineKind.VISIBLE), key=len)
    return sum(_area(hatch.outline) for hatch in view.hatches) / _area(skyline)


def test_what_is_hatched_is_what_misses() -> None:
    """One build in four lies below the limit, or half of those where it goes through the middle of their bar."""
    assert _hatched(_drawn(_chance([0, 10, 20], [1, 3], low=10.0))) == pytest.approx(0.25)
    assert _hatched(_drawn(_chance([0, 10, 20], [1, 3], low=5.0))) == pytest.approx(0.125)
    assert _hatched(_drawn(_chance([0, 10, 20], [1, 3], high=10.0))) == pytest.approx(0.75)
    assert _hatched(_drawn(_chance([0, 10, 20], [1, 3], low=0.0))) == 0


def test_the_limit_stands_where_its_value_is() -> None:
    """Between edges at 0 and 20 the middle is 10, whatever margin there is on both sides."""
    (view,) = _drawn(_chance([0, 10, 20], [1, 3], low=10.0)).views
    (line,) = [stroke.points for stroke in view.strokes if stroke.kind is LineKind.FRAME]
    assert line[:, 0] == pytest.approx([WIDE / 2] * 2)
    assert line[:, 1].max() > HIGH
    assert [note.text for note in view.notes if "least" in note.text] == ["fits: at least 10.0 mm"]


def test_the_tallest_bar_is_as_high_as_the_picture() -> None:
    (view,) = _drawn(_chance([0, 10, 20, 30], [2, 8, 4], low=0.0)).views
    skyline = max((s.points for s in view.strokes if s.kind is LineKind.VISIBLE), key=len)
    assert sorted(set(np.round(skyline[:, 1], 9))) == pytest.approx([0, HIGH / 4, HIGH / 2, HIGH])


def test_a_limit_far_off_is_told_and_not_drawn() -> None:
    (view,) = _drawn(_chance([1000, 1001, 1002], [1, 1], low=0.0)).views
    assert not [stroke for stroke in view.strokes if stroke.kind is LineKind.FRAME]
    assert any(note.text == "fits: at least 0.0 mm, far to the left" for note in view.notes)


def test_words_of_two_limits_stand_in_two_rows() -> None:
    limits = (Limit(10.0, True, "fits as wanted"), Limit(0.0, True, "fits"))
    (view,) = _drawn(_chance([5, 10, 20], [1, 3], low=10.0), *limits).views
    told = [note for note in view.notes if "least" in note.text]
    assert len({note.at[1] for note in told}) == 2


def test_something_that_never_strays_can_be_drawn() -> None:
    assert _hatched(_drawn(_chance([0.0, 1e-9], [7], high=1.0))) == 0
