"""A key is taken out, and nothing else."""

from __future__ import annotations

import pytest

from fitwright.job.removing import NoSuchKey, NotAlone, without

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
        with pytest.raises(NoSuchKey):
            without(TEXT, steps)


def test_the_only_key_of_a_block_is_not_taken_out_alone() -> None:
    with pytest.raises(NotAlone, match="change it in the text"):
        without("parts:\n  a: 1\nend: 2\n", ("parts", "a"))
