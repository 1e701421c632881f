"""space: the opening from its several measurements, gaps, neighbours, walls."""

from __future__ import annotations

from pydantic import BaseModel

from fitwright.job.model import Neighbour, Opening, Space
from fitwright.job.resolve.head import CLEAR_TIGHT_MM
from fitwright.job.resolve.scope import Scope, known
from fitwright.job.shape.space import MeasuredShape, NeighbourShape, OpeningShape, SpaceShape
from fitwright.job.written import Written

Pairs = tuple[tuple[float, float], ...]
Given = Written | list[Written | MeasuredShape] | None


def resolve_space(space: SpaceShape | None, scope: Scope) -> Space:
    """The space section."""
    if space is None:
        return Space()
    return Space(
        opening=_opening(space.opening, scope) if space.opening else None,
        clear=_sides(space.clear, scope, least=0.0),
        stand=_sides(space.stand, scope),
        neighbours=tuple(_neighbour(name, one, scope) for name, one in space.neighbours.items()),
        walls=_sides(space.walls, scope),
    )


def _sides(shape: BaseModel | None, scope: Scope, least: float | None = None) -> dict[str, float]:
    """Lengths by side, of those that are given."""
    if shape is None:
        return {}
    given = ((side, getattr(shape, side)) for side in type(shape).model_fields)
    return {
        side: scope.length(value) if least is None else scope.length(value, least=least)
        for side, value in given
        if value is not None
    }


def _opening(opening: OpeningShape, scope: Scope) -> Opening:
    across = _sizes(opening.width)
    upward = _sizes(opening.height)
    width = min(_known_lengths(across, scope), default=None)
    height = min(_known_lengths(upward, scope), default=None)
    return Opening(
        widths=_pairs(opening.width, height, "height", scope),
        depths=_pairs(opening.depth, height, "height", scope),
        tops=_pairs(opening.height, width, "width", scope),
        lean=_sides(opening.lean, scope),
    )


def _sizes(given: Given) -> list[Written]:
    if given is None:
        return []
    items = given if isinstance(given, list) else [given]
    return [item.size if isinstance(item, MeasuredShape) else item for item in items]


def _known_lengths(sizes: list[Written], scope: Scope) -> list[float]:
    """The lengths that can be worked out; the mistakes of the others are told where they are used."""
    return [length for size in sizes if known(length := scope.glance(size))]


def _pairs(given: Given, over: float | None, over_name: str, scope: Scope) -> Pairs:
    """(position, size) of each measurement; three plain sizes stand at the start, middle and end of `over`."""
    if given is None:
        return ()
    if isinstance(given, Written):
        return ((0.0, scope.length(given, above=0.0)),)
    if all(isinstance(item, MeasuredShape) for item in given) and given:
        return tuple(_pair(item, scope) for item in given if isinstance(item, MeasuredShape))
    plain = [item for item in given if isinstance(item, Written)]
    return _three(plain, len(given), over, over_name, scope)


def _pair(item: MeasuredShape, scope: Scope) -> tuple[float, float]:
    return scope.length(item.at, least=0.0), scope.length(item.size, above=0.0)


def _three(plain: list[Written], count: int, over: float | None, over_name: str, scope: Scope) -> Pairs:
    sizes = [scope.length(size, above=0.0) for size in plain]
    if plain and (len(plain) != 3 or count != 3):
        scope.wrong_at(plain[0], "a list of sizes has three; for others write {at: …, is: …} for each")
    elif plain and over is None:
        scope.wrong_at(
            plain[0], f"three sizes need the opening's {over_name} to be placed: give it, or {{at: …, is: …}} for each"
        )
    return tuple(zip((0.0, (over or 0.0) / 2, over or 0.0), sizes, strict=False))


def _neighbour(name: str, shape: NeighbourShape, scope: Scope) -> Neighbour:
    height = scope.optional_length(shape.height, above=0.0)
    depth = scope.optional_length(shape.depth, above=0.0)
    match = _sides(shape.match, scope)
    for what, own in (("height", height), ("depth", depth)):
        written = getattr(shape.match, what) if shape.match else None
        if written is not None and own is None:
            scope.wrong_at(written, f"to match its {what}, give the neighbour's own {what} too")
    return Neighbour(
        name=name,
        where=scope.where("space", "neighbours", name),
        side=shape.side,
        height=height,
        depth=depth,
        match=match,
        within=scope.length_or(shape.within, CLEAR_TIGHT_MM[scope.style.unit], least=0.0),
    )
