"""Which keys are accepted at a place of the file, read off the models themselves."""

from __future__ import annotations

from types import NoneType, UnionType
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import BaseModel, Tag

Location = tuple[int | str, ...]


def keys_at(model: type[BaseModel], location: Location) -> tuple[str, ...]:
    """The keys of the mapping at a location (as pydantic reports it, branch tags included); empty when any are."""
    found: Any = model
    for step in location:
        found = _step(found, step)
        if found is None:
            return ()
    shape = _model_of(found)
    return tuple(field.alias or name for name, field in shape.model_fields.items()) if shape else ()


def _step(annotation: Any, step: int | str) -> Any:
    """What lies one step inside an annotation; None when nothing does."""
    annotation = _bare(annotation)
    if get_origin(annotation) in (Union, UnionType):
        return _step_union(get_args(annotation), step)
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        fields = ((field.alias or name, field.annotation) for name, field in annotation.model_fields.items())
        return next((inner for key, inner in fields if key == step), None)
    if get_origin(annotation) in (dict, list):
        return get_args(annotation)[-1]
    return None


def _step_union(branches: tuple[Any, ...], step: int | str) -> Any:
    tagged = (branch for branch in branches if step in _tags(branch))
    inside = (inner for branch in branches if (inner := _step(branch, step)) is not None)
    return next(tagged, None) or next(inside, None)


def _model_of(annotation: Any) -> type[BaseModel] | None:
    """The one model that an annotation, perhaps optional or one of several forms, allows."""
    annotation = _bare(annotation)
    if get_origin(annotation) in (Union, UnionType):
        models = (_model_of(branch) for branch in get_args(annotation) if branch is not NoneType)
        return next((model for model in models if model is not None), None)
    return annotation if isinstance(annotation, type) and issubclass(annotation, BaseModel) else None


def _bare(annotation: Any) -> Any:
    return get_args(annotation)[0] if get_origin(annotation) is Annotated else annotation


def _tags(annotation: Any) -> tuple[str, ...]:
    if get_origin(annotation) is not Annotated:
        return ()
    return tuple(item.tag for item in get_args(annotation)[1:] if isinstance(item, Tag))
