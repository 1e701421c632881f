"""photo: the marks on the picture, spots written in place given names of their own."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.job.marks import (
    AXES,
    STRAIGHT,
    Arc,
    EdgeMark,
    Height,
    Known,
    Length,
    LensMark,
    Photo,
    PlaneMark,
    Quantity,
    Spacing,
    Spot,
    Tube,
)
from fitwright.job.mistakes import excerpt, nearest
from fitwright.job.resolve.photo_dims import photo_dims
from fitwright.job.resolve.scope import Scope, offered
from fitwright.job.shape.photo import (
    ArcShape,
    HeightShape,
    LengthShape,
    LensShape,
    PhotoShape,
    SizedShape,
    SpacingShape,
    SpotShape,
    TubeShape,
)
from fitwright.job.written import Written

MOST_PX = 100_000.0
WITHIN_MM = {"inch": 25.4 / 16, "mm": 1.0, "cm": 1.0}
LIKELY = 1.96
MOST_SPOTS = 300
LEAST_CLICK, MOST_CLICK = 0.01, 100.0
LEAST_35MM, MOST_35MM = 5.0, 2000.0

MarkText = Written | Sequence[Written]
QuantityShape = LengthShape | HeightShape | SpacingShape | ArcShape | TubeShape


def resolve_photo(shape: PhotoShape | None, scope: Scope) -> Photo | None:
    """The photo section; None when there is none."""
    if shape is None:
        return None
    spots = _Spots(scope, {name: _spot(one, scope) for name, one in shape.spots.items()}, shape)
    edges = tuple(EdgeMark(_word(one.along), spots.all(one.marks), one.snap) for one in shape.edges)
    planes = {name: PlaneMark(one.across, spots.all(one.marks)) for name, one in shape.planes.items()}
    names = {edge.along for edge in edges}
    known = {name: _known(one, spots, names) for name, one in shape.known.items()}
    measures = {name: _quantity(one, spots, names) for name, one in shape.measures.items()}
    return Photo(
        picture=shape.picture.text if shape.picture else "",
        size=_size(shape, scope),
        click=_click(shape.click, scope),
        lens=_lens(shape.lens, scope),
        cropped=shape.cropped,
        spots=spots.found,
        edges=edges,
        planes=planes,
        known=known,
        measures=measures,
        dims=photo_dims(shape, scope),
        same_size=shape.same_size,
    )


class _Spots:
    """Spots by name, and those written in place, which are called by their pixels."""

    def __init__(self, scope: Scope, named: dict[str, Spot], shape: PhotoShape) -> None:
        self.scope = scope
        self.found = named
        self.named = tuple(shape.spots)
        self.planes = tuple(shape.planes)

    def all(self, marks: Sequence[MarkText]) -> tuple[str, ...]:
        """The names of several."""
        return tuple(self.one(mark) for mark in marks)

    def one(self, mark: MarkText) -> str:
        """The name of a spot, told when there is none of that name."""
        if isinstance(mark, Written):
            if mark.text not in self.found:
                what = f"{excerpt(mark.text)} is not the name of a spot; write [u, v] for a place on the picture"
                self.scope.wrong_at(mark, what, offered(self.named), nearest(mark.text, self.named))
            return mark.text
        u, v = _pixel(mark, self.scope)
        name = f"[{u:g}, {v:g}]"
        self.found.setdefault(name, Spot(u, v))
        if len(self.found) == MOST_SPOTS + 1:
            self.scope.wrong_at(mark[0], f"a photo has at most {MOST_SPOTS} spots")
        return name

    def plane(self, name: Written) -> str:
        """The name of a plane, told when there is none."""
        if name.text not in self.planes:
            what = f"{excerpt(name.text)} is not the name of a plane"
            self.scope.wrong_at(name, what, offered(self.planes), nearest(name.text, self.planes))
        return name.text


def _spot(shape: SpotShape | Sequence[Written], scope: Scope) -> Spot:
    if not isinstance(shape, SpotShape):
        return Spot(*_pixel(shape, scope))
    place = scope.point(shape.place) if shape.place else None
    return Spot(*_pixel(shape.at, scope), click=_click(shape.click, scope), place=place)


def _pixel(written: Sequence[Written], scope: Scope) -> tuple[float, float]:
    u, v = (scope.number(one, least=-MOST_PX, most=MOST_PX) for one in written)
    return u, v


def _click(written: Written | None, scope: Scope) -> float | None:
    return None if written is None else scope.number(written, least=LEAST_CLICK, most=MOST_CLICK)


def _size(shape: PhotoShape, scope: Scope) -> tuple[int, int] | None:
    if shape.size is None:
        return None
    width, height = (scope.count(one, most=int(MOST_PX)) for one in shape.size)
    return width, height


def _lens(shape: LensShape | None, scope: Scope) -> LensMark:
    if shape is None:
        return LensMark()
    if shape.focal and shape.focal_35mm:
        scope.wrong_at(shape.focal_35mm, "focal says it already: keep one")
    return LensMark(
        focal=scope.number(shape.focal, least=1, most=MOST_PX) if shape.focal else None,
        focal_35mm=scope.number(shape.focal_35mm, least=LEAST_35MM, most=MOST_35MM) if shape.focal_35mm else None,
        centre=_pixel(shape.centre, scope) if shape.centre else None,
        barrel=scope.number(shape.barrel, least=-0.5, most=0.25) if shape.barrel else None,
    )


def _known(shape: QuantityShape, spots: _Spots, names: set[str]) -> Known:
    assert isinstance(shape, SizedShape)
    scope = spots.scope
    value = scope.length(shape.size, above=0.0)
    within = scope.length(shape.within, above=0.0) if shape.within else WITHIN_MM[scope.style.unit]
    return Known(_quantity(shape, spots, names), value, within / LIKELY)


def _quantity(shape: QuantityShape, spots: _Spots, names: set[str]) -> Quantity:
    match shape:
        case LengthShape():
            return _length(shape, spots, names)
        case HeightShape():
            return Height(spots.one(shape.height), spots.one(shape.foot))
        case SpacingShape():
            return Spacing(spots.all(shape.spacing), shape.along)
        case ArcShape():
            return Arc(spots.all(shape.arc), spots.plane(shape.plane))
    one, other = shape.sides
    sides = (spots.all(one), spots.all(other))
    return Tube(sides, _direction(shape.along, names, spots.scope), spots.one(shape.through))


def _length(shape: LengthShape, spots: _Spots, names: set[str]) -> Length:
    if shape.along and shape.across:
        spots.scope.wrong_at(shape.across, "along says the direction already: keep one")
    start, finish = spots.one(shape.start), spots.one(shape.finish)
    if start == finish:
        spots.scope.wrong_at(_first(shape.finish), "a length goes from one spot to another one")
    return Length(
        start,
        finish,
        along=_direction(shape.along, names, spots.scope) if shape.along else None,
        across=_direction(shape.across, names, spots.scope) if shape.across else None,
    )


def _direction(written: Written, names: set[str], scope: Scope) -> str:
    """x, y, z or the name of a direction along which an edge is marked."""
    word = _word(written)
    if word not in AXES and (word not in names or word == STRAIGHT):
        own = [name for name in sorted(names) if name not in (*AXES, STRAIGHT)]
        what = f"{excerpt(word)} is not a direction along which an edge is marked"
        scope.wrong_at(written, what, (*AXES, *own), nearest(word, own))
    return word


def _word(written: Written) -> str:
    """A direction's name; x, y, z and straight in capitals too."""
    word = written.text.strip()
    return word.lower() if word.lower() in (*AXES, STRAIGHT) else word


def _first(mark: MarkText) -> Written:
    return mark if isinstance(mark, Written) else mark[0]
