"""Taking a key out of a job file's text; every other character stays as it was."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from fitwright.errors import FitwrightError
from fitwright.job.reading import read_tree
from fitwright.job.written import Mapped, plain


class NoSuchKey(FitwrightError, LookupError):
    """A key that is not in the job file."""


class NotAlone(FitwrightError, ValueError):
    """A key that cannot be taken out without changing something else of the file."""


def without(text: str, steps: Sequence[str]) -> str:
    """The text without the key at a path of keys, with its value and the comment on its line.

    Raises NoSuchKey for a key that is not in the file, NotAlone for one that cannot be taken out alone.
    """
    root = read_tree(text, "job.yaml").root
    owner, key = _owner(root, steps), steps[-1]
    start, end = owner.keys_at[key].start, max(owner.spans[key].end, owner.keys_at[key].end)
    cut = _in_brackets(text, start, end) if owner.flow else _lines(text, start, end)
    expected: Any = plain(root)
    inner = expected
    for step in steps[:-1]:
        inner = inner[step]
    del inner[key]
    if plain(read_tree(cut, "job.yaml").root) != expected:
        raise NotAlone(f"{'.'.join(steps)} cannot be taken out alone: change it in the text")
    return cut


def _owner(root: Mapped, steps: Sequence[str]) -> Mapped:
    node: object = root
    for step in steps[:-1]:
        node = node.get(step) if isinstance(node, Mapped) else None
    if not isinstance(node, Mapped) or steps[-1] not in node:
        raise NoSuchKey(f"there is no {'.'.join(steps)} in this job file")
    return node


def _lines(text: str, start: int, end: int) -> str:
    """From the line of the key to the line where its value ends, both whole."""
    first = text.rfind("\n", 0, start) + 1
    last = text.find("\n", len(text[:end].rstrip()))
    return text[:first] + (text[last + 1 :] if last >= 0 else "")


def _in_brackets(text: str, start: int, end: int) -> str:
    """The entry and the comma after it, or for the last one the comma before."""
    after = len(text[:end]) + len(text[end:]) - len(text[end:].lstrip())
    if text[after : after + 1] == ",":
        rest = text[after + 1 :]
        return text[:start] + rest.lstrip(" ")
    before = text[:start].rstrip()
    return before.removesuffix(",") + text[end:]
