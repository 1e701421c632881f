"""YAML read as plain text values with the line of each: nothing is guessed, nothing is built by the file."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from fitwright.shop.errors import ShopMistake

LARGEST_FILE = 300_000  # characters; a shop file is some thousand
DEEPEST = 20
MOST_VALUES = 10_000

Node = str | None | list["Node"] | dict[str, "Node"]
Where = tuple[str, ...]


@dataclass
class Tree:
    """What was read: strings, lists and maps; the line of each value by its place; the mistakes met on the way."""

    root: Node = None
    lines: dict[Where, int] = field(default_factory=dict)
    mistakes: list[ShopMistake] = field(default_factory=list)

    def line_of(self, where: Where) -> int:
        """The line of a value, or of the nearest thing that holds it."""
        while where and where not in self.lines:
            where = where[:-1]
        return self.lines.get(where, 1)


def read_tree(text: str) -> Tree:
    """The values of a YAML text. Anchors, tags and several documents in one file are mistakes; so is too much of it."""
    tree = Tree()
    if len(text) > LARGEST_FILE:
        tree.mistakes.append(ShopMistake(1, "", f"the file has {len(text)} characters", f"at most {LARGEST_FILE}"))
        return tree
    builder = _Builder(tree)
    for event in _events(text, tree):
        if not builder.take(event):
            break
    return tree


def _events(text: str, tree: Tree) -> Iterator[Any]:
    from ruamel.yaml import YAML
    from ruamel.yaml.error import YAMLError

    try:
        yield from YAML(typ="safe", pure=True).parse(text)
    except (YAMLError, ValueError, RecursionError) as wrong:
        mark = getattr(wrong, "problem_mark", None)
        problem = getattr(wrong, "problem", None) or str(wrong).splitlines()[0]
        line = mark.line + 1 if mark is not None else 1
        tree.mistakes.append(ShopMistake(line, "", f"this is not YAML: {problem}", "name: value, indented by spaces"))


class _Builder:
    """Takes YAML events one by one, without recursion, so that no nesting can exhaust the stack."""

    def __init__(self, tree: Tree) -> None:
        self.tree = tree
        self.open: list[tuple[Where, dict[str, Node] | list[Node]]] = []
        self.key: list[str | None] = []
        self.count = 0

    def take(self, event: Any) -> bool:
        """False when reading has to stop."""
        kind = type(event).__name__
        line = event.start_mark.line + 1
        self.count += 1
        if self.count > MOST_VALUES or len(self.open) > DEEPEST:
            return self._stop(line, "too many values, or nested too deep")
        if kind == "AliasEvent" or getattr(event, "anchor", None):
            return self._stop(line, "anchors and aliases (& and *) are not used here", "write the values out")
        if kind in ("MappingEndEvent", "SequenceEndEvent"):
            self.open.pop()
            self.key.pop()
        elif kind == "ScalarEvent":
            self._scalar(event, line)
        elif kind in ("MappingStartEvent", "SequenceStartEvent"):
            return self._nested({} if kind == "MappingStartEvent" else [], line)
        elif kind == "DocumentStartEvent" and self.tree.root is not None:
            return self._stop(line, "a second document in the file", "one document")
        return True

    def _stop(self, line: int, what: str, accepted: str = "") -> bool:
        self.tree.mistakes.append(ShopMistake(line, "", what, accepted))
        return False

    def _scalar(self, event: Any, line: int) -> None:
        plain = event.style is None or event.style == ""
        value = None if plain and event.value in ("", "~", "null") else event.value
        if self.open and isinstance(self.open[-1][1], dict) and self.key[-1] is None:
            self._named(event.value, line)
        else:
            self._put(value, line)

    def _named(self, name: str, line: int) -> None:
        where, holder = self.open[-1]
        if name in holder:
            self.tree.mistakes.append(ShopMistake(line, ".".join((*where, name)), "is given twice", "each name once"))
        self.key[-1] = name

    def _nested(self, holder: dict[str, Node] | list[Node], line: int) -> bool:
        if self.open and isinstance(self.open[-1][1], dict) and self.key[-1] is None:
            return self._stop(line, "a name cannot be a list or a map")
        where = self._put(holder, line)
        self.open.append((where, holder))
        self.key.append(None)
        return True

    def _put(self, value: Node, line: int) -> Where:
        """Store a value where the events have got to; its place."""
        if not self.open:
            self.tree.root = value
            self.tree.lines[()] = line
            return ()
        where, holder = self.open[-1]
        if isinstance(holder, list):
            place = (*where, str(len(holder)))
            holder.append(value)
        else:
            name = self.key[-1] or ""
            place = (*where, name)
            holder[name] = value
            self.key[-1] = None
        self.tree.lines[place] = line
        return place
