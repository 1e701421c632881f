"""The whole file worked out, section after section, with every mistake in one list."""

from __future__ import annotations

import re

from fitwright.job.dims import RESERVED, Dims, settle, settled, spread
from fitwright.job.mistakes import Mistake, excerpt, nearest
from fitwright.job.model import Job, JointSpec, OpeningSpec, PartSpec, Where
from fitwright.job.resolve.hardware import hardware
from fitwright.job.resolve.head import UNITS_MM, Head, resolve_brief, resolve_head
from fitwright.job.resolve.making import resolve_progress, resolve_subassemblies
from fitwright.job.resolve.member import member
from fitwright.job.resolve.panel import panel
from fitwright.job.resolve.photo import resolve_photo
from fitwright.job.resolve.place import resolve_space
from fitwright.job.resolve.placing import placings
from fitwright.job.resolve.price import resolve_price
from fitwright.job.resolve.readings import resolve_readings
from fitwright.job.resolve.scope import EnoughMistakes, Scope, offered
from fitwright.job.shape.file import FileShape, GradedShape, JointShape
from fitwright.job.shape.parts import HardwareShape, MemberShape, OpeningPartShape, PanelShape, PlacedShape
from fitwright.job.written import Mapped
from fitwright.stock import Stock, StockError, parse_stock

DIM_NAME = re.compile(r"[a-z][a-z0-9_]*")
STOCK_NAME = re.compile(r"[A-Za-z][A-Za-z0-9_]*")
PART_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9 _-]*")
LONGEST_NAME = 40


def resolve(shape: FileShape, root: Mapped) -> tuple[Job | None, list[Mistake]]:
    """The job of a file's shape, None when there are mistakes, and the mistakes.

    root: the tree as written, whose names count as known even where the shape leaves their sections out.
    """
    head, mistakes = resolve_head(shape.job)
    scope, told = _scope(shape, root, head)
    mistakes += told
    try:
        job = _job(shape, head, scope)
    except EnoughMistakes:
        job = None
    mistakes += scope.mistakes
    return (None if mistakes else job), mistakes


def _scope(shape: FileShape, root: Mapped, head: Head) -> tuple[Scope, list[Mistake]]:
    mistakes = [
        *_name_mistakes(root, "dims", DIM_NAME, "a dim's name is small letters, digits and _, as pitch or rail_height"),
        *_name_mistakes(root, "stock", STOCK_NAME, "a short name of stock is letters, digits and _, as frame"),
        *_name_mistakes(
            root, "parts", PART_NAME, "a part's name is letters, digits, spaces, _ and -, as shelf or front leg"
        ),
    ]
    unit_mm = UNITS_MM[head.style.unit]
    stock = _stock(shape, root, head, mistakes)
    dims, told = settle(shape.dims, stock, unit_mm)
    lost = {name: None for name in _names(root, "dims") if name not in dims.values}
    dims = Dims(dims.written, dims.formulas, {**dims.values, **lost}, stock, unit_mm)
    scope = Scope(head.style, dims, root, _names(root, "parts"))
    return scope, mistakes + told


def _job(shape: FileShape, head: Head, scope: Scope) -> Job:
    brief = resolve_brief(shape.brief, scope)
    space = resolve_space(shape.space, scope)
    parts = tuple(found for name, part in shape.parts.items() if (found := _part(name, part, scope)) is not None)
    photo = resolve_photo(shape.photo, scope)
    readings = resolve_readings(shape.readings, scope)
    joints = tuple(_joint(number, joint, scope) for number, joint in enumerate(shape.joints, 1))
    _tell_areas(scope)
    return Job(
        name=head.name,
        client=head.client,
        style=head.style,
        due=head.due,
        notes=head.notes,
        brief=brief,
        space=space,
        dims=settled(scope.dims, scope.usage),
        stock={name: stock for name, stock in scope.dims.stock.items() if stock is not None},
        parts=parts,
        joints=joints,
        finish={material: text.text for material, text in shape.finish.items()},
        photo=photo,
        price=resolve_price(shape.price, scope),
        readings=readings,
        subassemblies=resolve_subassemblies(shape.subassemblies, parts, scope),
        progress=resolve_progress(shape.progress, scope),
    )


def _names(root: Mapped, section: str) -> tuple[str, ...]:
    found = root.get(section)
    return tuple(found) if isinstance(found, Mapped) else ()


def _name_mistakes(root: Mapped, section: str, good: re.Pattern[str], rule: str) -> list[Mistake]:
    found = root.get(section)
    if not isinstance(found, Mapped):
        return []
    told = ((found.keys_at[name], _name_fault(name, section, good, rule)) for name in found)
    return [Mistake(place.line, place.column, section, what) for place, what in told if what]


def _name_fault(name: str, section: str, good: re.Pattern[str], rule: str) -> str:
    if len(name) > LONGEST_NAME:
        return f"{excerpt(name)} has {len(name)} characters; a name has at most {LONGEST_NAME}"
    if not good.fullmatch(name):
        return f"{excerpt(name)} is not a name: {rule}"
    if section == "dims" and name in RESERVED:
        return f"{excerpt(name)} is a word of arithmetic itself: choose another name"
    if section == "parts" and name == "push":
        return f"{excerpt(name)} is the word for a push under loads: choose another name"
    return ""


def _stock(shape: FileShape, root: Mapped, head: Head, mistakes: list[Mistake]) -> dict[str, Stock | None]:
    """The stock by short name; None where it is wrong, and its mistake told."""
    found: dict[str, Stock | None] = dict.fromkeys(_names(root, "stock"))
    for name, entry in shape.stock.items():
        text, grade = (entry.section, entry.grade) if isinstance(entry, GradedShape) else (entry, None)
        try:
            found[name] = parse_stock(text.text, key=name, grade=grade.text if grade else None, unit=head.style.unit)
        except StockError as error:
            mistakes.append(Mistake(text.place.line, text.place.column, text.where, str(error)))
    return found


def _part(name: str, part: PlacedShape, scope: Scope) -> PartSpec | None:
    match part:
        case MemberShape():
            return member(name, part, scope)
        case PanelShape():
            return panel(name, part, scope)
        case HardwareShape():
            return hardware(name, part, scope)
        case OpeningPartShape():
            return _opening(name, part, scope)
    raise AssertionError(f"{type(part).__name__} is no kind of part")


def _opening(name: str, shape: OpeningPartShape, scope: Scope) -> OpeningSpec:
    first, second = scope.point(shape.opening.low), scope.point(shape.opening.high)
    place = scope.key_place("parts", name)
    if any(abs(a - b) < 1e-6 for a, b in zip(first, second, strict=True)):
        scope.wrong(place, f"parts.{name}", "from and to have to differ in x, y and z: an opening is a box")
    low, high = zip(*(sorted(pair) for pair in zip(first, second, strict=True)), strict=True)
    placed = placings(shape, name, place, scope)
    return OpeningSpec(name, scope.where("parts", name), low, high, placed)


def _joint(number: int, joint: JointShape, scope: Scope) -> JointSpec:
    for named in joint.between:
        if named.text not in scope.parts:
            what = f"{excerpt(named.text)} is not the name of a part"
            scope.wrong_at(named, what, offered(scope.parts), nearest(named.text, scope.parts))
    first, second = joint.between
    return JointSpec(
        where=Where(f"joints[{number}]", first.place.line),
        between=(first.text, second.text),
        kind=joint.how,
        sleeve=scope.stock(joint.sleeve) if joint.sleeve else None,
        length=scope.optional_length(joint.length, above=0.0),
    )


def _tell_areas(scope: Scope) -> None:
    """A product of two dims that other uses show to be lengths, where a length belongs."""
    usage = scope.usage
    spread(scope.dims, usage)
    for pairs, written in scope.products:
        for one, other in sorted(pairs):
            if one in usage.surely and other in usage.surely:
                what = f"{one} * {other} is a length times a length: an area; a length belongs here"
                scope.wrong_at(written, what)
