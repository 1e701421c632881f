"""subassemblies and progress: names of parts held against the parts of the job, times read."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from datetime import datetime

from fitwright.job.mistakes import excerpt, nearest
from fitwright.job.model import Along, MemberSpec, Mirror, PartSpec
from fitwright.job.progress import Progress
from fitwright.job.resolve.scope import Scope, offered
from fitwright.job.shape.making import ProgressShape, SubassemblyShape
from fitwright.job.subassemblies import SubassemblySpec
from fitwright.job.written import Written

COPY = re.compile(r"(?P<part>.+?)(?: (?P<number>[1-9]\d{0,3}))?(?: leg (?P<leg>[1-9]\d{0,2}))?")
MOST_HOURS = 10_000.0


def resolve_subassemblies(
    shapes: Mapping[str, SubassemblyShape], parts: Sequence[PartSpec], scope: Scope
) -> tuple[SubassemblySpec, ...]:
    """The set-ups asked for, in the order written."""
    known = {part.name: part for part in parts}
    found: list[SubassemblySpec] = []
    for name, shape in shapes.items():
        place = scope.key_place("subassemblies", name)
        if name in scope.parts:
            told = f"{excerpt(name)} is a part already: give the subassembly a name of its own"
            scope.wrong(place, f"subassemblies.{name}", told)
        for part in shape.parts:
            _check(part, known, [one.name for one in found], scope)
        words = tuple(part.text for part in shape.parts)
        found.append(SubassemblySpec(name, words, shape.up or "", shape.flip or "", place.line))
    return tuple(found)


def _check(written: Written, known: Mapping[str, PartSpec], earlier: Sequence[str], scope: Scope) -> None:
    """A part, one of its copies, or a subassembly made before; and of metal or timber in lengths, not a panel."""
    said = written.text
    if said in earlier:
        return
    match = None if said in scope.parts else COPY.fullmatch(said)
    name = said if match is None else match["part"]
    if name not in scope.parts:
        what = f"{excerpt(said)} is neither a part, nor one of its copies, nor a subassembly before this one"
        names = (*scope.parts, *earlier)
        scope.wrong_at(written, what, offered(names), nearest(said, names))
        return
    part = known.get(name)
    if part is not None and not isinstance(part, MemberSpec):
        scope.wrong_at(written, f"{excerpt(said)} is not put together on the bench: name members only")
    elif isinstance(part, MemberSpec) and match is not None:
        _check_numbers(written, part, int(match["number"] or 0), int(match["leg"] or 0), scope)


def _check_numbers(written: Written, part: MemberSpec, number: int, leg: int, scope: Scope) -> None:
    count, legs = copies_of(part), legs_of(part)
    if number > count or (number and count == 1):
        many = (
            f"there are {count} of {part.name}" if count > 1 else f"there is one {part.name} only: leave the number out"
        )
        scope.wrong_at(written, f"{excerpt(written.text)}: {many}")
    elif leg > legs or (leg and legs == 1):
        told = (
            f"each {part.name} has {legs} legs" if legs > 1 else f"{part.name} has no mitred corner: leave the leg out"
        )
        scope.wrong_at(written, f"{excerpt(written.text)}: {told}")


def copies_of(part: MemberSpec) -> int:
    """How often a part is made by its repeats and mirrors."""
    each = (
        len(one.offsets) if isinstance(one, Along) else 2 if isinstance(one, Mirror) else one.count
        for one in part.placings
    )
    return math.prod(each)


def legs_of(part: MemberSpec) -> int:
    """How many members one copy is in the end: it is parted at every corner drawn without a radius."""
    if part.ring:
        return 1
    inner = part.radii if part.closed else part.radii[1:-1]
    sharp = sum(radius <= 0 for radius in inner)
    return max(sharp, 1) if part.closed else sharp + 1


def resolve_progress(shapes: Sequence[ProgressShape], scope: Scope) -> tuple[Progress, ...]:
    """What is kept of the steps; a step is kept once."""
    found: dict[str, Progress] = {}
    for shape in shapes:
        name = shape.step.text
        if name in found:
            what = f"{excerpt(name)} stands in line {found[name].line} already: keep one of the two"
            scope.wrong_at(shape.step, what)
            continue
        hours = scope.number(shape.hours, least=0, most=MOST_HOURS) if shape.hours else None
        found[name] = Progress(
            name, hours, _moment(shape.since, scope), _moment(shape.done, scope), shape.step.place.line
        )
    return tuple(found.values())


def _moment(written: Written | None, scope: Scope) -> datetime | None:
    if written is None:
        return None
    try:
        return datetime.fromisoformat(written.text.strip())
    except ValueError:
        what = f"{excerpt(written.text)} is not a date and time: write 2027-02-03 09:10, or the day alone"
        scope.wrong_at(written, what)
        return None
