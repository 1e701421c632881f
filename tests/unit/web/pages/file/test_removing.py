"""A key is taken out, and nothing else."""

from __future__ import annotations

import pytest

from fitwright.web.errors import NotThere
from fitwright.web.pages.file.removing import without

TEXT = """# top
parts:
  a: {x: 1, y: 2}   # first
  # about b
  b:
    x: 1            # one
    y:
      - 2
      - 3
  c: {x: 1}
end: 1
"""


@pytest.mark.parametrize(
    ("steps", "gone"),
    [
        (("parts", "a"), "  a: {x: 1, y: 2}   # first\n"),
        (("parts", "b"), "  b:\n    x: 1            # one\n    y:\n      - 2\n      - 3\n"),
        (("parts", "c"), "  c: {x: 1}\n"),
        (("parts", "b", "x"), "    x: 1            # one\n"),
        (("parts", "b", "y"), "    y:\n      - 2\n      - 3\n"),
        (("parts", "a", "x"), "x: 1, "),
        (("parts", "a", "y"), ", y: 2"),
        (("end",), "end: 1\n"),
    ],
)
def test_only_the_key_goes(steps: tuple[str, ...], gone: str) -> None:
    assert without(TEXT, steps) == TEXT.replace(gone, "", 1)


def test_a_key_that_is_not_there_is_told() -> None:
    for steps in (("parts", "d"), ("nothing",), ("end", "x")):
        with pytest.raises(NotThere):
            without(TEXT, steps)
