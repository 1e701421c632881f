"""photo.dims: which dims take their size from the photo, and how."""

from __future__ import annotations

from collections.abc import Iterable

from fitwright.job.arithmetic import ArithmeticFault, Formula, Quantity, evaluate, names_in, read
from fitwright.job.arithmetic.formula import Name
from fitwright.job.dims import mistake_of
from fitwright.job.marks import DimMark
from fitwright.job.mistakes import excerpt, nearest
from fitwright.job.resolve.scope import Scope, offered
from fitwright.job.shape.photo import DimMarkShape, PhotoShape
from fitwright.job.written import Written

LEAST_WEIGHT, MOST_WEIGHT = 0.01, 1000.0


def photo_dims(shape: PhotoShape, scope: Scope) -> dict[str, DimMark]:
    """The dims that are proposed from the photo's measures."""
    found = {name: _dim(name, entry, shape, scope) for name, entry in shape.dims.items()}
    for name, entry in shape.dims.items():
        if isinstance(entry, DimMarkShape) and entry.keep and (entry.keep.text not in found or entry.keep.text == name):
            others = [other for other in found if other != name]
            what = f"{excerpt(entry.keep.text)} is not another dim that is proposed here"
            scope.wrong_at(entry.keep, what, offered(others), nearest(entry.keep.text, others))
    return found


def _dim(name: str, entry: Written | DimMarkShape, shape: PhotoShape, scope: Scope) -> DimMark:
    _a_length(name, scope)
    shown = entry.shown if isinstance(entry, DimMarkShape) else entry
    formula = _formula(shown, shape.measures, scope)
    if not isinstance(entry, DimMarkShape):
        return DimMark(name, shown.text, formula)
    least, most = (scope.optional_length(one, above=0.0) for one in (entry.least, entry.most))
    if entry.least is not None and least is not None and most is not None and least > most:
        scope.wrong_at(entry.least, "the least is more than the most: change one of them")
    return DimMark(
        name,
        shown.text,
        formula,
        held=entry.held,
        keep=entry.keep.text if entry.keep else None,
        weight=scope.number(entry.weight, least=LEAST_WEIGHT, most=MOST_WEIGHT) if entry.weight else 1.0,
        least=least,
        most=most,
        fits=entry.fits,
        step=scope.optional_length(entry.step, above=0.0),
    )


def _a_length(name: str, scope: Scope) -> None:
    """Tell when what is to be proposed is no dim of the job and no size of its stock."""
    place = scope.key_place("photo", "dims", name)
    scope.length(Written(name, f"photo.dims.{name}", place), above=0.0)


def _formula(written: Written, measures: Iterable[str], scope: Scope) -> Formula:
    """Arithmetic on measures; the name of one as it stands may have spaces in it."""
    whole = Name(0, written.text)
    if written.text in measures:
        return whole
    found = read(written.text)
    if isinstance(found, ArithmeticFault):
        scope.mistakes.append(mistake_of(found, written))
        return whole
    for name in names_in(found):
        if name.name not in measures:
            what = f"{excerpt(name.name)} is not measured on the photo"
            scope.wrong_at(written, what, offered(measures), nearest(name.name, tuple(measures)))
            return whole
    try:
        quantity = evaluate(found, lambda _: Quantity(1.0, 1), scope.dims.unit_mm)
    except ArithmeticFault as fault:
        scope.mistakes.append(mistake_of(fault, written))
        return whole
    if quantity.power != 1 or quantity.degrees:
        scope.wrong_at(written, f"{excerpt(written.text)} is {quantity.words}; a length off the photo belongs here")
    return found
