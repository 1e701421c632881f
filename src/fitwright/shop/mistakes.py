"""From what pydantic says to what a maker can act on: the line, what is accepted, the nearest right word."""

from __future__ import annotations

from difflib import get_close_matches
from typing import TYPE_CHECKING, Any, get_args

from fitwright.shop.errors import ShopMistake
from fitwright.shop.yaml_lines import Tree
from fitwright.units import Unit

if TYPE_CHECKING:
    from pydantic import BaseModel, ValidationError

UNITS = get_args(Unit)
SHAPES_OF_VALUES = {
    "model_type": "a map, such as {name: value}",
    "dict_type": "a map, such as {name: value}",
    "list_type": "a list, such as [1, 2]",
    "tuple_type": "a list, such as [1, 2]",
    "string_type": "a word or words",
}


def top_mistakes(tree: Tree) -> list[ShopMistake]:
    """What has to be right before the rest can be judged: a map, with the unit that bare numbers take."""
    if tree.mistakes:
        return []
    if not isinstance(tree.root, dict):
        return [ShopMistake(1, "", "a shop file is a map of sections", "name: ..., unit: inch or mm, saws: ...")]
    unit = tree.root.get("unit")
    if unit in UNITS:
        return []
    what = "is not given" if unit is None else f"{unit!r} is not a unit"
    line = tree.line_of(("unit",))
    return [ShopMistake(line, "unit", what, ", ".join(UNITS), _near(str(unit), UNITS))]


def mistakes_of(wrong: ValidationError, tree: Tree) -> tuple[ShopMistake, ...]:
    """Every error of a validation as a mistake, by line."""
    lines = {tuple(part.replace(" ", "_") for part in where): line for where, line in tree.lines.items()}
    found = [_mistake(error, lines) for error in wrong.errors(include_url=False)]
    return tuple(sorted(dict.fromkeys(found), key=lambda mistake: mistake.line))


def _mistake(error: Any, lines: dict[tuple[str, ...], int]) -> ShopMistake:
    place = tuple(str(part) for part in error["loc"] if part != "[key]")
    at = tuple(part.replace(" ", "_") for part in place)
    while at and at not in lines:
        at = at[:-1]
    what, accepted, nearest = _told(error, place)
    return ShopMistake(lines.get(at, 1), _dotted(place), what, accepted, nearest)


def _told(error: Any, place: tuple[str, ...]) -> tuple[str, str, str]:
    """What is wrong, what is accepted, the nearest right word."""
    kind, context, given = error["type"], error.get("ctx", {}), error.get("input")
    if kind == "extra_forbidden":
        known = _names_at(place[:-1])
        return f"{place[-1]!r} is not known here", ", ".join(known), _near(place[-1], known)
    if kind == "missing":
        return "is not given", "", ""
    if kind == "literal_error":
        words = tuple(part.strip(" '") for part in context["expected"].replace(" or ", ", ").split(","))
        return f"{given!r} is not known", ", ".join(words), _near(str(given), words)
    if kind == "unknown_word":
        return f"{given!r} is not known", ", ".join(context["accepted"]), _near(str(given), context["accepted"])
    if kind in ("length", "angle", "stock", "incomplete", "percent"):
        return error["msg"], "", ""
    if kind in SHAPES_OF_VALUES:
        return f"{_short(given)} is not {SHAPES_OF_VALUES[kind]}", "", ""
    return f"{_short(given)}: {error['msg'][0].lower()}{error['msg'][1:]}", "", ""


def _short(given: Any) -> str:
    text = repr(given)
    return text if len(text) <= 40 else f"{text[:37]}..."


def _names_at(place: tuple[str, ...]) -> tuple[str, ...]:
    """The names that the map at a place may have."""
    from fitwright.shop.schema import ShopFile

    model: type[BaseModel] = ShopFile
    for part in place:
        if part.isdigit() or part not in model.model_fields:  # a place in a list, or a name of the maker's own
            continue
        inner = _model_in(model.model_fields[part].annotation)
        if inner is None:
            return ()
        model = inner
    return tuple(model.model_fields)


def _model_in(annotation: Any) -> type[BaseModel] | None:
    from pydantic import BaseModel

    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((found for part in get_args(annotation) if (found := _model_in(part)) is not None), None)


def _near(word: str, words: tuple[str, ...]) -> str:
    return next(iter(get_close_matches(word.lower().replace(" ", "_"), words, 1, 0.5)), "")


def _dotted(place: tuple[str, ...]) -> str:
    """stock[2].lengths, counted from 1 as a maker counts."""
    text = ""
    for part in place:
        text += f"[{int(part) + 1}]" if part.isdigit() else f".{part}" if text else part
    return text
