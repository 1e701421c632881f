"""A job file changed in place: the characters of one value are replaced, every other character stays as it was.

The spans come from the reader's own marks, and every change is read back before it is kept.
"""

from __future__ import annotations

import os
import re
import tempfile
from collections.abc import Mapping, Sequence
from decimal import Decimal
from pathlib import Path
from typing import Any

from fitwright.job.mistakes import JobFileError, Mistake, excerpt
from fitwright.job.reading import read_text, read_tree
from fitwright.job.written import Listed, Mapped, Node, Place, Written, is_empty, plain

Value = str | int | float | Decimal | bool | Sequence["Value"] | Mapping[str, "Value"]
PathInFile = str | Sequence[str | int]
Steps = tuple[str | int, ...]

ANCHOR = re.compile(r"&\S+[ \t]+")
SAFE_WORD = re.compile(r"[^\s\-?:,\[\]{}#&*!|>'\"%@`][^\n\r\t]*")
UNPRINTABLE = re.compile("[^ -~\xa0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")
"""What a file may not hold, or what ends a line, so that it is written as an escape in double quotes."""
NULLS = ("", "~", "null")
ESCAPES = {"\\": "\\\\", '"': '\\"', "\n": "\\n", "\t": "\\t"}


class JobFile:
    """The text of a job file, to be changed and saved; each change is checked to say what was meant."""

    def __init__(self, text: str, name: str = "job.yaml") -> None:
        self._name = name
        self._text = text
        self._root = read_tree(text, name).root

    @classmethod
    def read(cls, path: Path | str) -> JobFile:
        """The job file at a path. Raises JobFileError when it cannot be read."""
        return cls(read_text(Path(path)), str(path))

    def text(self) -> str:
        """The file's text as it now is."""
        return self._text

    def set_dim(self, name: str, text: str) -> None:
        """Give a dim a new length, number or arithmetic; a dim that is not there is added."""
        self.set(("dims", name), text)

    def set(self, path: PathInFile, value: Value) -> None:
        """Set what stands at a path, such as `dims.width` or ("joints", 0, "how"); what is missing on the way is added.

        An index equal to a list's length appends. Raises JobFileError when the path cannot be followed.
        """
        owner, step, rest, steps = self._owner(_steps(path))
        value = _nested(rest, value)
        text = self._edited(owner, step, value)
        expected = plain(self._root)
        _put(expected, steps[: len(steps) - len(rest)], _as_read(value))
        self._keep(text, expected, steps)

    def append(self, section: str, value: Value) -> None:
        """Add an entry at the end of a list that is a section of the file, on a line of its own where the list is new.

        Raises JobFileError when the section is no list.
        """
        held = self._root.get(section)
        if held is not None and not is_empty(held) and not (isinstance(held, Listed) and not held):
            self.set((section, len(held) if isinstance(held, Listed) else 0), value)
            return
        if self._root.flow:
            self.set((section,), [value])
            return
        newline = "\r\n" if "\r\n" in self._text else "\n"
        entry = f"{newline}  - {_written(value)}"
        expected = plain(self._root)
        expected[section] = [_as_read(value)]
        if held is None:
            text = f"{self._text.rstrip()}{newline}{section}:{entry}{newline}"
        else:
            colon, span = self._text.index(":", self._root.keys_at[section].end) + 1, self._root.spans[section]
            text = self._spliced(colon, span.end if span.end > span.start else colon, entry)
        self._keep(text, expected, (section,))

    def save(self, path: Path | str) -> None:
        """Write the file whole or not at all, with the permissions of the one that it replaces."""
        path = Path(path)
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(self._text.encode("utf-8"))
                file.flush()
                os.fsync(file.fileno())
            os.chmod(name, path.stat().st_mode & 0o777 if path.exists() else 0o644)
            os.replace(name, path)
        except BaseException:
            Path(name).unlink(missing_ok=True)
            raise

    def _keep(self, text: str, expected: Any, steps: Steps) -> None:
        """Keep a changed text once reading it back gives what was meant."""
        try:
            root = read_tree(text, self._name).root
        except JobFileError as error:
            raise self._refused(steps, f"this cannot be written here ({error.mistakes[0].what})") from None
        if plain(root) != expected:
            raise self._refused(steps, "this cannot be changed alone: other values of the file repeat it")
        self._text, self._root = text, root

    def _refused(self, steps: Sequence[str | int], what: str, place: Place | None = None) -> JobFileError:
        line, column = (place.line, place.column) if place else (0, 0)
        return JobFileError(self._name, [Mistake(line, column, ".".join(map(str, steps)), what)])

    def _owner(self, steps: Steps) -> tuple[Mapped | Listed, str | int, Steps, Steps]:
        """The innermost list or mapping on the way, the step to set in it, the steps that have yet to be made, and all.

        A step into a list is a number in all of them, however it was written.
        """
        if not steps or not all(str(step) for step in steps):
            raise self._refused(steps, "name what to set, such as dims.width")
        node: Node = self._root
        for number, step in enumerate(steps):
            assert not isinstance(node, Written)
            if isinstance(node, Listed):
                step = self._index(node, step, steps)
                steps = (*steps[:number], step, *steps[number + 1 :])
            inner = _inner(node, step)
            if number == len(steps) - 1 or inner is None or is_empty(inner):
                return node, step, steps[number + 1 :], steps
            if isinstance(inner, Written):
                what = f"{excerpt(inner.text)} is a single value: nothing stands under it"
                raise self._refused(steps[: number + 1], what, inner.place)
            node = inner
        raise AssertionError("the last step returns")

    def _index(self, node: Listed, step: str | int, steps: Steps) -> int:
        index = int(step) if str(step).isdecimal() and len(str(step)) < 7 else -1
        if not 0 <= index <= len(node):
            raise self._refused(steps, f"{step!r} is not a place in a list of {len(node)}: use 0 to {len(node)}")
        return index

    def _edited(self, owner: Mapped | Listed, step: str | int, value: Value) -> str:
        if isinstance(owner, Mapped):
            key = str(step)
            if key in owner:
                return self._replaced(owner, key, value)
            return self._added(owner, f"{_scalar(key)}: {_written(value)}", "")
        if isinstance(step, int) and step < len(owner):
            span = owner.spans[step]
            return self._spliced(self._after_anchor(span.start), span.end, _written(value))
        return self._added(owner, _written(value), "- ")

    def _replaced(self, owner: Mapped, key: str, value: Value) -> str:
        """The value of a key replaced; one that stands on lines of its own moves up to its key."""
        span = owner.spans[key]
        colon = self._text.index(":", owner.keys_at[key].end) + 1
        if span.start == span.end:
            return self._spliced(colon, colon, " " + _written(value))
        if span.line == owner.keys_at[key].line:
            return self._spliced(self._after_anchor(span.start), span.end, _written(value))
        rest_of_line = re.match(r"[^\r\n]*", self._text[colon : span.start])
        comment = rest_of_line[0] if rest_of_line and "#" in rest_of_line[0] else ""
        return self._spliced(colon, span.end, f" {_written(value)}{comment}")

    def _added(self, owner: Mapped | Listed, written: str, dash: str) -> str:
        """A new entry after the last one, in the manner of the list or mapping."""
        end = self._end_of_last(owner)
        if owner.flow:
            return self._spliced(end, end, f", {written}" if owner else written)
        line_end = re.compile(r"[^\r\n]*").match(self._text, end)
        at = line_end.end() if line_end else end
        newline = "\r\n" if "\r\n" in self._text else "\n"
        return self._spliced(at, at, f"{newline}{' ' * (self._indent(owner))}{dash}{written}")

    def _indent(self, owner: Mapped | Listed) -> int:
        if isinstance(owner, Mapped) and owner:
            return next(iter(owner.keys_at.values())).column - 1
        return owner.place.column - 1

    def _end_of_last(self, owner: Mapped | Listed) -> int:
        """Where the last entry ends; in an empty list or mapping, just inside its bracket."""
        if not owner:
            return self._after_anchor(owner.place.start) + 1
        if isinstance(owner, Listed):
            return len(self._text[: owner.spans[-1].end].rstrip())
        key = next(reversed(owner))
        if is_empty(owner[key]):
            colon = self._text.find(":", owner.keys_at[key].end, owner.keys_at[key].end + 2)
            return colon + 1 if colon >= 0 else owner.keys_at[key].end
        return len(self._text[: owner.spans[key].end].rstrip())

    def _after_anchor(self, start: int) -> int:
        anchor = ANCHOR.match(self._text, start)
        return anchor.end() if anchor else start

    def _spliced(self, start: int, end: int, new: str) -> str:
        return self._text[:start] + new + self._text[end:]


def _steps(path: PathInFile) -> Steps:
    return tuple(path.split(".")) if isinstance(path, str) else tuple(path)


def _inner(node: Mapped | Listed, step: str | int) -> Node | None:
    found: Node | None = None
    if isinstance(node, Mapped):
        found = node.get(str(step))
    elif int(step) < len(node):
        found = node[int(step)]
    return found


def _nested(steps: Sequence[str | int], value: Value) -> Value:
    """The value inside as many new mappings and lists as its path still needs."""
    for step in reversed(steps):
        value = [value] if isinstance(step, int) else {step: value}
    return value


def _written(value: Value) -> str:
    """A value on one line, as it may stand in a list in brackets as well as on a line of its own."""
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{_scalar(key)}: {_written(inner)}" for key, inner in value.items()) + "}"
    if isinstance(value, str | bool | int | float | Decimal):
        return _scalar(_said(value))
    return "[" + ", ".join(_written(inner) for inner in value) + "]"


def _said(value: str | bool | int | float | Decimal) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, float):
        return f"{value:.9f}".rstrip("0").rstrip(".")  # arithmetic reads no exponents
    return value if isinstance(value, str) else f"{value:f}" if isinstance(value, Decimal) else str(value)


def _scalar(text: str) -> str:
    """A text, in quotes where YAML would take it for something else."""
    if UNPRINTABLE.search(text):
        return '"' + "".join(_escaped(letter) for letter in text) + '"'
    signed = text.startswith(("-", "+")) and text[1:2].isalnum()
    special = any(sign in text for sign in ",[]{}") or ": " in text or " #" in text or text.endswith(":")
    if text in NULLS or special or text != text.strip() or not (signed or SAFE_WORD.fullmatch(text)):
        return "'" + text.replace("'", "''") + "'"
    return text


def _escaped(letter: str) -> str:
    if letter in ESCAPES:
        return ESCAPES[letter]
    return f"\\U{ord(letter):08x}" if UNPRINTABLE.match(letter) else letter


def _as_read(value: Value) -> Any:
    """What reading a value back gives: all texts."""
    if isinstance(value, Mapping):
        return {key: _as_read(inner) for key, inner in value.items()}
    if isinstance(value, str | bool | int | float | Decimal):
        return _said(value)
    return [_as_read(inner) for inner in value]


def _put(tree: Any, steps: Sequence[str | int], value: Any) -> None:
    """Put a value in a tree of plain lists and dicts."""
    for step in steps[:-1]:
        tree = tree[step]
    last = steps[-1]
    if isinstance(tree, list) and last == len(tree):
        tree.append(value)
    else:
        tree[last] = value
