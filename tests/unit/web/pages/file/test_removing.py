"""What cannot be taken out of a job file is refused as the workbench refuses."""

from __future__ import annotations

import pytest

from fitwright.web.errors import NotThere
from fitwright.web.pages.file.removing import without


def test_a_key_is_taken_out() -> None:
    assert without("a: 1\nb: 2\n", ("a",)) == "b: 2\n"


def test_a_key_that_is_not_there_is_not_found() -> None:
    with pytest.raises(NotThere, match=r"no parts\.d in this job file"):
        without("parts:\n  a: 1\n", ("parts", "d"))
