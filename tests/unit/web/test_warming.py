"""What is used first has been used once before."""

from __future__ import annotations

import gc
import sys

import pytest

from fitwright.errors import FitwrightError
from fitwright.web import warming


def test_the_first_job_finds_its_modules_read() -> None:
    warming.WARM.clear()
    warming.warm()
    assert warming.WARM.is_set()
    assert {"scipy.sparse.linalg", "fitwright.mechanics.factor"} <= set(sys.modules)


def test_what_was_imported_is_not_searched_for_garbage_again() -> None:
    gc.unfreeze()
    warming.warm()
    assert gc.get_freeze_count() > 100_000


def test_a_starter_that_cannot_be_read_stops_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    asked = []

    def broken(path: object) -> None:
        asked.append(path)
        raise FitwrightError("it cannot be read")

    monkeypatch.setattr(warming, "load_job", broken)
    warming.WARM.clear()
    warming.warm()
    assert warming.WARM.is_set()
    assert len(asked) == 1
