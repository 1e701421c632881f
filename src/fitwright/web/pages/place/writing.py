"""What the forms of the survey say, written into the job file: what differs is changed, what was emptied taken out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from fitwright.job import JobFile
from fitwright.job.written import plain
from fitwright.web.errors import NotTaken
from fitwright.web.pages.file.removing import without
from fitwright.web.pages.place.survey import (
    KEYS,
    REST,
    SECTION,
    THREE,
    Path,
    floor_places,
    path_of,
    space_of,
    survey_of,
    written_at,
)

LONGEST_NAME = 40
SIDES = ("front", "back", "left", "right")
MAPPINGS = ("skirting", "clear", "stand", "clean")


def with_measures(text: str, form: Mapping[str, str]) -> str:
    """The text with the lengths of the opening and the floor as the diagrams have them. Raises NotTaken."""
    listed = [entry.name for entry in survey_of(text).listed]
    for what in THREE:
        if not any(name.startswith(f"opening.{what}.") for name in listed):
            text = _with_three(text, what, form)
    for name in listed:
        if not _said(form, name) and name in form:
            raise NotTaken("a size with a place of its own is changed here, and taken out in the text")
        text = _with_single(text, name, form)
    for side in ("left", "right", "back"):
        text = _with_single(text, f"opening.lean.{side}", form)
    text = _with_plan(text, form)
    return _with_floor(_without_empty(text, ("opening", "lean")), form)


def with_wishes(text: str, form: Mapping[str, str]) -> str:
    """The text with what stands beside the diagrams. Raises NotTaken."""
    said = _said(form, "skirting.on")
    if said is not None and said != written_at(space_of(text), ("skirting", "on")):
        walls = [word for word in said.replace(",", " ").split() if word]
        text = _set(text, ("skirting", "on"), walls) if walls else _unset(text, ("skirting", "on"))
    for name in REST:
        if name != "skirting.on":
            text = _with_single(text, name, form)
    for name in MAPPINGS:
        text = _without_empty(text, (name,))
    return text


def with_one(text: str, kind: str, name: str, form: Mapping[str, str], *, new: bool) -> str:
    """The text with a thing or a door as its form has it. Raises NotTaken."""
    if kind not in KEYS:
        raise NotTaken(f"{kind[:40]!r} is no kind of thing: {', '.join(KEYS)}")
    if not name or len(name) > LONGEST_NAME:
        raise NotTaken(f"a name has one to {LONGEST_NAME} letters")
    section = SECTION[kind]
    known = _names(text, section)
    if new and name in known:
        raise NotTaken(f"there is a {name} already: choose another name")
    if not new and name not in known:
        raise NotTaken(f"there is no {name}: it was taken out or renamed meanwhile")
    value = _value(KEYS[kind], form)
    if new:
        return _set(text, (section, name), value)
    for key, inner in value.items():
        if _plain_at(text, (section, name, key)) != inner:
            text = _set(text, (section, name, key), inner)
    for key in [key for key in _names(text, section, name) if key not in value]:
        text = _unset(text, (section, name, key))
    return text


def without_one(text: str, kind: str, name: str) -> str:
    """The text without a thing or a door. Raises NotTaken, NotThere."""
    if kind not in SECTION:
        raise NotTaken(f"{kind[:40]!r} is no kind of thing: {', '.join(KEYS)}")
    return _without_empty(_unset(text, (SECTION[kind], name)), (SECTION[kind],))


def _value(keys: tuple[str, ...], form: Mapping[str, str]) -> dict[str, Any]:
    """A mapping of the job file from fields such as `at.0` and `reach`; what is empty is left out."""
    value: dict[str, Any] = {}
    for key in keys:
        said = (_said(form, key) or "").strip()
        owner, _, place = key.partition(".")
        if place:
            value.setdefault(owner, []).append(said)
        elif said:
            value[key] = said
    lists = {key: inner for key, inner in value.items() if isinstance(inner, list)}
    for key, inner in lists.items():
        if not all(inner):
            raise NotTaken(f"give all {len(inner)} lengths of {key}")
    return value


def _with_three(text: str, what: str, form: Mapping[str, str]) -> str:
    said = [_said(form, f"opening.{what}.{k}") for k in range(3)]
    if any(one is None for one in said):
        return text
    texts = [one or "" for one in said]
    before = _plain_at(text, ("opening", what))
    if all(texts):
        value: Any = texts
    elif texts[0] and not any(texts[1:]):
        value = texts[0]
    elif any(texts):
        raise NotTaken(f"give one {what}, in the first of its fields, or all three")
    else:
        return text if before is None else _unset(text, ("opening", what))
    return text if value == before else _set(text, ("opening", what), value)


def _with_plan(text: str, form: Mapping[str, str]) -> str:
    names = [*(f"opening.plan.{side}" for side in SIDES), "opening.plan.diagonals.0", "opening.plan.diagonals.1"]
    said = [_said(form, name) for name in names]
    if any(one is None for one in said):
        return text
    texts = [one or "" for one in said]
    before = _plain_at(text, ("opening", "plan"))
    if not any(texts):
        return text if before is None else _unset(text, ("opening", "plan"))
    if not all(texts[:5]):
        raise NotTaken("a plan is its four sides and a diagonal at least; the second diagonal checks the others")
    diagonals = [one for one in texts[4:] if one]
    if before is None:
        return _set(text, ("opening", "plan"), {**dict(zip(SIDES, texts[:4], strict=True)), "diagonals": diagonals})
    for side, one in zip(SIDES, texts[:4], strict=True):
        text = text if before.get(side) == one else _set(text, ("opening", "plan", side), one)
    return text if before.get("diagonals") == diagonals else _set(text, ("opening", "plan", "diagonals"), diagonals)


def _with_floor(text: str, form: Mapping[str, str]) -> str:
    """Heights of places that are written are changed; of the four corners all are written, or none."""
    places = floor_places(space_of(text))
    said = [_said(form, f"floor.{k}") for k in range(len(places))]
    if not places or any(one is None for one in said):
        return text
    texts = [one or "" for one in said]
    given = _plain_at(text, ("floor",))
    if not any(texts):
        return text if given is None else _unset(text, ("floor",))
    if not all(texts):
        raise NotTaken("give the height of the floor at every place, 0 where it is level with the first, or at none")
    if given is None:
        rows = [{"at": [x, y], "is": height} for (x, y, _), height in zip(places, texts, strict=True)]
        return _set(text, ("floor",), rows)
    for k, (place, height) in enumerate(zip(places, texts, strict=True)):
        text = text if place[2] == height else _set(text, ("floor", k, "is"), height)
    return text


def _with_single(text: str, name: str, form: Mapping[str, str]) -> str:
    said, path = _said(form, name), path_of(name)
    before = written_at(space_of(text), path)
    if said is None or said == before:
        return text
    return _set(text, path, said) if said else _unset(text, path)


def _said(form: Mapping[str, str], name: str) -> str | None:
    said = form.get(name)
    return None if said is None else " ".join(said.split())


def _plain_at(text: str, path: Path) -> Any:
    node: Any = space_of(text)
    for step in path:
        if isinstance(node, dict):
            node = node.get(str(step))
        elif isinstance(node, list) and int(step) < len(node):
            node = node[int(step)]
        else:
            return None
    return None if node is None else plain(node)


def _names(text: str, *path: str) -> list[str]:
    found = _plain_at(text, path)
    return list(found) if isinstance(found, dict) else []


def _set(text: str, path: Path, value: Any) -> str:
    file = JobFile(text)
    file.set(("space", *path), value)
    return file.text()


def _unset(text: str, path: Path) -> str:
    return without(text, ("space", *(str(step) for step in path)))


def _without_empty(text: str, path: Path) -> str:
    """A mapping that has lost its last key goes too, for a key with nothing behind it is a mistake."""
    names = [str(step) for step in path]
    owner = _plain_at(text, path[:-1])
    if isinstance(owner, dict) and names[-1] in owner and not owner[names[-1]]:
        return _unset(text, path)
    return text
