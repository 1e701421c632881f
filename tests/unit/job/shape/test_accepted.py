from __future__ import annotations

from fitwright.job.shape.accepted import keys_at
from fitwright.job.shape.file import FileShape


def test_the_keys_of_a_section() -> None:
    assert keys_at(FileShape, ("job",)) == ("name", "unit", "client", "due", "fraction", "notes")
    assert keys_at(FileShape, ())[0] == "job"


def test_keys_go_by_the_words_of_the_file() -> None:
    assert keys_at(FileShape, ("space", "opening", "width", "<list>", 0, "<mapping>")) == (
        "at", "is", "station", "within",
    )  # fmt: skip


def test_the_branch_is_that_of_the_tag() -> None:
    assert "battens" in keys_at(FileShape, ("parts", "any", "panel"))
    assert "battens" not in keys_at(FileShape, ("parts", "any", "member"))
    assert keys_at(FileShape, ("parts", "any", "member", "repeat", "z", "<mapping>")) == ("from", "every", "count")


def test_nothing_where_there_are_no_keys() -> None:
    assert keys_at(FileShape, ("dims", "width")) == ()
    assert keys_at(FileShape, ("nowhere", "at", "all")) == ()
