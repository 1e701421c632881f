"""The form of one part: a field for every key it has, with what the key means, and the keys it could have."""

from __future__ import annotations

import textwrap
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Any

from fitwright.job import JobFileError, job_schema
from fitwright.job.model import Job
from fitwright.job.reading import read_tree
from fitwright.job.rewriting import Value
from fitwright.job.written import Mapped, plain
from fitwright.web.errors import NotTaken, NotThere

SHAPES = {"member": "MemberShape", "panel": "PanelShape", "bought": "HardwareShape", "opening": "OpeningPartShape"}
SIZE = "300 mm"
FLAT_GOODS = ("plywood", "sheet")
KEY_OF = {"member": ("path", "outside", "ring"), "panel": ("slats", "solid", "sheet"), "opening": ("opening",)}


@dataclass(frozen=True)
class Field:
    """One key: what is written, whether that is several lines, and what the key means."""

    key: str
    text: str
    told: str
    long: bool


@dataclass(frozen=True)
class PartForm:
    """A part: its name, kind, line in the file, its keys, and further keys with what they mean."""

    name: str
    kind: str
    line: int
    fields: tuple[Field, ...]
    more: tuple[tuple[str, str], ...]


def part_names(text: str) -> list[tuple[str, str]]:
    """The parts of a job file with their kinds, as the file has them, right or wrong."""
    parts = read_tree(text, "job.yaml").root.get("parts")
    if not isinstance(parts, Mapped):
        return []
    return [(name, _kind(node)) for name, node in parts.items()]


def part_form(text: str, name: str) -> PartForm:
    """The form of a part. Raises NotThere."""
    parts = read_tree(text, "job.yaml").root.get("parts")
    part = parts.get(name) if isinstance(parts, Mapped) else None
    if not isinstance(part, Mapped) or not isinstance(parts, Mapped):
        raise NotThere(f"there is no part called {name[:60]!r} that has a form: see the text")
    kind = _kind(part)
    told = meanings(kind)
    fields = [_field(key, _as_written(text, part, key), told.get(key, "")) for key in part]
    more = tuple((key, said) for key, said in told.items() if key not in part)
    return PartForm(name, kind, parts.keys_at[name].line, tuple(fields), more)


@cache
def meanings(kind: str) -> dict[str, str]:
    """What each key of a kind of part means, by the schema of the job file."""
    shape: dict[str, Any] = job_schema()["$defs"][SHAPES[kind]]
    return {key: str(said.get("description", "")) for key, said in shape["properties"].items()}


def value_of(key: str, text: str) -> Value:
    """What a field's text says. Raises NotTaken."""
    text = text.replace("\r\n", "\n").strip("\n")
    said = f"value:\n{textwrap.indent(text, '  ')}\n" if "\n" in text else f"value: {text}\n"
    try:
        return plain(read_tree(said, key).root["value"])  # type: ignore[no-any-return]
    except JobFileError as wrong:
        raise NotTaken(f"{key}: {wrong.mistakes[0].what}") from None


def first_values(kind: str, job: Job) -> Value:
    """What a new part of a kind begins with: something small that can be seen and changed.

    Raises NotTaken where the job has no stock that such a part can be made of.
    """
    begin: dict[str, Callable[[Job], Value]] = {
        "member": _first_member,
        "panel": _first_panel,
        "bought": lambda _: {"fitting": {"label": "name it"}, "at": ["0", "0", "0"]},
        "opening": lambda _: {"opening": {"from": ["0", "0", "0"], "to": [SIZE, SIZE, SIZE]}},
    }
    return begin[kind](job)


def _first_member(job: Job) -> Value:
    for short, stock in job.stock.items():
        if stock.section.shape not in FLAT_GOODS:
            return {"stock": short, "path": [["0", "0", "0"], [SIZE, "0", "0"]], "ends": "free"}
    raise NotTaken("this job has no tube, bar, angle or lumber under stock: add one in the text first")


def _first_panel(job: Job) -> Value:
    for short, stock in job.stock.items():
        key = {"lumber": "solid", "plywood": "sheet", "sheet": "sheet"}.get(stock.section.shape)
        if key is not None:
            return {key: short, "from": ["0", "0", "0"], "to": [SIZE, SIZE, "0"]}
    raise NotTaken("this job has no lumber, plywood or sheet under stock: add one in the text first")


def _kind(part: object) -> str:
    keys = part if isinstance(part, Mapped) else {}
    return next((kind for kind, known in KEY_OF.items() if any(key in keys for key in known)), "bought")


def _as_written(text: str, part: Mapped, key: str) -> str:
    """The value as it stands in the file, without the indent of its block."""
    span = part.spans[key]
    line_start = text.rfind("\n", 0, span.start) + 1
    lead = text[line_start : span.start]
    said = text[span.start : span.end].rstrip()
    return textwrap.dedent((lead if lead.isspace() else "") + said) if "\n" in said else said


def _field(key: str, text: str, told: str) -> Field:
    return Field(key, text, told, "\n" in text or len(text) > 40)
