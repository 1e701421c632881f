"""Taking a key out of a job file's text, told as the workbench tells what it refuses."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.job import removing
from fitwright.web.errors import NotTaken, NotThere


def without(text: str, steps: Sequence[str]) -> str:
    """The text without the key at a path of keys.

    Raises NotThere for a key that is not in the file, NotTaken for one that cannot be taken out alone.
    """
    try:
        return removing.without(text, steps)
    except removing.NoSuchKey as wrong:
        raise NotThere(str(wrong)) from None
    except removing.NotAlone as wrong:
        raise NotTaken(str(wrong)) from None
