"""Obstacles written into the job file's text: added, changed, moved up, taken out; the rest stays as it was."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from fitwright.job import JobFile
from fitwright.job.reading import read_tree
from fitwright.job.written import Listed, Mapped
from fitwright.web.errors import NotTaken
from fitwright.web.pages.file.removing import without
from fitwright.web.pages.way_in.entries import LABELS, route_of, value_of

ROUTE = ("space", "route")
LONGEST_NAME = 40


def with_new(text: str, kind: str, name: str, form: Mapping[str, str]) -> str:
    """The text with one more obstacle at the end. Raises NotTaken."""
    if kind not in LABELS:
        raise NotTaken(f"{kind[:40]!r} is no obstacle: {', '.join(LABELS)}")
    file = JobFile(text)
    file.set((*ROUTE, len(route_of(text))), value_of(kind, _named(name), form))
    return file.text()


def with_changed(text: str, number: int, form: Mapping[str, str]) -> str:
    """The text with an obstacle as its form has it: only what differs is written. Raises NotTaken."""
    before = _at(text, number)
    kind = next((key for key in LABELS if key in before), "")
    if not kind:
        raise NotTaken("this obstacle cannot be read: change it in the text")
    value = value_of(kind, _named(form.get("name", "")), form)
    file = JobFile(text)
    if set(value) == set(before):
        for key, inner in value.items():
            if before[key] != inner:
                file.set((*ROUTE, number, key), inner)
    else:
        file.set((*ROUTE, number), value)
    return file.text()


def moved_up(text: str, number: int) -> str:
    """The text with an obstacle one place earlier."""
    route = route_of(text)
    _at(text, number)
    if number == 0:
        raise NotTaken("this is the first already")
    wanted = [*route[: number - 1], route[number], route[number - 1], *route[number + 1 :]]
    begins = _lines(text)
    if begins is not None:
        first, second, end = begins[number - 1], begins[number], begins[number + 1]
        swapped = text[:first] + text[second:end] + text[first:second] + text[end:]
        if _reads(swapped, wanted):
            return swapped
    return _whole(text, wanted)


def without_one(text: str, number: int) -> str:
    """The text without an obstacle."""
    route = route_of(text)
    _at(text, number)
    if len(route) == 1:
        return without(text, ROUTE)
    wanted = [*route[:number], *route[number + 1 :]]
    begins = _lines(text)
    if begins is not None:
        cut = text[: begins[number]] + text[begins[number + 1] :]
        if _reads(cut, wanted):
            return cut
    return _whole(text, wanted)


def _whole(text: str, route: list[dict[str, Any]]) -> str:
    file = JobFile(text)
    file.set(ROUTE, route)
    return file.text()


def _reads(text: str, wanted: list[dict[str, Any]]) -> bool:
    try:
        return route_of(text) == wanted
    except ValueError:
        return False


def _lines(text: str) -> list[int] | None:
    """Where the lines of each entry begin, and where those of the last end; None for a list in brackets."""
    space = read_tree(text, "job.yaml").root["space"]
    route = space["route"] if isinstance(space, Mapped) else None
    if not isinstance(route, Listed) or route.flow or not text.endswith("\n"):
        return None
    begins = [text.rfind("\n", 0, span.start) + 1 for span in route.spans]
    last = len(text[: route.spans[-1].end].rstrip())
    return [*begins, text.index("\n", last) + 1]


def _at(text: str, number: int) -> dict[str, Any]:
    route = route_of(text)
    if not 0 <= number < len(route):
        raise NotTaken("this obstacle is not there any more: it was taken out or moved meanwhile")
    return route[number]


def _named(name: str) -> str:
    said = " ".join(name.split())
    if not said or len(said) > LONGEST_NAME:
        raise NotTaken(f"a name has one to {LONGEST_NAME} letters")
    return said
