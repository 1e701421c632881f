"""Job files of a few lines, built."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from fitwright.job import parse_job
from fitwright.piece import Piece, build

Built = Callable[[str], Piece]

LINES_AT_MOST = 60


@pytest.fixture
def built() -> Built:
    """Build a job file given without its head, in millimetres; a whole file when it begins with `job:`."""

    def make(text: str) -> Piece:
        whole = text if text.lstrip().startswith("job:") else "job: {name: trial, unit: mm}\n" + text
        assert whole.count("\n") < LINES_AT_MOST
        return build(parse_job(whole))

    return make
