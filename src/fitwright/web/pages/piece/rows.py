"""The dims as the page lists them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fitwright.job.model import Dim, Job
from fitwright.units import Style
from fitwright.web.pages.piece.stepping import can_step, step_in_words
from fitwright.web.words import comes_to, plainly

PLACES = {"space": "the place", "brief": "the brief", "stock": "the stock", "joints": "joints"}


@dataclass(frozen=True)
class DimRow:
    """One dim: what is written, what it comes to where that is not the same, what one step is, and what moves with it.

    step: empty for arithmetic, which has no stepper.
    """

    name: str
    text: str
    value: str
    step: str
    moves: tuple[str, ...]


def dim_rows(job: Job, using: Mapping[str, list[tuple[str, str]]]) -> list[DimRow]:
    """One row a dim, in the order of the file; using: what uses each dim."""
    return [_row(dim, job.style, using.get(dim.name, [])) for dim in job.dims.values()]


def _row(dim: Dim, style: Style, places: list[tuple[str, str]]) -> DimRow:
    steps = can_step(dim.text, dim.is_length, style)
    moves = tuple(PLACES.get(kind, plainly(name)) for kind, name in places)
    step = step_in_words(dim.is_length, style) if steps else ""
    return DimRow(dim.name, dim.text, comes_to(dim, style), step, moves)
