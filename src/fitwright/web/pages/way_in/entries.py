"""The route as forms: the fields of each kind of obstacle, and what the job file has in them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from fitwright.job.reading import read_tree
from fitwright.job.shape.route import KINDS
from fitwright.job.written import Listed, Mapped, plain

LABELS: Mapping[str, Mapping[str, str]] = {
    "door": {
        "width": "clear width", "height": "clear height", "jamb": "depth of the jamb",
        "swing": "open leaf stands in by", "before": "next wall straight before it", "after": "next wall behind it",
    },
    "corridor": {"width": "clear width", "height": "clear height", "length": "length"},
    "corner": {
        "width": "width come by", "onward": "width gone on by", "height": "clear height", "turn": "turn, degrees",
    },
    "stairs": {
        "width": "clear width", "headroom": "headroom over nosings", "rise": "rise", "run": "run", "steps": "steps",
        "landing.length": "landing: length", "landing.width": "landing: width", "landing.after": "landing: after steps",
        "landing.turn": "landing: turn, degrees", "landing.gap": "landing: gap between flights",
    },
    "lift": {
        "door_width": "door: width", "door_height": "door: height", "width": "car: width", "depth": "car: depth",
        "height": "car: height", "load": "rated load",
    },
    "van": {
        "door_width": "door: width", "door_height": "door: height", "length": "inside: length",
        "width": "inside: width", "height": "inside: height",
        "arches.apart": "wheel arches: apart", "arches.height": "wheel arches: height",
        "bed": "height of its floor",
    },
    "step": {"height": "height"},
}  # fmt: skip
SPARE = {"spare": "room for hands, each side"}
OPTIONAL = ("jamb", "swing", "before", "after", "turn", "load", "bed", "spare", "landing", "arches")


@dataclass(frozen=True)
class Field:
    """One field of a form."""

    name: str
    label: str
    text: str
    wanted: bool


@dataclass(frozen=True)
class Entry:
    """One obstacle as its form has it; number from 0."""

    number: int
    kind: str
    name: str
    fields: tuple[Field, ...]


def entries(text: str) -> tuple[Entry, ...]:
    """The obstacles of a job file's text, those that can be read. Raises JobFileError for a text that is no file."""
    return tuple(_entry(number, one) for number, one in enumerate(route_of(text)) if _kind(one) is not None)


def blank(kind: str) -> Entry:
    """An empty form."""
    return Entry(-1, kind, "", _fields(kind, {}))


def route_of(text: str) -> list[dict[str, Any]]:
    """The route as plain data."""
    space = read_tree(text, "job.yaml").root.get("space")
    route = space.get("route") if isinstance(space, Mapped) else None
    found = plain(route) if isinstance(route, Listed) else []
    return [one for one in found if isinstance(one, dict)] if isinstance(found, list) else []


def value_of(kind: str, name: str, form: Mapping[str, str]) -> dict[str, Any]:
    """What a form says, as the job file has it; what is empty is left out."""
    value: dict[str, Any] = {kind: name}
    for key in (*LABELS[kind], *SPARE):
        said = " ".join(form.get(key, "").split())
        owner, _, inner = key.partition(".")
        if said and inner:
            value.setdefault(owner, {})[inner] = said
        elif said:
            value[key] = said
    return value


def _entry(number: int, one: dict[str, Any]) -> Entry:
    kind = _kind(one)
    assert kind is not None
    return Entry(number, kind, str(one[kind]), _fields(kind, one))


def _kind(one: dict[str, Any]) -> str | None:
    return next((kind for kind in KINDS if kind in one), None)


def _fields(kind: str, one: Mapping[str, Any]) -> tuple[Field, ...]:
    labels = {**LABELS[kind], **SPARE}
    return tuple(
        Field(key, label, _written(one, key), key.partition(".")[0] not in OPTIONAL) for key, label in labels.items()
    )


def _written(one: Mapping[str, Any], key: str) -> str:
    owner, _, inner = key.partition(".")
    found = one.get(owner)
    if inner:
        found = found.get(inner) if isinstance(found, dict) else None
    return "" if found is None or isinstance(found, (dict, list)) else str(found)
