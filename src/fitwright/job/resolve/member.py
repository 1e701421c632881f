"""A member worked out: its path and radii, how the section lies on it, its ends and butt."""

from __future__ import annotations

import math

from fitwright.job.mistakes import excerpt, nearest
from fitwright.job.model import Butt, Drawn, End, MemberSpec, Point
from fitwright.job.resolve.directions import AXES, direction, is_direction, of_word, parallel
from fitwright.job.resolve.placing import placings
from fitwright.job.resolve.scope import NAN, Scope, known
from fitwright.job.shape.parts import DIRECTION_OR_LINE, MemberShape, RingShape, StartFinishShape
from fitwright.job.written import Listed, Written
from fitwright.stock import Stock

SAME_POINT_MM = 1e-6
NO_WIDE_SIDE = ("round tube", "pipe", "round bar", "angle")


def member(name: str, shape: MemberShape, scope: Scope) -> MemberSpec | None:
    """The member of a part's shape; None where its stock is wrong."""
    stock = scope.stock(shape.stock)
    points, radii = _ring(shape.ring, scope) if shape.ring else _path(name, shape, scope)
    found = (
        _legs(shape, stock, scope),
        _wide(shape, stock, scope),
        _follows(shape, stock, scope),
        _ends(name, shape, scope),
        _butt(name, shape, scope),
        placings(shape, name, scope.key_place("parts", name), scope),
    )
    if stock is None:
        return None
    legs, wide, follows, ends, butt, placed = found
    return MemberSpec(
        name=name,
        where=scope.where("parts", name),
        stock=stock,
        points=points,
        radii=radii,
        drawn=Drawn.OUTSIDE if shape.outside else Drawn.CENTRE,
        closed=_is_closed(shape),
        ring=shape.ring is not None,
        legs=legs,
        wide=wide,
        follows=follows,
        ends=ends,
        butt=butt,
        placings=placed,
        fastened=shape.fastened,
    )


def _is_closed(shape: MemberShape) -> bool:
    return shape.closed or shape.ring is not None


def _wrong(name: str, key: str, scope: Scope, what: str) -> None:
    scope.wrong(scope.key_place("parts", name, key), f"parts.{name}.{key}", what)


def _ring(ring: RingShape, scope: Scope) -> tuple[tuple[Point, ...], tuple[float, ...]]:
    """A circle as a closed square whose corners are bent with half its side."""
    centre = scope.point(ring.centre)
    radius = _ring_radius(ring, scope)
    axis = AXES.index(ring.axis)
    right, up = (axis + 1) % 3, (axis + 2) % 3
    points = []
    for a, b in ((1, -1), (1, 1), (-1, 1), (-1, -1)):
        corner = list(centre)
        corner[right] += a * radius
        corner[up] += b * radius
        points.append((corner[0], corner[1], corner[2]))
    return tuple(points), (radius,) * 4


def _ring_radius(ring: RingShape, scope: Scope) -> float:
    if ring.diameter is not None and ring.radius is not None:
        scope.wrong_at(ring.radius, "a ring has its diameter or its radius, not both: keep one")
    if ring.diameter is not None:
        return scope.length(ring.diameter, above=0.0) / 2
    if ring.radius is not None:
        return scope.length(ring.radius, above=0.0)
    scope.wrong_at(ring.centre[0], "a ring needs the diameter or the radius of its centreline")
    return NAN


def _path(name: str, shape: MemberShape, scope: Scope) -> tuple[tuple[Point, ...], tuple[float, ...]]:
    written = shape.path or shape.outside or []
    points = tuple(scope.point(point) for point in written)
    _check_points(name, points, shape, scope)
    radii = _radii(name, shape, len(points), scope)
    return points, radii


def _check_points(name: str, points: tuple[Point, ...], shape: MemberShape, scope: Scope) -> None:
    key = "path" if shape.path else "outside"
    if shape.closed and len(points) < 3:
        _wrong(name, key, scope, "a closed path needs at least 3 points")
    for number in range(1, len(points)):
        if math.dist(points[number - 1], points[number]) < SAME_POINT_MM:
            said = _said(points[number], scope)
            _wrong(name, key, scope, f"points {number} and {number + 1} are the same, {said}: drop one")
    if len(points) > 2 and math.dist(points[0], points[-1]) < SAME_POINT_MM:
        what = "the last point is the first again: drop it" + ("" if shape.closed else " and write closed: true")
        _wrong(name, key, scope, what)


def _said(point: Point, scope: Scope) -> str:
    return f"({', '.join(scope.style.length(coordinate) for coordinate in point)})"


def _radii(name: str, shape: MemberShape, count: int, scope: Scope) -> tuple[float, ...]:
    """A radius at each point; 0 at open ends and mitred corners."""
    corners = count if shape.closed else max(count - 2, 0)
    given = _corner_radii(name, shape, corners, scope)
    return tuple(given) if shape.closed else (0.0, *given, 0.0)


def _corner_radii(name: str, shape: MemberShape, corners: int, scope: Scope) -> list[float]:
    if shape.radius is None:
        return [0.0] * corners
    if shape.corners == "mitred":
        _wrong(name, "radius", scope, "corners: mitred means that there is no radius: keep one of the two")
    if isinstance(shape.radius, Written):
        return [scope.length(shape.radius, least=0.0)] * corners
    radii = [scope.length(radius, least=0.0) for radius in shape.radius]
    if len(radii) != corners and (shape.path or shape.outside):
        _wrong(name, "radius", scope, f"{len(radii)} radii for {corners} corners: give one each, 0 for a mitred one")
    return (radii + [0.0] * corners)[:corners]


def _legs(shape: MemberShape, stock: Stock | None, scope: Scope) -> tuple[Point, Point] | None:
    if shape.legs is None:
        return None
    first, second = (direction(leg, scope) for leg in shape.legs)
    if stock is not None and stock.section.shape != "angle":
        _wrong_direction(shape.legs[0], scope, f"legs are for angle, and {stock.key} is {stock.label}")
    elif known(*first, *second) and parallel(first, second):
        _wrong_direction(shape.legs[1], scope, "the two legs point along one line: an angle has a corner between them")
    return first, second


def _wide(shape: MemberShape, stock: Stock | None, scope: Scope) -> Point | None:
    if shape.wide is None:
        return None
    if stock is not None and stock.section.shape in NO_WIDE_SIDE:
        _wrong_direction(shape.wide, scope, f"{stock.label} has no wide side")
    return direction(shape.wide, scope)


def _wrong_direction(written: Written | Listed, scope: Scope, what: str) -> None:
    scope.wrong(written.place, written.where, what)


def _follows(shape: MemberShape, stock: Stock | None, scope: Scope) -> str | tuple[Point, ...]:
    given = shape.follows
    if given is None:
        return "heel" if stock is not None and stock.section.shape == "angle" else "centre"
    if isinstance(given, list):
        return tuple(direction(one, scope) for one in given)
    word = given.text.strip().lower()
    if is_direction(word):
        return (of_word(word),)
    if word not in ("centre", "heel"):
        what = f"{excerpt(word)} is not a line of the section"
        scope.wrong_at(given, what, DIRECTION_OR_LINE, nearest(word, DIRECTION_OR_LINE))
    elif word == "heel" and stock is not None and stock.section.shape != "angle":
        scope.wrong_at(given, f"only angle has a heel, and {stock.key} is {stock.label}")
    return word


def _ends(name: str, shape: MemberShape, scope: Scope) -> tuple[End, End]:
    given = shape.ends
    if given is None:
        return End.AUTO, End.AUTO
    if _is_closed(shape):
        _wrong(name, "ends", scope, "a closed member has no ends: its butt is where it is cut")
    if isinstance(given, StartFinishShape):
        return End(given.start), End(given.finish)
    start, finish = given if isinstance(given, list) else (given, given)
    return End(start), End(finish)


def _butt(name: str, shape: MemberShape, scope: Scope) -> Butt:
    given = shape.butt
    if given is None:
        return Butt()
    if not _is_closed(shape):
        _wrong(name, "butt", scope, "an open member has no butt: say closed: true, or butt it in joints")
    return Butt(
        fraction=scope.share(given.at) if given.at else Butt().fraction,
        sleeve=scope.stock(given.sleeve) if given.sleeve else None,
        length=scope.optional_length(given.length, above=0.0),
    )
