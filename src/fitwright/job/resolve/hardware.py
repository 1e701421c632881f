"""Hardware worked out: what is known of it, where it is, how many."""

from __future__ import annotations

from fitwright.job.model import HardwareSpec, Point
from fitwright.job.resolve.placing import placings
from fitwright.job.resolve.scope import Scope, known
from fitwright.job.shape.parts import KIND_KEYS, BoughtShape, HardwareShape
from fitwright.job.written import Written

TEXTS = ("thread", "size")
LOADS = ("rated",)
PLACED = ("caster", "foot")
"""Kinds that stand somewhere; the others may be bought by the count alone."""


def hardware(name: str, shape: HardwareShape, scope: Scope) -> HardwareSpec:
    """The hardware of a part's shape."""
    kind, given = _kind(shape)
    properties = _properties(given, scope)
    places = _places(shape, scope)
    place = scope.key_place("parts", name)
    if kind in PLACED and not scope.wrote("parts", name, "at"):
        scope.wrong(place, f"parts.{name}", f"at is missing: a {kind} is placed by the point on top, where it is fixed")
    return HardwareSpec(
        name=name,
        where=scope.where("parts", name),
        kind=kind,
        at=places,
        label=_label(kind, given, properties, scope),
        properties=properties,
        mass=scope.mass(shape.mass) if shape.mass else 0.0,
        price=scope.money(shape.price) if shape.price else None,
        each=scope.count(shape.count, most=10_000) if shape.count else 1,
        placings=placings(shape, name, place, scope),
    )


def _kind(shape: HardwareShape) -> tuple[str, Written | BoughtShape]:
    given = ((kind, getattr(shape, kind)) for kind in KIND_KEYS["hardware"])
    return next((kind, value) for kind, value in given if value is not None)


def _properties(shape: Written | BoughtShape, scope: Scope) -> dict[str, float | str | bool]:
    if isinstance(shape, Written):
        return {"size": shape.text}
    found: dict[str, float | str | bool] = {}
    for key in type(shape).model_fields:
        value = getattr(shape, key)
        if isinstance(value, bool):
            found[key] = value
        elif value is not None and key != "label":
            found[key] = _property(key, value, scope)
    return found


def _property(key: str, value: Written, scope: Scope) -> float | str:
    if key in TEXTS:
        return value.text
    if key in LOADS:
        return scope.load(value)
    return scope.length(value, least=0.0) if key == "lead" else scope.length(value, above=0.0)


def _places(shape: HardwareShape, scope: Scope) -> tuple[Point, ...]:
    if shape.at is None:
        return ()
    if isinstance(shape.at[0], list):
        return tuple(scope.point(point) for point in shape.at if isinstance(point, list))
    return (scope.point([value for value in shape.at if isinstance(value, Written)]),)


def _label(kind: str, given: Written | BoughtShape, properties: dict[str, float | str | bool], scope: Scope) -> str:
    """What it is called on the buying list: as said, else its kind with its telling size."""
    if isinstance(given, Written):
        return given.text if kind == "fitting" else f"{kind} {given.text}"
    if given.label is not None:
        return given.label.text
    telling = (properties.get(key) for key in ("size", "wheel", "diameter", "thread", "height"))
    size = next((value for value in telling if value is not None), "")
    if isinstance(size, str):
        return f"{kind} {size}".strip()
    return f"{kind} {scope.style.length(size)}" if known(size) else kind
