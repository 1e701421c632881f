"""From measures on a photo to readings that dims can be proposed from."""

from __future__ import annotations

from fitwright.place.photo.proposal import Reading
from fitwright.place.photo.solving import Solved


def readings(solved: Solved) -> dict[str, Reading]:
    """Each measure and its plus or minus by name: in mm where lengths are known, else as shares of the first measure.

    Without any known length only those are given that hang together with the first: shares of different things say
    nothing of one another; `propose` then needs a held dim to know the size.
    """
    sized = {one.name: one for one in solved.measures if one.value and one.plus_minus is not None}
    if sized:
        return {name: Reading(one.value or 0.0, one.plus_minus or 0.0) for name, one in sized.items()}
    first = solved.measures[0].share_of if solved.measures else ""
    return {
        one.name: Reading(one.share, one.share_plus_minus)
        for one in solved.measures
        if one.share_of == first and one.share
    }
