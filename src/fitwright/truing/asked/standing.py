"""Readings outside to outside, corner to corner and over the floor."""

from __future__ import annotations

import numpy as np

from fitwright.job.readings import Of, Quantity
from fitwright.mechanics.variation.reading import distance
from fitwright.mechanics.variation.stagewise import joined_after
from fitwright.truing.asked.set_up import on_bench
from fitwright.truing.asked.subject import Subject
from fitwright.truing.errors import TruingError
from fitwright.truing.functional import Asked
from fitwright.truing.loose import Chain, spanned
from fitwright.truing.spots import Spots

FACES = {
    "front": (
        ("bottom", "front", "left"),
        ("top", "front", "right"),
        ("bottom", "front", "right"),
        ("top", "front", "left"),
    ),
    "back": (
        ("bottom", "back", "left"),
        ("top", "back", "right"),
        ("bottom", "back", "right"),
        ("top", "back", "left"),
    ),
    "left": (
        ("bottom", "front", "left"),
        ("top", "back", "left"),
        ("bottom", "back", "left"),
        ("top", "front", "left"),
    ),
    "right": (
        ("bottom", "front", "right"),
        ("top", "back", "right"),
        ("bottom", "back", "right"),
        ("top", "front", "right"),
    ),
    **{
        level: ((level, "front", "left"), (level, "back", "right"), (level, "front", "right"), (level, "back", "left"))
        for level in ("bottom", "middle", "top")
    },
}


def across(asking: Subject, of: Of) -> Asked:
    """A width or a depth outside to outside."""
    members = asking.names.members(of.thing)
    drawn, probes = Spots(asking.setting, members).across(0 if of.quantity is Quantity.WIDTH else 1, of.place)
    stage = joined_after(asking.setting, members) if of.thing else asking.last
    if stage == 0 and len(probes) >= 2:
        chain = Chain(asking.setting, members[0])
        row = np.zeros(len(asking.setting.found))
        row[[number for number, _ in chain.into_gaps]] = 1.0
        pair = probes[:2]
        middle = float(np.linalg.norm(pair[1].point - pair[0].point))
        return Asked(
            drawn, 0, members, pair, row=row, exact=lambda errors: drawn - middle + spanned(chain, pair, errors)
        )
    return Asked(drawn, stage, members, probes)


def height(asking: Subject, of: Of) -> Asked:
    """A height over the floor, or of a part from its lowest to its highest."""
    members = asking.names.members(of.thing)
    drawn, probes = Spots(asking.setting, members).height(of.place, standing=not of.thing)
    return Asked(drawn, joined_after(asking.setting, members) if of.thing else asking.last, members, probes)


def diagonal(asking: Subject, of: Of) -> Asked:
    """A diagonal of a face of the standing piece, or of a set-up on the bench."""
    if of.place:
        spots = Spots(asking.setting, asking.names.members(""))
        ends = [spots.corner(*FACES[of.place][2 * of.number - 2 + i]) for i in (0, 1)]
        if ends[0] == ends[1]:
            raise TruingError(f"{of}: that face has no four corners")
        at = asking.setting.parts.model.nodes
        drawn, probes = distance((ends[0], at[ends[0]]), (ends[1], at[ends[1]]))
        return Asked(drawn, asking.last, spots.members, probes, unknown={f"how a tape lies at the {of.place}": 1.0})
    return on_bench(asking, of, "diagonal", lambda found: found[of.number - 1] if len(found) >= of.number else None)
