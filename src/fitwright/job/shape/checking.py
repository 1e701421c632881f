"""A tree held against the models: every mistake of shape, in plain words, at its line."""

from __future__ import annotations

from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from fitwright.job.mistakes import TOO_MANY, Mistake, excerpt, nearest
from fitwright.job.shape.accepted import keys_at
from fitwright.job.shape.file import FileShape
from fitwright.job.shape.parts import KIND_KEYS, KIND_OF_KEY, kinds_in, tried_keys
from fitwright.job.shape.pruning import copied, cut
from fitwright.job.written import Listed, Mapped, Node, Place, Written, is_empty

MAX_PARTS = 500
MAX_POINTS = 200
MAX_DIMS = 500
MAX_STOCK = 100
MAX_JOINTS = 1000
MOST = (
    ("parts", MAX_PARTS, "; use repeat"),
    ("dims", MAX_DIMS, ""),
    ("stock", MAX_STOCK, ""),
    ("joints", MAX_JOINTS, "; the others are found"),
)
ROUNDS = 12
"""Cutting one level at a time reaches the top of any file: it is never nested deeper than this in the models."""

WORDS = {
    "dict_type": "keys with values belong here, as {key: value}",
    "model_type": "keys with values belong here, as {key: value}",
    "model_attributes_type": "keys with values belong here, as {key: value}",
    "list_type": "a list in [ ] belongs here",
    "wrong_form": "this may not be written in this form here",
}
"""What pydantic's kinds of error mean to a maker."""


def check_shape(root: Mapped) -> tuple[FileShape | None, list[Mistake]]:
    """The file's shape with all mistakes of shape; with mistakes, the shape of what is good in it, or None."""
    kept = _without_empty(root)
    if beyond := _limits(kept):
        return None, beyond
    mistakes = _kinds(kept)
    try:
        return FileShape.model_validate(kept), mistakes
    except ValidationError as error:
        found = _details(error)
        mistakes += [_mistake(one, kept) for one in found[:TOO_MANY] if not _told_already(one, found, kept)]
        return _good_part(kept, found), mistakes


def _details(error: ValidationError) -> list[ErrorDetails]:
    return error.errors(include_url=False, include_input=False)


def _good_part(root: Mapped, errors: list[ErrorDetails]) -> FileShape | None:
    """The shape of a wrong tree once all that is wrong is cut out of it."""
    good = copied(root)
    assert isinstance(good, Mapped)
    for _ in range(ROUNDS):
        cut(good, errors)
        try:
            return FileShape.model_validate(good)
        except ValidationError as error:
            errors = _details(error)
    return None


def _told_already(error: ErrorDetails, errors: list[ErrorDetails], root: Mapped) -> bool:
    """A missing key that is there misspelt, or a second kind of part, is one mistake, not two."""
    location, key = error["loc"], str(error["loc"][-1])
    if error["type"] == "extra_forbidden" and location[0] == "parts":
        part = _find(root, location[:-1])[2]
        return key in KIND_OF_KEY and isinstance(part, Mapped) and len(kinds_in(part)) > 1
    if error["type"] != "missing":
        return False
    accepted = keys_at(FileShape, location[:-1])
    beside = (str(other["loc"][-1]) for other in errors if _unknown_beside(other, location))
    return any(nearest(other, accepted) == key for other in beside)


def _unknown_beside(error: ErrorDetails, location: tuple[int | str, ...]) -> bool:
    return error["type"] == "extra_forbidden" and error["loc"][:-1] == location[:-1]


def _without_empty(root: Mapped) -> Mapped:
    """The root without sections that have nothing in them, which a file half written has."""
    kept = Mapped(root.where, root.place)
    for key, value in root.items():
        if not is_empty(value) or key not in FileShape.model_fields:
            kept[key] = value
            kept.keys_at[key] = root.keys_at[key]
    return kept


def _limits(root: Mapped) -> list[Mistake]:
    """Sections and paths that are longer than any job's."""
    found = [
        _at(root.keys_at[section], section, f"{len(root[section])} {section}: a job has at most {most}{advice}")
        for section, most, advice in MOST
        if isinstance(root.get(section), Mapped | Listed) and len(root[section]) > most
    ]
    parts = root.get("parts")
    for name, part in parts.items() if isinstance(parts, Mapped) else ():
        for key in ("path", "outside"):
            points = part.get(key) if isinstance(part, Mapped) else None
            if isinstance(points, Listed) and len(points) > MAX_POINTS:
                what = f"{len(points)} points: a path has at most {MAX_POINTS}"
                found.append(_at(points.place, f"parts.{name}.{key}", what))
    return found


def _kinds(root: Mapped) -> list[Mistake]:
    """Parts that are of no kind, or of two."""
    parts = root.get("parts")
    if not isinstance(parts, Mapped):
        return []
    told = (_kind_mistake(name, part, parts.keys_at[name]) for name, part in parts.items() if isinstance(part, Mapped))
    return [one for one in told if one is not None]


def _kind_mistake(name: str, part: Mapped, place: Place) -> Mistake | None:
    given = [key for key in part if key in KIND_OF_KEY]
    if len(given) > 1:
        what = f"{' and '.join(given)} say what the part is: keep one"
        return _at(part.keys_at[given[1]], f"parts.{name}", what)
    if kinds_in(part) or any(nearest(key, KIND_OF_KEY) for key in tried_keys(part)):
        return None
    what = "nothing says what the part is: give it one of these keys"
    return Mistake(
        place.line, place.column, f"parts.{name}", what, tuple(key for keys in KIND_KEYS.values() for key in keys)
    )


def _mistake(error: ErrorDetails, root: Mapped) -> Mistake:
    location = error["loc"]
    place, where, node = _find(root, location)
    context: dict[str, Any] = error.get("ctx", {})
    match error["type"]:
        case "missing":
            key = str(location[-1])
            return _at(place, where, f"{key} is missing")
        case "extra_forbidden":
            return _unknown_key(location, root, where)
        case "too_short" | "too_long":
            return _at(place, where, _size_words(error["type"], context))
        case kind if kind in WORDS:
            accepted = (error["msg"],) if kind == "wrong_form" and not is_empty(node) else ()
            return _at(place, where, _form_words(kind, node), accepted)
    return _at(place, where, error["msg"], context.get("accepted", ()), context.get("nearest"))


def _form_words(kind: str, node: Node) -> str:
    if is_empty(node):
        return "nothing is written here: give a value or leave the key out"
    said = f", not {excerpt(node.text)}" if isinstance(node, Written) else ""
    return WORDS[kind] + said


def _size_words(kind: str, context: dict[str, Any]) -> str:
    if kind == "too_short":
        return f"the list has {context['actual_length']} items, and at least {context['min_length']} belong here"
    return f"the list has {context['actual_length']} items, and at most {context['max_length']} belong here"


def _unknown_key(location: tuple[int | str, ...], root: Mapped, where: str) -> Mistake:
    key = str(location[-1])
    around = _find(root, location[:-1])[2]
    place = around.keys_at[key] if isinstance(around, Mapped) else around.place
    accepted = keys_at(FileShape, location[:-1])
    owner = where.rpartition(".")[0]
    return _at(place, owner, f"{excerpt(key)} is not a key here", accepted, nearest(key, accepted))


def _at(place: Place, where: str, what: str, accepted: tuple[str, ...] = (), near: str | None = None) -> Mistake:
    return Mistake(place.line, place.column, where, what, tuple(accepted), near)


def _find(root: Mapped, location: tuple[int | str, ...]) -> tuple[Place, str, Node]:
    """The place of the nearest node on the way to a location that the file has; branch tags are stepped over."""
    node: Node = root
    place, where = Place(1, 1), ""
    for step in location:
        if isinstance(node, Mapped) and step in node:
            place, node = node.keys_at[str(step)], node[str(step)]
            where = f"{where}.{step}" if where else str(step)
        elif isinstance(node, Listed) and isinstance(step, int) and step < len(node):
            node = node[step]
            place, where = node.place, f"{where}[{step + 1}]"
    return (node.place if isinstance(node, Written) and not node.empty else place), where, node
