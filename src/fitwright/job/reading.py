"""From bytes to the tree of a job file, within bounds that hold for any input.

The tree is built straight from ruamel.yaml's events: nothing is constructed that the file could choose, every value
keeps its place, and depth, count and aliases are bounded while reading rather than after.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path
from stat import S_ISDIR, S_ISREG
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError
from ruamel.yaml.events import (
    AliasEvent,
    CollectionEndEvent,
    DocumentStartEvent,
    MappingStartEvent,
    NodeEvent,
    ScalarEvent,
)

from fitwright.job.mistakes import JobFileError, Mistake, excerpt
from fitwright.job.written import Listed, Mapped, Node, Place, Tree, Written

MAX_BYTES = 500_000
MAX_LINE = 4_000
MAX_DEPTH = 24
MAX_VALUES = 15_000

CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ufffe\uffff\ud800-\udfff]")
DIRECTIVE = re.compile(r"^\ufeff?%", re.MULTILINE)
TAB_INDENT = re.compile(r"^ *\t", re.MULTILINE)


class _Wrong(Exception):
    """Stops the reading at one mistake."""

    def __init__(self, mistake: Mistake) -> None:
        self.mistake = mistake


def read_text(path: Path) -> str:
    """The text of a job file; raises JobFileError when it is missing, too large or not text."""
    try:
        return _decoded(_bytes_of(path))
    except _Wrong as wrong:
        raise JobFileError(str(path), [wrong.mistake]) from None


def read_tree(text: str, name: str) -> Tree:
    """The tree of a job file's text; raises JobFileError with the mistake that stops it, or with all repeated keys."""
    try:
        tree, mistakes = _read(text)
    except _Wrong as wrong:
        raise JobFileError(name, [wrong.mistake]) from None
    if mistakes:
        raise JobFileError(name, [*mistakes])
    return tree


@lru_cache(maxsize=8)
def _read(text: str) -> tuple[Tree, tuple[Mistake, ...]]:
    """The tree, which nobody changes, and repeated keys: a change is read back first, and then loaded as a job."""
    _check_text(text)
    builder = _Builder(text)
    root = builder.document()
    return Tree(root, text), tuple(builder.mistakes)


def _whole(what: str) -> _Wrong:
    return _Wrong(Mistake(0, 0, "", what))


def _bytes_of(path: Path) -> bytes:
    try:
        status = path.stat()
        if S_ISDIR(status.st_mode):
            raise _whole(f"{path} is a folder: name the job file in it, such as {path / 'job.yaml'}")
        if not S_ISREG(status.st_mode):
            raise _whole(f"{path} is not an ordinary file")
        if status.st_size > MAX_BYTES:
            raise _whole(f"the file has {status.st_size:,} bytes; a job file has at most {MAX_BYTES:,}")
        with path.open("rb") as file:
            return file.read(MAX_BYTES + 1)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise _whole(f"{path} cannot be read: {reason.lower()}") from None


def _decoded(raw: bytes) -> str:
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        column = error.start - (raw.rfind(b"\n", 0, error.start) + 1) + 1
        what = f"the file is not UTF-8 text: byte {raw[error.start]:#04x} cannot be read; save it as UTF-8"
        raise _Wrong(Mistake(line, column, "", what)) from None


def _check_text(text: str) -> None:
    if len(text) > MAX_BYTES:
        raise _whole(f"the text has {len(text):,} characters; a job file has at most {MAX_BYTES:,}")
    odd = CONTROL.search(text)
    if odd:
        line, column = _line_column(text, odd.start())
        raise _Wrong(Mistake(line, column, "", f"a control character ({ord(odd[0]):#04x}) is not text: remove it"))
    directive = DIRECTIVE.search(text)
    if directive:
        line, _ = _line_column(text, directive.start())
        raise _Wrong(Mistake(line, 1, "", "a line that begins with % is not used in job files: remove it"))
    for number, line_text in enumerate(text.split("\n"), 1):
        if len(line_text) > MAX_LINE:
            what = f"the line has {len(line_text):,} characters; at most {MAX_LINE:,} are read"
            raise _Wrong(Mistake(number, 1, "", what))


def _line_column(text: str, index: int) -> tuple[int, int]:
    return text.count("\n", 0, index) + 1, index - (text.rfind("\n", 0, index) + 1) + 1


def _reworded(error: Exception, text: str) -> Mistake:
    """A reader's complaint in plain words, at its line."""
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
    tab = TAB_INDENT.search(text)
    if tab and _line_column(text, tab.start())[0] <= line:
        return Mistake(_line_column(text, tab.start())[0], 1, "", "a tab begins the line: indent with spaces")
    problem = error.problem or "" if isinstance(error, MarkedYAMLError) else str(error)
    return Mistake(line, column, "", _plain_words(problem))


def _plain_words(problem: str) -> str:
    for part, words in PLAIN_WORDS:
        if part in problem:
            return words
    return f"this is not YAML: {excerpt(problem)[1:-1]}"


PLAIN_WORDS = (
    (
        "mapping values are not allowed",
        "a second ': ' on the line, or a line indented unlike its neighbours: put the value in quotes or line it up",
    ),
    ("expected ',' or ']'", "a list opened with [ lacks a comma or its closing ]"),
    ("expected ',' or '}'", "a mapping opened with { lacks a comma or its closing }"),
    (
        "expected <block end>",
        "the line is indented differently from its neighbours, or a quote ends before the value does",
    ),
    ("could not find expected ':'", "a key has no ': ' after it"),
    ("found unexpected end of stream", "a quote is opened and never closed"),
    ("found character '\\t'", "a tab stands here, perhaps at the end of the line: use spaces, or nothing"),
    ("cannot start any token", "a value may not begin with this character: put the value in quotes"),
    ("found undefined alias", "the name after * is not marked anywhere above with &"),
    ("expected the node content", "a value is missing here"),
    ("found unknown escape character", "a backslash in double quotes: use single quotes"),
    ("expected alphabetic or numeric character", "* and & begin a YAML alias: put the value in quotes"),
)


@dataclass(frozen=True)
class _Built:
    """A node, how many values it holds, how deep it is, and its span in the text."""

    node: Node
    values: int
    tall: int
    span: Place


class _Builder:
    """Builds the tree from events, one value at a time."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.mistakes: list[Mistake] = []
        self._events = _events(text)
        self._marked: dict[str, _Built] = {}
        self._values = 0
        self._closed_at = 0

    def document(self) -> Mapped:
        """The one document of the file, which has to be a mapping."""
        for event in self._events:
            if isinstance(event, DocumentStartEvent):
                return self._root()
        raise _whole("the file is empty: a job file has at least job, stock and parts")

    def _root(self) -> Mapped:
        root = self._node(next(self._events), "", 1).node
        if not isinstance(root, Mapped):
            raise self._wrong(root.place, "", "a job file is made of sections such as job:, dims:, stock:, parts:")
        for event in self._events:
            if isinstance(event, DocumentStartEvent):
                raise self._wrong(_place(event), "", "a second document begins here: a job file holds one job")
        return root

    def _node(self, event: Any, where: str, depth: int) -> _Built:
        """The node that an event begins."""
        place = _place(event)
        if isinstance(event, AliasEvent):
            return self._alias(event, place, where, depth)
        if event.ctag is not None and (event.tag or "") != "!":
            raise self._wrong(place, where, f"the tag {excerpt(str(event.tag))} is not used in job files: remove it")
        self._bound(place, where, depth, 1)
        if isinstance(event, ScalarEvent):
            built = self._value(event, where, place)
        elif isinstance(event, MappingStartEvent):
            built = self._mapping(Mapped(where, place, bool(event.flow_style)), depth)
        else:
            built = self._list(Listed(where, place, bool(event.flow_style)), depth)
        if event.anchor:
            self._marked[event.anchor] = built
        return built

    def _value(self, event: ScalarEvent, where: str, place: Place) -> _Built:
        """A single value; a block of text ends with its last letter, not where the next thing begins."""
        if event.style in ("|", ">"):
            place = replace(place, end=len(self.text[: place.end].rstrip()))
        return _Built(Written(event.value, where, place, event.style is not None), 1, 1, place)

    def _alias(self, event: AliasEvent, place: Place, where: str, depth: int) -> _Built:
        if event.anchor not in self._marked:
            what = f"*{event.anchor} is not marked with &{event.anchor} anywhere above"
            raise self._wrong(place, where, what)
        marked = self._marked[event.anchor]
        self._bound(place, where, depth + marked.tall - 1, marked.values)
        return replace(marked, span=place)

    def _mapping(self, mapping: Mapped, depth: int) -> _Built:
        held = [self._entry(mapping, event, depth) for event in self._inside()]
        return self._closed(mapping, held)

    def _entry(self, mapping: Mapped, event: NodeEvent, depth: int) -> _Built:
        if not isinstance(event, ScalarEvent):
            raise self._wrong(_place(event), mapping.where, "a key has to be a single word")
        where = f"{mapping.where}.{event.value}" if mapping.where else str(event.value)
        built = self._node(next(self._events), where[:200], depth + 1)
        self._keep(mapping, event.value, _place(event), built)
        return built

    def _keep(self, mapping: Mapped, key: str, place: Place, built: _Built) -> None:
        if key in mapping:
            first = mapping.keys_at[key].line
            what = f"{excerpt(key)} is given twice, on line {first} and on line {place.line}: keep one"
            self.mistakes.append(Mistake(place.line, place.column, mapping.where, what))
            return
        mapping[key] = built.node
        mapping.keys_at[key] = place
        mapping.spans[key] = built.span

    def _list(self, listed: Listed, depth: int) -> _Built:
        held = []
        for event in self._inside():
            held.append(self._node(event, f"{listed.where}[{len(listed) + 1}]"[:200], depth + 1))
            listed.append(held[-1].node)
            listed.spans.append(held[-1].span)
        return self._closed(listed, held)

    def _inside(self) -> Iterator[NodeEvent]:
        for event in self._events:
            if isinstance(event, CollectionEndEvent):
                self._closed_at = event.end_mark.index
                return
            yield event

    def _closed(self, node: Mapped | Listed, held: list[_Built]) -> _Built:
        """The finished collection; a block one ends where its last value does, not where the next thing begins."""
        last = held[-1].span.end if held else node.place.end
        end = self._closed_at if node.flow else len(self.text[:last].rstrip())
        span = replace(node.place, end=end)
        return _Built(node, 1 + sum(one.values for one in held), 1 + max((one.tall for one in held), default=0), span)

    def _bound(self, place: Place, where: str, depth: int, count: int) -> None:
        self._values += count
        if depth > MAX_DEPTH:
            raise self._wrong(place, where, f"lists and mappings are nested more than {MAX_DEPTH} deep")
        if self._values > MAX_VALUES:
            raise self._wrong(place, "", f"the file holds more than {MAX_VALUES:,} values, aliases written out")

    def _wrong(self, place: Place, where: str, what: str) -> _Wrong:
        return _Wrong(Mistake(place.line, place.column, where if len(where) < 100 else "", what))


def _events(text: str) -> Iterator[Any]:
    try:
        yield from YAML(typ="safe", pure=True).parse(text)
    except Exception as error:  # on broken input ruamel.yaml also asserts, indexes past ends and overflows
        raise _Wrong(_reworded(error, text)) from None


def _place(event: Any) -> Place:
    start, end = event.start_mark, event.end_mark
    return Place(start.line + 1, start.column + 1, start.index, end.index)
