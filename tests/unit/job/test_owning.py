"""A starter made one's own keeps the piece and loses its example."""

from __future__ import annotations

import pytest

from fitwright.job import JobFileError, Starter, parse_job, starters
from fitwright.job.owning import of_ones_own
from fitwright.job.reading import read_text


@pytest.mark.parametrize("starter", starters(), ids=lambda starter: starter.name)
def test_only_the_piece_is_left_of_an_example(starter: Starter) -> None:
    text = read_text(starter.path)
    before, now = parse_job(text), parse_job(of_ones_own(text))
    assert (now.client, now.due, now.brief.use, now.brief.budget) == ("", None, "", None)
    assert (now.space.opening, now.space.route, now.photo, now.readings) == (None, (), None, ())
    assert [part.name for part in now.parts] == [part.name for part in before.parts]
    assert (now.stock, now.brief.loads) == (before.stock, before.brief.loads)


def test_the_makers_own_client_and_date_are_written() -> None:
    now = parse_job(of_ones_own(read_text(starters()[0].path), "Ada", "2027-05-01"))
    assert (now.client, str(now.due)) == ("Ada", "2027-05-01")


def test_a_date_that_is_none_is_refused() -> None:
    with pytest.raises(JobFileError):
        of_ones_own(read_text(starters()[0].path), "", "soon")
