"""A panel worked out: the face that rests, where its thickness goes, slats and battens."""

from __future__ import annotations

from fitwright.job.model import Battens, PanelKind, PanelSpec, Point
from fitwright.job.resolve.directions import AXES, direction
from fitwright.job.resolve.placing import placings
from fitwright.job.resolve.scope import Scope, known
from fitwright.job.shape.parts import BattensShape, PanelShape
from fitwright.job.written import Written
from fitwright.stock import SheetGoods, Stock
from fitwright.units import INCH

FLAT_MM = 1e-6
BATTENS = 2
INSET_MM = {"inch": 2 * INCH, "mm": 50.0, "cm": 50.0}
"""From the end of the boards to the first batten. Source: common practice."""


def panel(name: str, shape: PanelShape, scope: Scope) -> PanelSpec | None:
    """The panel of a part's shape; None where its stock or its face is wrong."""
    kind, written = _kind(shape)
    stock = scope.stock(written)
    first, second = scope.point(shape.low), scope.point(shape.high)
    low, high = _sorted(first, second)
    normal = _normal(name, low, high, scope)
    grows = _grows(shape, normal, scope)
    along = _along(name, shape, low, high, normal, scope)
    battens = _battens(shape.battens, scope)
    gap = scope.length_or(shape.gap, 0.0, least=0.0)
    removable = direction(shape.removable, scope) if shape.removable else None
    placed = placings(shape, name, scope.key_place("parts", name), scope)
    _check_kind(name, shape, kind, stock, scope)
    if stock is None or normal is None:
        return None
    where = scope.where("parts", name)
    return PanelSpec(
        name, where, kind, stock, low, high, normal, grows, along, gap, battens, removable, placed, shape.fastened
    )


def _kind(shape: PanelShape) -> tuple[PanelKind, Written]:
    if shape.slats is not None:
        return PanelKind.SLATS, shape.slats
    if shape.solid is not None:
        return PanelKind.SOLID, shape.solid
    assert shape.sheet is not None, "a part is a panel because it has one of the three keys"
    return PanelKind.SHEET, shape.sheet


def _wrong(name: str, key: str, scope: Scope, what: str) -> None:
    scope.wrong(scope.key_place("parts", name, key), f"parts.{name}.{key}", what)


def _sorted(first: Point, second: Point) -> tuple[Point, Point]:
    """The corner of least coordinates and the one of largest."""
    (x0, x1), (y0, y1), (z0, z1) = (sorted(pair) for pair in zip(first, second, strict=True))
    return (x0, y0, z0), (x1, y1, z1)


def _normal(name: str, low: Point, high: Point, scope: Scope) -> int | None:
    """The axis square to the face: the one coordinate in which the corners agree."""
    if not known(*low, *high):
        return None
    agree = [axis for axis in range(3) if high[axis] - low[axis] < FLAT_MM]
    if len(agree) == 1:
        return agree[0]
    if agree:
        said = " and ".join(AXES[axis] for axis in agree)
        _wrong(name, "to", scope, f"from and to agree in {said}: the face that rests has no area")
    else:
        _wrong(name, "to", scope, "from and to differ in x, y and z: the face that rests is flat, so they agree in one")
    return None


def _grows(shape: PanelShape, normal: int | None, scope: Scope) -> int:
    if shape.grows is None:
        return 1
    toward = direction(shape.grows, scope)
    if normal is None or not known(*toward):
        return 1
    if abs(abs(toward[normal]) - 1) > 1e-9:
        what = f"the thickness goes square to the face that rests, along {AXES[normal]} or -{AXES[normal]}"
        scope.wrong(shape.grows.place, shape.grows.where, what)
    return 1 if toward[normal] > 0 else -1


def _along(name: str, shape: PanelShape, low: Point, high: Point, normal: int | None, scope: Scope) -> int:
    """The axis of the boards: as said, else the longer side, x before y before z where they are equal."""
    if normal is None:
        return 0
    sides = [axis for axis in range(3) if axis != normal]
    if shape.along is None:
        return max(sides, key=lambda axis: high[axis] - low[axis])
    axis = AXES.index(shape.along)
    if axis == normal:
        _wrong(
            name,
            "along",
            scope,
            f"the face that rests has no side along {shape.along}: {' or '.join(AXES[a] for a in sides)}",
        )
    return axis


def _battens(shape: BattensShape | None, scope: Scope) -> Battens | None:
    if shape is None:
        return None
    stock = scope.stock(shape.stock)
    count = scope.count(shape.count, most=50) if shape.count else BATTENS
    inset = scope.length_or(shape.inset, INSET_MM[scope.style.unit], least=0.0)
    length = scope.optional_length(shape.length, above=0.0)
    return Battens(stock, count, inset, length) if stock is not None else None


def _check_kind(name: str, shape: PanelShape, kind: PanelKind, stock: Stock | None, scope: Scope) -> None:
    if kind is not PanelKind.SLATS:
        for key in ("gap", "battens"):
            if getattr(shape, key) is not None:
                _wrong(name, key, scope, f"{key} is for slats, and this panel is {kind.value}")
    if stock is None:
        return
    sheet = isinstance(stock.section, SheetGoods)
    if kind is PanelKind.SHEET and not sheet:
        _wrong(
            name, kind.value, scope, f"{stock.key} is {stock.label}, which does not come as a sheet: use solid or slats"
        )
    elif kind is PanelKind.SLATS and sheet:
        _wrong(name, kind.value, scope, f"{stock.key} is {stock.label}, which comes as a sheet: use sheet")
    elif kind is not PanelKind.SHEET and not {"width", "thickness"} <= set(stock.section.dimensions) and not sheet:
        _wrong(name, kind.value, scope, f"{stock.key} is {stock.label}: a panel needs boards, flat or sheet")
