"""A page before it is typeset: what kind it is, what it says, and its pictures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from fitwright.sheets.drawing import Drawing
from fitwright.sheets.photo_drawing import Shot

Json = dict[str, Any]


@dataclass(frozen=True, eq=False)
class Page:
    """One sheet of the packet, which may run over several pages of paper.

    kind: the template that lays it out; content: plain JSON for it; pictures: drawings by the name that content uses;
    whole: a drawing that is the sheet itself; joins: short enough to stand under the sheet before where there is room;
    shots: photos with lines over them, and how wide each is printed [mm].
    """

    kind: str
    title: str
    content: Json
    pictures: Mapping[str, Drawing] = field(default_factory=dict)
    whole: Drawing | None = None
    joins: bool = False
    shots: Mapping[str, tuple[Shot, float]] = field(default_factory=dict)


@dataclass(frozen=True)
class Head:
    """What every page says: the job, when the packet was made, the unit, the paper."""

    title: str
    job: str
    said: str
    made: str
    paper: str
