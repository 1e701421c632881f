"""How findings name a part of the frame and a place on it, in the maker's words."""

from __future__ import annotations

import numpy as np

from fitwright.job.model import Job
from fitwright.mechanics.framing import Framed


def part_words(framed: Framed, part: str) -> str:
    """A part with the marks of its members: `hoop (A)`.

    All marks that its copies carry are named, two at most before the rest is counted.
    """
    names = [line.member.name for line in framed.lines.values() if line.member.part == part]
    marks = list(dict.fromkeys(framed.piece.mark_of[name] for name in names if name in framed.piece.mark_of))
    return f"{part} ({', '.join(marks)})" if marks and len(marks) <= 4 else part


def place_words(job: Job, framed: Framed, element: int, station: int) -> str:
    """Where on its member a station of an element lies: `25 1/4" above the floor` or `9" from its left end`."""
    ends = framed.model.ends[element]
    point = ends[0] + (ends[1] - ends[0]) * station / 2
    if framed.slope[element] > 0.3 or framed.curved[element]:
        return f"{job.style.length(float(point[2]))} above the floor"
    own = framed.model.ends[framed.elements_of[int(framed.member_of[element])]]
    axis = int(np.argmax(np.abs(ends[1] - ends[0])[:2]))
    low = float(own[:, :, axis].min())
    return f"{job.style.length(float(point[axis]) - low)} from its {('left', 'front')[axis]} end"
