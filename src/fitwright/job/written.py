"""The job file as it is written: a tree of texts, lists and mappings, each knowing its line."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, PydanticCustomError, core_schema


@dataclass(frozen=True)
class Place:
    """Where a thing stands: line and column from 1, and its span of characters in the text."""

    line: int
    column: int
    start: int = 0
    end: int = 0


START = Place(1, 1)


@dataclass(frozen=True)
class Written:
    """One value as the maker wrote it; where: its dotted name in the file; quoted: whether it stood in quotes."""

    text: str
    where: str = ""
    place: Place = START
    quoted: bool = False

    @property
    def empty(self) -> bool:
        """Nothing was written, or the word for nothing."""
        return not self.quoted and self.text in ("", "~", "null")

    @classmethod
    def __get_pydantic_core_schema__(cls, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(as_written)

    @classmethod
    def __get_pydantic_json_schema__(cls, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        return {"type": ["string", "number"]}


class Listed(list[Any]):
    """A list of the file. `place`: where it begins; `where`: its dotted name; `flow`: whether it stands in [ ].

    `spans`: where each item stands as written, for an alias the alias.
    """

    def __init__(self, where: str, place: Place, flow: bool = True) -> None:
        super().__init__()
        self.where = where
        self.place = place
        self.flow = flow
        self.spans: list[Place] = []


class Mapped(dict[str, Any]):
    """A mapping of the file. `keys_at`: where each key stands; `spans`: where each value does; else as for a list."""

    def __init__(self, where: str, place: Place, flow: bool = True) -> None:
        super().__init__()
        self.where = where
        self.place = place
        self.flow = flow
        self.keys_at: dict[str, Place] = {}
        self.spans: dict[str, Place] = {}


Node = Written | Listed | Mapped


@dataclass(frozen=True)
class Tree:
    """A whole file: its root and its text."""

    root: Mapped
    text: str = field(repr=False)


def as_written(value: object) -> Written:
    """The value when it is a single written one; what pydantic calls for every leaf."""
    if not isinstance(value, Written):
        kind = "a list" if isinstance(value, list) else "a mapping"
        raise PydanticCustomError("one_value", "one value belongs here, not {kind}", {"kind": kind})
    if value.empty:
        raise PydanticCustomError(
            "empty_value",
            "nothing is written here: give a value or leave the key out (quote a value that begins with #)",
        )
    return value


def is_empty(node: object) -> bool:
    """Whether a node is a key with nothing behind it."""
    return isinstance(node, Written) and node.empty


def place_of(node: Node) -> Place:
    """Where a node of the tree begins."""
    return node.place


def plain(node: Node) -> Any:
    """The node as plain texts, lists and dicts, for what is kept as given."""
    if isinstance(node, Written):
        return None if node.empty else node.text
    if isinstance(node, Listed):
        return [plain(item) for item in node]
    return {key: plain(value) for key, value in node.items()}
