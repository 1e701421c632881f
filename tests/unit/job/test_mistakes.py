from __future__ import annotations

import pytest

from fitwright.errors import FitwrightError
from fitwright.job import JobFileError, Mistake
from fitwright.job.mistakes import SHOWN, excerpt, nearest


def test_a_mistake_says_where_what_nearest_and_accepted() -> None:
    mistake = Mistake(5, 12, "parts.hoop.stock", '"fram" is not a short name', ("frame", "ledge"), "frame")
    assert str(mistake) == (
        'line 5, column 12: parts.hoop.stock: "fram" is not a short name; did you mean frame? (accepted: frame, ledge)'
    )


def test_a_mistake_about_the_whole_file_has_no_line() -> None:
    assert str(Mistake(0, 0, "", "the file is empty")) == "the file is empty"


def test_the_error_has_all_mistakes_in_the_order_of_the_file_each_once() -> None:
    late, early = Mistake(9, 1, "b", "wrong"), Mistake(2, 1, "a", "wrong too")
    error = JobFileError("job.yaml", [late, early, late])
    assert error.mistakes == (early, late)
    assert str(error).splitlines() == [
        "job.yaml has 2 mistakes:",
        "  line 2, column 1: a: wrong too",
        "  line 9, column 1: b: wrong",
    ]


def test_the_error_is_also_a_value_error() -> None:
    with pytest.raises(ValueError, match="1 mistake:"):
        raise JobFileError("job.yaml", [Mistake(1, 1, "", "wrong")])
    assert issubclass(JobFileError, FitwrightError)


def test_very_many_mistakes_are_counted_not_printed() -> None:
    error = JobFileError("job.yaml", [Mistake(n, 1, "", "wrong") for n in range(1, 101)])
    assert len(error.mistakes) == 100
    assert str(error).endswith(f"and {100 - SHOWN} more")


def test_nearest() -> None:
    assert nearest("heigth", ["width", "height"]) == "height"
    assert nearest("FRAME", ["frame"]) == "frame"
    assert nearest("zzz", ["width", "height"]) is None


def test_excerpts_are_one_line_and_short() -> None:
    assert excerpt("a\n  b") == '"a b"'
    assert len(excerpt("x" * 500)) < 70
