"""What the photo's page shows: marks as lines on the picture, measures with their plus or minus, dims."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.job.marks import Photo
from fitwright.job.model import Job
from fitwright.place.photo import advice, doubts
from fitwright.place.photo.answering import PhotoAnswer
from fitwright.place.photo.showing import ShownMark, shown_marks
from fitwright.place.photo.solving import LIKELY, Measured, Solved
from fitwright.place.photo.telling import amount, camera_line, give, labels
from fitwright.place.photo.wishing import DimProposal
from fitwright.units import Style

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Line:
    """A mark on the picture: its paths, those that lead to it, what is written and where [px]."""

    kind: str
    name: str
    along: str
    path: str
    lead: str
    text: str
    u: float
    v: float


@dataclass(frozen=True)
class SpotTold:
    """A spot: its name, its place [px], whether it was marked by hand, and where it is on the piece."""

    name: str
    u: float
    v: float
    by_hand: bool
    place: str


@dataclass(frozen=True)
class Row:
    """One length: what is written beside it on the picture, its name, its value, ± and that as a part of it."""

    text: str
    name: str
    value: str
    plus_minus: str
    part: str
    known: bool


@dataclass(frozen=True)
class DimTold:
    """A dim: what it is reckoned from, on the old piece, in proportion with ±, proposed, why, in the job."""

    name: str
    source: str
    old: str
    shown: str
    spread: str
    proposed: str
    why: str
    now: str
    taken: bool
    agrees: bool
    can_be_taken: bool


@dataclass(frozen=True)
class PhotoTold:
    """The whole answer in words and lines."""

    lines: tuple[Line, ...]
    spots: tuple[SpotTold, ...]
    rows: tuple[Row, ...]
    dims: tuple[DimTold, ...]
    scale: str
    camera: str
    doubts: tuple[str, ...]
    helps: tuple[str, ...]
    wrong: str
    laid: bool


def photo_told(job: Job, answer: PhotoAnswer, thorough: bool = True) -> PhotoTold:
    """Everything of one answer; thorough: with what would help most, which takes longest."""
    assert job.photo is not None, "the photo of a job that has one"
    solved, style = answer.solved, job.style
    texts = labels(job.photo)
    if solved is None:
        return PhotoTold((), _spots(job.photo, None, job), (), (), "", "", (), (), answer.wrong, False)
    dims = answer.dims
    return PhotoTold(
        lines=tuple(_line(mark, texts.get(mark.name, "")) for mark in shown_marks(solved)),
        spots=_spots(job.photo, solved, job),
        rows=(*_known(job.photo, solved, texts, style), *(_row(one, texts, style) for one in solved.measures)),
        dims=tuple(_dim(row, dims.sized, style) for row in dims.rows) if dims else (),
        scale=f"{100 * dims.scale:.0f} %" if dims and dims.sized else "",
        camera=camera_line(solved),
        doubts=(*(one.text for one in doubts(solved)), *answer.not_found),
        helps=tuple(_help(solved, style)) if thorough else (),
        wrong=answer.wrong,
        laid=any(spot.place for spot in job.photo.spots.values()),
    )


def _line(mark: ShownMark, text: str) -> Line:
    u, v = (float(value) for value in mark.at)
    return Line(mark.kind, mark.name, mark.along, _path(mark.lines), _path(mark.lead), text, u, v)


def _path(lines: Sequence[Floats]) -> str:
    return "".join("M" + "L".join(f"{u:.1f} {v:.1f}" for u, v in line) for line in lines)


def _spots(photo: Photo, solved: Solved | None, job: Job) -> tuple[SpotTold, ...]:
    style = job.style
    told = [
        SpotTold(name, spot.u, spot.v, True, ", ".join(style.length(one) for one in spot.place) if spot.place else "")
        for name, spot in photo.spots.items()
    ]
    found = solved.photo.spots.items() if solved else ()
    return (*told, *(SpotTold(name, one.u, one.v, False, "") for name, one in found if name not in photo.spots))


def _known(photo: Photo, solved: Solved, texts: dict[str, str], style: Style) -> list[Row]:
    return [
        Row(texts[name], name, style.length(one.value), give(LIKELY * one.sigma, style),
            "not used" if name in solved.ignored else "", True)
        for name, one in photo.known.items()
    ]  # fmt: skip


def _row(one: Measured, texts: dict[str, str], style: Style) -> Row:
    if one.value is None or one.plus_minus is None:
        return Row(texts[one.name], one.name, amount(one, style), "", "", False)
    part = f"{100 * one.plus_minus / max(one.value, 1e-9):.1f} %"
    return Row(texts[one.name], one.name, style.length(one.value), give(one.plus_minus, style), part, False)


def _dim(row: DimProposal, sized: bool, style: Style) -> DimTold:
    why = "held" if row.mark.held else row.proposed.why.value
    can = not row.taken and not row.mark.held and "." not in row.mark.name
    return DimTold(
        row.mark.name, row.mark.text, style.length(row.old.value) if sized else f"{row.old.value:.3f}",
        style.length(row.proposed.shown), give(row.spread, style), style.length(row.proposed.value), why,
        style.length(row.now), row.taken, row.agrees, can,
    )  # fmt: skip


def _help(solved: Solved, style: Style) -> list[str]:
    return [f"{one.measure}: {one.text} (± {give(one.now, style)} would become ± {give(one.then, style)})"
            for one in advice(solved)]  # fmt: skip
